import { teethIn } from './key-readers.ts';
import { type Lexed, one } from './lexed.ts';
import { shown } from './normalise.ts';
import { unitOf } from './quantities.ts';
import type { Question } from './reading.ts';

const SPROCKET = /^\d{1,2}$/;

/** Most sprockets of a cassette. */
const LONGEST_RUN = 13;

/** "11, 13, 15, 17, …" or "11 13 15 17 …": five whole numbers or more that rise, or fall, are the sprockets. */
export function lexRun(words: readonly string[], at: number): Lexed | null {
  if (!SPROCKET.test(words[at] ?? '') || !SPROCKET.test(words[words[at + 1] === ',' ? at + 2 : at + 1] ?? ''))
    return null;
  const numbers: number[] = [];
  let next = at;
  let end = at;
  while (numbers.length <= LONGEST_RUN && SPROCKET.test(words[next] ?? '')) {
    numbers.push(Number(words[next]));
    end = next + 1;
    next = words[end] === ',' ? end + 1 : end;
  }
  const steps = numbers.slice(1).map((teeth, index) => Math.sign(teeth - (numbers[index] ?? 0)));
  if (numbers.length < 5 || !steps.every((step) => step !== 0 && step === steps[0])) return null;
  return one({ kind: 'list', numbers, joint: ',', text: numbers.join('-') }, end - at);
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
