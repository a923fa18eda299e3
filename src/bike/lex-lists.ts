import { teethIn } from './key-readers.ts';
import { KEYS } from './keys.ts';
import { type Lexed, one } from './lexed.ts';
import { shown } from './normalise.ts';
import { type Label, phraseAt } from './phrases.ts';
import { unitOf } from './quantities.ts';
import type { Question } from './reading.ts';
import { BREAK } from './words.ts';

const TEETH = /^\d{1,2}t?$/;

/** Most sprockets of a cassette. */
const LONGEST_RUN = 13;
const MOST_RINGS = 3;

/** Words that stand before their number, as a rule. */
const OPENS = new Set<Label>(['rings', 'cassette', 'newcassette', 'bcd', 'stays', 'chain', 'hub', 'chainline']);

const OF_RINGS = new Set<Label>(['rings', 'front']);
const OF_CASSETTES = new Set<Label>(['cassette', 'newcassette', 'rear']);

/**
 * "11, 13, 15, 17, …" or "11 13 15 17 …": five whole numbers or more that rise, or fall, are the sprockets. Behind a
 * word that wants a list two are enough: "rings 44, 32, 22", "cassette 11, 36".
 */
export function lexRun(words: readonly string[], at: number, before: Label | undefined): Lexed | null {
  if (!TEETH.test(words[at] ?? '') || !TEETH.test(words[words[at + 1] === BREAK ? at + 2 : at + 1] ?? '')) return null;
  const rings = before !== undefined && OF_RINGS.has(before);
  const most = rings ? MOST_RINGS : LONGEST_RUN;
  const numbers: number[] = [];
  let next = at;
  let end = at;
  while (numbers.length < most && TEETH.test(words[next] ?? '') && !isTaken(words, next)) {
    const teeth = Number.parseInt(words[next] ?? '', 10);
    const [first = 0, second = teeth] = numbers;
    const last = numbers.at(-1) ?? 0;
    if (numbers.length > 0 && (teeth === last || Math.sign(teeth - last) !== Math.sign(second - first))) break;
    if (rings && (teeth < KEYS.rings.low || teeth > KEYS.rings.high)) break;
    numbers.push(teeth);
    end = next + 1;
    next = words[end] === BREAK ? end + 1 : end;
  }
  const ends = numbers.length === 2 && before !== undefined && OF_CASSETTES.has(before) && Math.min(...numbers) <= 16;
  if (numbers.length < 5 && !ends && !(rings && numbers.length > 1)) return null;
  return one({ kind: 'list', numbers, joint: ',', text: numbers.join(ends || rings ? '/' : '-') }, end - at);
}

/** Whether a number belongs to the word behind it: the 10 of "36, 22, 10 speed". */
function isTaken(words: readonly string[], at: number): boolean {
  const next = words[at + 1] ?? '';
  const unit = unitOf(next);
  if (unit !== null && unit !== 'teeth') return true;
  const phrase = phraseAt(words, at + 1);
  if (phrase?.meaning.kind !== 'label') return false;
  // "rings 36 22 cassette 11 36": the word opens the next list.
  const opens = OPENS.has(phrase.meaning.label) && /^\d/.test(words[at + 1 + phrase.words.length] ?? '');
  return !opens;
}

/** 36/22, 24t-36t, 11-13-15-…-36. */
export function lexList(word: string, next: string): Lexed {
  const numbers = teethIn(word);
  if (numbers === null) return one({ kind: 'unread', text: word }, 1);
  const dash = word.includes('-');
  const slash = word.includes('/');
  if (dash && slash) {
    const gear = GEAR.exec(word);
    if (gear !== null) return gearItems(Number(gear[1]), Number(gear[2]), Number(gear[3]), word);
    return one({ kind: 'doubt', question: whatIs(word) }, 1);
  }
  const joint = dash ? '-' : slash ? '/' : ',';
  const teeth = unitOf(next) === 'teeth';
  return one({ kind: 'list', numbers, joint, text: word }, teeth ? 2 : 1);
}

/** "32/11-42": the one ring of a bike, and its cassette. */
const GEAR = /^(\d{2})t?\/(\d{1,2})-(\d{2})t?$/;

function gearItems(ring: number, smallest: number, largest: number, text: string): Lexed {
  const quantity = { value: ring, unit: 'teeth', written: 't' } as const;
  return {
    items: [
      { kind: 'amount', quantity, text: `${ring}t` },
      { kind: 'list', numbers: [smallest, largest], joint: '-', text: text.slice(text.indexOf('/') + 1) },
    ],
    words: 1,
  };
}

/** The question about a word of digits and joints that is neither rings nor a cassette. */
export function whatIs(word: string): Question {
  return {
    field: 'rings',
    question: `What is ${shown(word)}? Rings are written 36/22, a cassette 11-36.`,
    choices: [],
  };
}
