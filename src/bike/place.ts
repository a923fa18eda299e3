import { type Claims, doubt, refuse, tell } from './claims.ts';
import type { Amount, Item, List } from './items.ts';
import { readAmount, readTeeth } from './key-readers.ts';
import { KEYS, type Key, type KeyName } from './keys.ts';
import type { Label } from './phrases.ts';
import { isInch, readQuantity } from './quantities.ts';
import { settling } from './value-text.ts';
import { readWheel } from './wheel-sizes.ts';

const RING = KEYS.rings;
const SPROCKET = KEYS.cassette;

/** Labels of what stands behind them, never of what stands before. */
const AHEAD = new Set<Label>(['toward', 'with', 'circle-weak']);

/** Labels that say the same of a number, so that "want a 32 ring" names one number once. */
const FAMILY: Partial<Record<Label, string>> = {
  ring: 'ring',
  wanted: 'ring',
  toward: 'ring',
  plea: 'ring',
  with: 'ring',
  bcd: 'circle',
  'circle-weak': 'circle',
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
  items.forEach((item, at) => {
    if (item.kind === 'amount' || item.kind === 'list') placeNumber(item, at, items, used, claims);
    else take(item, claims);
  });
}

function take(item: Exclude<Item, Amount | List>, claims: Claims): void {
  switch (item.kind) {
    case 'fact':
      if (item.forced !== true) tell(claims, item.key, item.value);
      break;
    case 'layout':
      if (item.rings === 1) claims.singles.push(item.speeds ?? 0);
      else {
        claims.ringCounts.push({ count: item.rings, text: item.text });
        if (item.speeds !== null) tell(claims, 'speeds', item.speeds);
      }
      break;
    case 'usual-rings':
      claims.usualRings = item.rings;
      break;
    case 'mech':
      claims.mech = true;
      break;
    case 'uneven':
      claims.uneven = true;
      break;
    case 'part':
      takePart(item.part, item.teeth, claims);
      break;
    case 'unread':
      claims.unread.push(item.text);
      break;
    case 'open':
      claims.open.push(item.question);
      break;
    case 'doubt':
      doubt(claims, [item.question.field], item.question);
      break;
    case 'refused':
      refuse(claims, item.refusal);
      break;
    case 'label':
    case 'break':
      break;
  }
}

function placeNumber(item: Amount | List, at: number, items: readonly Item[], used: Set<Item>, claims: Claims): void {
  const before = labelAt(items, at - 1, used);
  const behind = labelAt(items, at + 1, used);
  const after = behind !== null && AHEAD.has(behind.label) ? null : behind;
  if (before?.label === 'most' && behind !== null && item.kind === 'amount' && MOST_OF[behind.label] !== undefined) {
    used.add(before).add(behind);
    told(MOST_OF[behind.label] ?? 'maxcog', item, claims);
    return;
  }
  const chosen =
    (before !== null && fits(before.label, item) ? before : null) ??
    (after !== null && fits(after.label, item) && !belongsAhead(after, item, items[at + 2]) ? after : null) ??
    strict(before, item) ??
    strict(after, item) ??
    across(items, at, used);
  if (chosen === null) {
    if (item.kind === 'list') claims.lists.push(item);
    else claims.amounts.push(before?.label === 'toward' ? { ...item, toward: true } : item);
    return;
  }
  used.add(chosen);
  if (chosen === before && after !== null && FAMILY[after.label] === family(before.label)) used.add(after);
  if (item.kind === 'amount') placeAmount(chosen.label, item, claims);
  else placeList(chosen.label, item, claims);
}

function fits(label: Label, item: Amount | List): boolean {
  return item.kind === 'amount' ? amountFits(label, item) : listFits(label, item);
}

/**
 * "36/22 for a single 32", "29 in stays 440": what can stand without a label leaves it to the number behind it, where
 * that can be what the label says.
 */
function belongsAhead(after: LabelItem, item: Amount | List, next: Item | undefined): boolean {
  if (next === undefined || (next.kind !== 'amount' && next.kind !== 'list') || !fits(after.label, next)) return false;
  return item.kind === 'list' || (isInch(item.quantity.written) && readWheel(item.text).kind !== 'refused');
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
  return STRICT.has(label.label) &&
    KEYS[label.label as KeyName] !== undefined &&
    unitAgrees(label.label as KeyName, item)
    ? label
    : null;
}

const STRICT = new Set<Label>([
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
  'oval',
  'rider',
]);

function unitAgrees(key: KeyName, item: Amount): boolean {
  const { unit } = KEYS[key] as Key;
  return item.quantity.unit === null || item.quantity.unit === unit;
}

function amountFits(label: Label, item: Amount): boolean {
  const { value, unit } = item.quantity;
  const teeth = unit === null || unit === 'teeth';
  const ring = teeth && value >= RING.low && value <= RING.high;
  const length = unit === null || unit === 'mm';
  switch (label) {
    case 'front':
    case 'wanted':
    case 'toward':
    case 'plea':
    case 'ring-part':
      return ring;
    case 'with':
      return ring && unit === 'teeth';
    case 'rings':
      return ring || (unit === null && value >= 1 && value <= 3);
    case 'rear':
    case 'fitted':
    case 'cassette':
    case 'newcassette':
      return false;
    case 'sprockets':
      return unit === null && value >= 5 && value <= 13;
    case 'speeds':
    case 'gears':
      return unit === null && Number.isInteger(value) && value >= 5 && value <= 39;
    case 'smallest':
      return teeth && value >= SPROCKET.low && value <= 21;
    case 'largest':
    case 'dinner-plate':
    case 'most':
      return teeth && value >= 18 && value <= SPROCKET.high;
    case 'travel':
      return length && value >= 40 && value <= 300;
    case 'tyre':
      return length && value > 0.9 && value <= 130;
    case 'circle-weak':
      return length && value > RING.high && value <= KEYS.bcd.high;
    case 'wheel':
      return readWheel(item.text).kind !== 'refused';
    default:
      return readAmount(label, item.quantity, item.text).kind === 'value';
  }
}

