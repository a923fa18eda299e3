import { isListedCircle } from './circle-pairs.ts';
import { type Claims, doubt } from './claims.ts';
import type { Amount, Item, List } from './items.ts';
import { KEYS, type Key, type KeyName } from './keys.ts';
import { fits } from './label-fits.ts';
import { shown } from './normalise.ts';
import type { Label } from './phrases.ts';
import { isInch } from './quantities.ts';
import type { Question } from './reading.ts';
import { isCirclePair } from './stray-lists.ts';
import { placeAmount, placeList, take, told } from './take.ts';
import { settling } from './value-text.ts';
import { readWheel } from './wheel-sizes.ts';

/** Labels of what stands behind them, never of what stands before. */
const AHEAD = new Set<Label>(['toward', 'circle-weak']);

/** Labels of what stands before them, never of what stands behind. */
const BEHIND = new Set<Label>(['other-part']);

/** Labels that say the same of a number, so that "want a 32 ring" names one number once. */
const FAMILY: Partial<Record<Label, string>> = {
  ring: 'ring',
  wanted: 'ring',
  toward: 'ring',
  plea: 'ring',
  bcd: 'circle',
  'circle-weak': 'circle',
  'circle-near': 'circle',
  cassette: 'cassette',
  newcassette: 'cassette',
  rear: 'cassette',
  sprockets: 'cassette',
  rings: 'rings',
  front: 'rings',
  maxcog: 'most',
  most: 'most',
  largest: 'most',
  wheel: 'wheel',
  tyre: 'wheel',
};

/**
 * Gives every number the label beside it: the one before where the number can be that, else the one behind. Numbers
 * without one are kept for the end, when the rest of the bike is known.
 */
export function place(items: readonly Item[], claims: Claims): void {
  const used = new Set<Item>();
  // Behind "to 1x12" a ring is the wanted one, and a cassette may be, up to the next comma.
  let wanting: number | null = null;
  items.forEach((item, at) => {
    if (item.kind === 'break') wanting = null;
    else if (item.kind === 'layout' && item.rings === 1) {
      const before = items[at - 1];
      if (before?.kind === 'label' && before.label === 'toward') wanting = item.speeds ?? 0;
    }
    if (item.kind === 'list') placeNumber(wanting ? { ...item, wanting } : item, at, items, used, claims);
    else if (item.kind === 'amount')
      placeNumber(wanting === null ? item : { ...item, wanting }, at, items, used, claims);
    else take(item, claims);
  });
  const oval = items.find((item) => item.kind === 'label' && item.label === 'oval' && !used.has(item));
  if (oval !== undefined) claims.open.push(HOW_OVAL);
}

const HOW_OVAL: Question = {
  field: 'oval',
  question: 'How oval is the ring, longest over shortest diameter? Usual are 10 to 12 % (memory).',
  choices: [10, 12].map((pct) => ({ label: `${pct} %`, setup: settling('oval', pct) })),
};

function placeNumber(item: Amount | List, at: number, items: readonly Item[], used: Set<Item>, claims: Claims): void {
  const ahead = labelAt(items, at - 1, used);
  const before = ahead !== null && BEHIND.has(ahead.label) ? null : ahead;
  const behind = labelAt(items, at + 1, used);
  const onlyAhead =
    behind !== null && (AHEAD.has(behind.label) || (behind.ahead === true && leads(behind, items[at + 2])));
  const after = onlyAhead ? null : behind;

  // "4 bolt gap 67.9": the number behind is the gap, the one before counts the bolts.
  if (item.kind === 'amount' && after?.label === 'gap' && /^bolts? /.test(after.text) && leads(after, items[at + 2])) {
    placeAmount('bolts', item, claims);
    return;
  }
  if (before?.label === 'most' && behind !== null && item.kind === 'amount' && MOST_OF[behind.label] !== undefined) {
    used.add(before).add(behind);
    told(MOST_OF[behind.label] ?? 'maxcog', item, claims);
    return;
  }
  const leftAlone = after !== null && belongsAhead(after, item, items[at + 2]);
  const chosen =
    (before !== null && fits(before.label, item) ? before : null) ??
    (after !== null && fits(after.label, item) && !leftAlone ? after : null) ??
    strict(before, item) ??
    (leftAlone || (after !== null && leads(after, items[at + 2])) ? null : strict(after, item)) ??
    across(items, at, used);
  if (chosen === null) {
    if (item.kind === 'list') {
      // "11-42 stays 440": a label with a number of its own behind it says nothing of the list before it.
      const one = oneNumberKey(before) ?? (items[at + 2]?.kind === 'amount' ? null : oneNumberKey(after));
      if (one === null || isCirclePair(item) || (ON_CRANKS.has(one) && fits('rings', item))) claims.lists.push(item);
      else doubt(claims, [one], wantsOne(one, item.text));
    } else if (besideBolts(items, at, used) && fits('bcd', item)) told('bcd', item, claims);
    else if ((item.wanting !== undefined || onCircle(behind, item, items[at + 2])) && fits('ring', item))
      told('ring', item, claims);
    else claims.amounts.push(before?.label === 'toward' ? { ...item, toward: true } : item);
    return;
  }
  used.add(chosen);
  // "want a 32 ring" names one number twice, "granny 22 middle 32" two numbers.
  if (
    chosen === before &&
    after !== null &&
    family(after.label) === family(before.label) &&
    !leads(after, items[at + 2])
  ) {
    used.add(after);
  }
  // What stands on both sides of its fact, as "rear shock" does, is one label.
  const between = items[at + 2];
  const aroundFact = between?.kind !== 'amount' && between?.kind !== 'list';
  const twin = items[at + 3];
  if (
    chosen === after &&
    aroundFact &&
    twin?.kind === 'label' &&
    twin.label === chosen.label &&
    twin.text === chosen.text
  ) {
    used.add(twin);
  }
  if (chosen.label === 'ring' && item.kind === 'amount' && (chosen.present || item.present)) {
    placeAmount('rings', item, claims);
  } else if (item.kind === 'amount') placeAmount(chosen.label, item, claims);
  else placeList(chosen.label, item, claims);
}

