import type { Value } from './fields.ts';
import type { Item } from './items.ts';
import { KEYS } from './keys.ts';
import type { Question } from './reading.ts';
import { settling } from './value-text.ts';
import { ASKED } from './words.ts';

/** A motor, with the watts on either side of it: they are its own, not the rider's. Returns the word to go on with. */
export function lexMotor(text: string, value: Value, words: readonly string[], at: number, items: Item[]): number {
  if (eitherMotor(value, text, words, at, items)) return words[at] === 'or' ? at + 2 : at;
  const watts: Item = { kind: 'label', label: 'motor', text };
  items.push(watts, { kind: 'fact', key: 'assist', value, text }, watts);
  return at;
}

/** "hub or mid-drive", "mid-drive or hub": neither is told. */
function eitherMotor(value: Value, text: string, words: readonly string[], at: number, items: Item[]): boolean {
  if (value !== 'mid-drive') return false;
  const last = items[items.length - 1];
  const from = at - text.split(' ').length;
  const hubBefore = words[from - 1] === 'or' && last?.kind === 'label' && last.label === 'hub';
  const hubBehind = words[at] === 'or' && words[at + 1] === 'hub' && words[at + 2] !== 'motor';
  if (!hubBefore && !hubBehind) return false;
  if (hubBefore) items.pop();
  const choices = (['hub', 'mid-drive'] as const).map((each) => ({ label: each, setup: settling('assist', each) }));
  items.push({
    kind: 'doubt',
    question: { field: 'assist', question: 'Does the motor sit in a hub, or at the cranks?', choices },
  });
  return true;
}

const COUNTED = new Set(['arm', 'arms', 'bolt', 'bolts', 'holes']);

/** "96 asym" and "asym 96" tell the circle as well; the number of "four uneven arms" counts them. */
export function lexPattern(text: string, said: Item, next: string, items: Item[]): void {
  const fact: Item = next === ASKED ? { kind: 'unread', text } : said;
  const last = items[items.length - 1];
  if (last?.kind === 'amount' && COUNTED.has(next)) {
    items.splice(-1, 0, fact);
    return;
  }
  const circle: Item = { kind: 'label', label: 'circle-near', text };
  items.push(circle, fact, circle);
}

const HUB_GEAR: Question = {
  field: 'cassette',
  question: "Is there a cassette beside the hub gear? A hub's own gears are not worked out here, nor its chain.",
  choices: [],
};

/** A gear in the hub has a count of its own, "3 speed hub", that is none of sprockets; "8 speed hub 135" is a width. */
export function lexHubGear(text: string, next: string, items: Item[]): void {
  if (text === 'speed hub' && Number.parseInt(next, 10) >= KEYS.hub.low) {
    items.push({ kind: 'label', label: 'speeds', text: 'speed' }, { kind: 'label', label: 'hub', text: 'hub' });
    return;
  }
  const last = items[items.length - 1];
  const counted = text.startsWith('speed ') && last?.kind === 'amount' ? last : null;
  if (counted !== null) items.pop();
  items.push({ kind: 'unread', text: counted === null ? text : `${counted.text} ${text}` });
  if (!items.some((item) => item.kind === 'open' && item.question === HUB_GEAR)) {
    items.push({ kind: 'open', question: HUB_GEAR });
  }
}