function placeAmount(label: Label, item: Amount, claims: Claims): void {
  const { value } = item.quantity;
  switch (label) {
    case 'front':
      // One number at the front may be the ring fitted or the ring wanted.
      claims.amounts.push(item);
      break;
    case 'wanted':
    case 'toward':
    case 'plea':
    case 'with':
      told('ring', item, claims);
      break;
    case 'ring-part':
      takePart('ring', value, claims);
      break;
    case 'smallest':
    case 'largest':
      takePart(label, value, claims);
      break;
    case 'rings':
      if (value <= 3) claims.ringCounts.push({ count: value, text: `${value} rings` });
      else tell(claims, 'rings', [value]);
      break;
    case 'sprockets':
      tell(claims, 'speeds', value);
      break;
    case 'speeds':
    case 'gears':
      claims.speedCounts.push(value);
      break;
    case 'dinner-plate':
      dinnerPlate(value, claims);
      break;
    case 'most':
      claims.mosts.push(value);
      break;
    case 'travel':
      claims.unread.push(item.text);
      break;
    case 'tyre':
      claims.tyreWidths.push(item);
      break;
    case 'circle-weak':
      told('bcd', item, claims);
      break;
    case 'wheel':
      toldWheel(item.text, claims);
      break;
    case 'rear':
    case 'fitted':
    case 'cassette':
    case 'newcassette':
      claims.amounts.push(item);
      break;
    default:
      told(label, item, claims);
  }
}

/** A sprocket called after a dinner plate is the largest one: of the cassette that has it, or of one to be named. */
function dinnerPlate(teeth: number, claims: Claims): void {
  doubt(claims, ['cassette', 'newcassette'], {
    field: 'cassette',
    question: `Is the ${teeth} the largest sprocket fitted now, or of a cassette you want?`,
    choices: [
      { label: `Fitted, 11-${teeth}`, setup: settling('cassette', `11-${teeth}`) },
      { label: `Wanted, 11-${teeth}`, setup: settling('newcassette', `11-${teeth}`) },
    ],
  });
}

export function told(key: KeyName, item: Amount, claims: Claims): void {
  const read = readAmount(key, item.quantity, item.text);
  if (read.kind === 'value') tell(claims, key, read.value);
  else if (read.kind === 'refused') refuse(claims, read.refusal);
}

export function toldWheel(text: string, claims: Claims): void {
  const read = readWheel(text);
  if (read.kind === 'value') tell(claims, 'wheel', read.value);
  else if (read.kind === 'open') claims.open.push(read.question);
  else refuse(claims, read.refusal);
}

function takePart(part: 'ring' | 'smallest' | 'largest', teeth: number, claims: Claims): void {
  if (part === 'ring') claims.ringParts.push(teeth);
  else if (part === 'smallest') claims.smallestTeeth = teeth;
  else claims.largestTeeth = teeth;
}

/** A list under a label that is one length: the comma was a decimal one. */
function asLength(item: List): Amount | null {
  const quantity = item.joint === ',' && item.numbers.length === 2 ? readQuantity(item.text) : null;
  return quantity === null ? null : { kind: 'amount', quantity, text: item.text };
}

function listFits(label: Label, item: List): boolean {
  const { numbers } = item;
  const rings = numbers.length <= 3 && numbers.every((teeth) => teeth >= RING.low && teeth <= RING.high);
  switch (label) {
    case 'rings':
    case 'front':
    case 'ring':
    case 'ring-part':
      return rings;
    case 'cassette':
    case 'newcassette':
    case 'rear':
    case 'sprockets':
      return numbers.every((teeth) => teeth >= SPROCKET.low && teeth <= SPROCKET.high);
    case 'wanted':
    case 'toward':
      return Math.min(...numbers) <= 16 && numbers.length !== 3;
    case 'bcd':
    case 'circle-weak':
      return numbers.length === 2 && numbers.every((each) => each >= 50 && each <= KEYS.bcd.high);
    case 'gap':
      return numbers.length === 2;
    default: {
      const length = asLength(item);
      return length !== null && amountFits(label, length);
    }
  }
}

function placeList(label: Label, item: List, claims: Claims): void {
  switch (label) {
    case 'rings':
    case 'front':
    case 'ring':
    case 'ring-part':
      toldTeeth('rings', item, claims);
      break;
    case 'cassette':
    case 'rear':
    case 'sprockets':
      toldTeeth('cassette', item, claims);
      break;
    case 'newcassette':
    case 'wanted':
    case 'toward':
      toldTeeth('newcassette', item, claims);
      break;
    case 'bcd':
    case 'circle-weak':
      tell(claims, 'bcd', Math.max(...item.numbers));
      break;
    default: {
      const length = asLength(item);
      if (length !== null) placeAmount(label, length, claims);
      else if (label === 'gap') tell(claims, 'gap', item.numbers);
    }
  }
}

export function toldTeeth(key: 'rings' | 'cassette' | 'newcassette', item: List, claims: Claims): void {
  const read = readTeeth(key, item.numbers, item.text);
  if (read.kind === 'value') tell(claims, key, read.value);
  else if (read.kind === 'refused') refuse(claims, read.refusal);
}