/**
 * "36/22 for a single 32", "29 in stays 440": what can stand without a label leaves it to the number behind it, where
 * that can be what the label says.
 */
function belongsAhead(after: LabelItem, item: Amount | List, next: Item | undefined): boolean {
  const wheel = item.kind === 'amount' && isInch(item.quantity.written) && readWheel(item.text).kind !== 'refused';
  // "20 in stays 1200": a length behind the word is the word's, even where it is out of range.
  if (wheel && STRICT.has(after.label) && next?.kind === 'amount' && next.quantity.value >= LEAST_LENGTH_MM)
    return true;
  return leads(after, next) && (item.kind === 'list' || wheel);
}

/** No count of teeth, bolts or sprockets is as large. */
const LEAST_LENGTH_MM = 100;

/** Whether a label has a number of its own behind it. */
function leads(label: LabelItem, next: Item | undefined): boolean {
  return (next?.kind === 'amount' || next?.kind === 'list') && fits(label.label, next);
}

/** "max 36 cog", "max 34 ring". */
const MOST_OF: Partial<Record<Label, 'maxcog' | 'maxring'>> = {
  ring: 'maxring',
  rings: 'maxring',
  front: 'maxring',
  sprockets: 'maxcog',
  cassette: 'maxcog',
  rear: 'maxcog',
};

/** Labels that still hold across a comma: "square taper cranks, 170 mm". */
const ACROSS = new Set<Label>(['ring', 'crank', 'hub', 'stays', 'bcd', 'gap']);

function across(items: readonly Item[], at: number, used: ReadonlySet<Item>): LabelItem | null {
  if (items[at - 1]?.kind !== 'break') return null;
  const label = labelAt(items, at - 2, used);
  const item = items[at];
  if (label === null || !ACROSS.has(label.label) || (item?.kind !== 'amount' && item?.kind !== 'list')) return null;
  return fits(label.label, item) ? label : null;
}

/** "30t on 104", "32t oval": what goes on a bolt circle, and what is oval, is the ring. */
function onCircle(behind: LabelItem | null, item: Amount, next: Item | undefined): boolean {
  if (behind?.label === 'oval' && item.quantity.unit === 'teeth') return true;
  return behind?.label === 'circle-weak' && item.quantity.value <= KEYS.ring.high && leads(behind, next);
}

/** "cranks 52/39/30", "spider 50/34": of what carries rings, a list in their range is the rings. */
const ON_CRANKS = new Set<KeyName>(['crank', 'bcd']);

/** The key of a label that holds one number: "cadence 80-90" is neither rings nor a bolt circle. */
function oneNumberKey(label: LabelItem | null): KeyName | null {
  if (label === null || label.label === 'rings' || label.label === 'ring') return null;
  return label.label === 'chain' || STRICT.has(label.label) ? (label.label as KeyName) : null;
}

function wantsOne(key: KeyName, text: string): Question {
  return {
    field: key,
    question: `What is ${shown(text)}? One number is wanted here, as in ${KEYS[key].example}.`,
    choices: [],
  };
}

/** "4 bolt 104", "104 4-arm": a number right beside the bolts can only be their circle. */
function besideBolts(items: readonly Item[], at: number, used: ReadonlySet<Item>): boolean {
  const before = items[at - 1];
  if (before?.kind === 'label' && before.label === 'bolts' && used.has(before)) return true;
  const count = items[at + 1];
  const label = items[at + 2];
  return count?.kind === 'amount' && label?.kind === 'label' && label.label === 'bolts' && fits('bolts', count);
}

type LabelItem = Extract<Item, { kind: 'label' }>;

function labelAt(items: readonly Item[], at: number, used: ReadonlySet<Item>): LabelItem | null {
  const item = items[at];
  return item !== undefined && item.kind === 'label' && !used.has(item) ? item : null;
}

function family(label: Label): string {
  return FAMILY[label] ?? label;
}

/** A label that must be about the number beside it, so that a number out of its range is refused by name. */
function strict(label: LabelItem | null, item: Amount | List): LabelItem | null {
  if (label === null || item.kind === 'list') return null;
  // "smallest ring for 110": of a ring, a listed circle is where it goes.
  if (label.label === 'ring' && isListedCircle(item.quantity.value) && item.quantity.unit === null) return null;
  return STRICT.has(label.label) &&
    KEYS[label.label as KeyName] !== undefined &&
    unitAgrees(label.label as KeyName, item)
    ? label
    : null;
}

const STRICT = new Set<Label>([
  'rings',
  'ring',
  'bcd',
  'bolts',
  'gap',
  'maxring',
  'stays',
  'longest',
  'chainline',
  'hub',
  'maxcog',
  'mincog',
  'capacity',
  'cadence',
  'crank',
  'wear',
  'offset',
  'allowance',
  'rider',
]);

function unitAgrees(key: KeyName, item: Amount): boolean {
  const { unit } = KEYS[key] as Key;
  return item.quantity.unit === null || item.quantity.unit === unit;
}
