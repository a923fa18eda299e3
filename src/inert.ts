/**
 * Characters that could move a cursor, colour, hide or reorder text: controls, format characters (bidirectional
 * overrides and zero-width ones among them), lone surrogates, private and unassigned code points.
 */
const UNSAFE = /[\p{Cc}\p{Cf}\p{Cs}\p{Co}\p{Cn}\p{Zl}\p{Zp}\p{Default_Ignorable_Code_Point}]/u;
export const UNSAFE_EACH = new RegExp(UNSAFE.source, 'gu');

/** A letter of a script written from right to left; and a word, which holds one or not. */
const RIGHT_TO_LEFT = /[\u0590-\u08ff\ufb1d-\ufdff\ufe70-\ufefc\u{10800}-\u{10fff}\u{1e800}-\u{1efff}]/u;
const WORD = /\S+/gu;

const BLANKS = '\t\n\v\f\r\u0085\u2028\u2029';

/**
 * Only characters that are harmless anywhere and take one column each on a terminal: what nearly every text here is
 * made of, so that the long way round is kept for the rest. Latin, Greek, punctuation without the invisible ones,
 * arrows, mathematical signs, box drawing.
 */
export const PLAIN_TEXT =
  /^[ -~\u00a0-\u00ac\u00ae-\u02ff\u0391-\u03c9\u2010-\u2027\u2030-\u205e\u2190-\u22ff\u2500-\u257f]*$/;

/**
 * Text that is inert wherever it is shown: line breaks and tabs become spaces, every other unsafe character becomes a
 * visible U+FFFD, and a right-to-left word is isolated so that it cannot reorder what stands beside it. An adapter calls
 * it in its last step, together with whatever its own platform takes for markup.
 */
export function inert(text: string): string {
  if (PLAIN_TEXT.test(text)) return text;
  const safe = UNSAFE.test(text) ? text.replace(UNSAFE_EACH, (each) => (BLANKS.includes(each) ? ' ' : '\ufffd')) : text;
  const whole = safe.normalize('NFC');
  if (!RIGHT_TO_LEFT.test(whole)) return whole;
  // Word by word: one pattern for both would look at a long word once for each of its letters.
  return whole.replace(WORD, (word) => (RIGHT_TO_LEFT.test(word) ? `\u2068${word}\u2069` : word));
}

/**
 * Inert text of at most `most` characters; a longer one says with an ellipsis that it goes on. No character of two units
 * is parted, and an isolate that is cut is closed.
 */
export function shortened(text: string, most: number): string {
  if (text.length <= most) return text;
  // Room for the ellipsis, and for an isolate to be closed.
  const cut = text.slice(0, most - 2).replace(/[\ud800-\udbff]$/, '');
  if (cut.lastIndexOf('\u2068') > cut.lastIndexOf('\u2069')) return `${cut}\u2069…`;
  return `${text.slice(0, most - 1).replace(/[\ud800-\udbff\u2068]$/, '')}…`;
}
