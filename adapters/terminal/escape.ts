import { PLAIN_TEXT } from './plain-text.ts';

/**
 * Characters that could move the cursor, colour, hide or reorder text: controls, format characters (bidirectional
 * overrides and zero-width ones among them), lone surrogates, private and unassigned code points.
 */
const UNSAFE = /[\p{Cc}\p{Cf}\p{Cs}\p{Co}\p{Cn}\p{Zl}\p{Zp}\p{Default_Ignorable_Code_Point}]/u;
const UNSAFE_EACH = new RegExp(UNSAFE.source, 'gu');

/** A word with a letter of a script written from right to left. */
const RIGHT_TO_LEFT_WORD = /\S*[\u0590-\u08ff\ufb1d-\ufdff\ufe70-\ufefc\u{10800}-\u{10fff}\u{1e800}-\u{1efff}]\S*/gu;

const BLANKS = '\t\n\v\f\r\u0085\u2028\u2029';

/**
 * Text that is inert on any terminal: line breaks and tabs become spaces, every other unsafe character becomes a
 * visible U+FFFD, and a right-to-left word is isolated so that it cannot reorder what stands beside it.
 */
export function inert(text: string): string {
  if (PLAIN_TEXT.test(text)) return text;
  const safe = UNSAFE.test(text)
    ? text.replace(UNSAFE_EACH, (character) => (BLANKS.includes(character) ? ' ' : '\ufffd'))
    : text;
  return safe.normalize('NFC').replace(RIGHT_TO_LEFT_WORD, '\u2068$&\u2069');
}

/** JSON whose every unsafe character is written as an escape: the same data, harmless when a terminal shows it. */
export function inertJson(value: unknown): string {
  const json = JSON.stringify(value);
  if (PLAIN_TEXT.test(json)) return json;
  return json.replace(UNSAFE_EACH, (character) => {
    let escaped = '';
    for (let index = 0; index < character.length; index += 1) {
      escaped += `\\u${character.charCodeAt(index).toString(16).padStart(4, '0')}`;
    }
    return escaped;
  });
}
