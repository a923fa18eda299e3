/**
 * Only characters that are harmless on a terminal and take one column each: what nearly every text here is made of, so
 * that the long way round is kept for the rest. Latin, Greek, punctuation without the invisible ones, arrows,
 * mathematical signs, box drawing.
 */
export const PLAIN_TEXT =
  /^[ -~\u00a0-\u00ac\u00ae-\u02ff\u0391-\u03c9\u2010-\u2027\u2030-\u205e\u2190-\u22ff\u2500-\u257f]*$/;
