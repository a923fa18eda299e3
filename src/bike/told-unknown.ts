import { phraseAt } from './phrases.ts';
import { ASKED, BREAK } from './words.ts';

/** "clutch, no idea", "guide: not sure", "clutch maybe": told to be unknown. */
export function isUnknown(words: readonly string[], at: number): boolean {
  let from = at;
  if (words[from] === BREAK || words[from] === ASKED) from += 1;
  let phrase = phraseAt(words, from);
  if (phrase?.meaning.kind === 'not') {
    from += phrase.words.length;
    if (words[from] === 'know') return ends(words, from + 1);
    phrase = phraseAt(words, from);
  }
  return phrase?.meaning.kind === 'unsure' && ends(words, from + phrase.words.length);
}

function ends(words: readonly string[], at: number): boolean {
  const word = words[at];
  return word === undefined || word === BREAK || word === ASKED;
}

const UNKNOWN = new Set(['unknown', 'unsure', 'dunno']);

/** How many words behind `key=` say that the value is not known: "clutch: no idea", "bcd=unknown"; 0 for a value. */
export function unknownValue(text: string, words: readonly string[], next: number): number {
  if (UNKNOWN.has(text)) return 1;
  if (text !== 'no' && text !== 'not') return 0;
  const phrase = phraseAt(words, next);
  return phrase?.meaning.kind === 'unsure' && ends(words, next + phrase.words.length) ? 1 + phrase.words.length : 0;
}
