import { type Claims, doubt, refuse, tell } from './claims.ts';
import type { Amount, Item, List } from './items.ts';
import { readAmount, readTeeth, readValue } from './key-readers.ts';
import { KEYS, type KeyName } from './keys.ts';
import { asLength } from './label-fits.ts';
import type { Label } from './phrases.ts';
import { readWheel } from './wheel-sizes.ts';

/** Takes what needs no label beside it. */
export function take(item: Exclude<Item, Amount | List>, claims: Claims): void {
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
    case 'uneven':
      claims.uneven = item.text;
      break;
    case 'mech':
      claims.mech = true;
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
      doubt(claims, item.about ?? [item.question.field], item.question);
      break;
    case 'refused':
      refuse(claims, item.refusal);
      break;
    case 'label':
    case 'break':
      break;
  }
}

/** Takes a number as what a label says. */
export function placeAmount(label: Label, item: Amount, claims: Claims): void {
  const { value } = item.quantity;
  switch (label) {
    case 'front':
      // One number at the front may be the ring fitted or the ring wanted.
      claims.amounts.push(item);
      break;
    case 'wanted':
    case 'toward':
    case 'plea':
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
      if (value >= 1 && value <= 3) claims.ringCounts.push({ count: value, text: `${value} rings` });
      else told('rings', item, claims);
      break;
    case 'sprockets':
      tell(claims, 'speeds', value);
      break;
    case 'speeds':
    case 'gears':
      claims.speedCounts.push(value);
      break;
    case 'dinner-plate':
      claims.dinnerPlates.push(value);
      break;
    case 'most':
      claims.mosts.push(value);
      break;
    case 'travel':
    case 'frame-size':
    case 'other-part':
    case 'motor':
      claims.unread.push(item.text);
      break;
    case 'one-rider':
      claims.eachRiderKg.push(value);
      break;
    case 'tyre':
      claims.tyreWidths.push(item);
      break;
    case 'circle-weak':
    case 'circle-near':
      told('bcd', item, claims);
      break;
    case 'wheel':
      toldWheel(item.text, claims);
      break;
    case 'rear':
      told('hub', item, claims);
      break;
    case 'cassette':
    case 'newcassette':
      claims.amounts.push(item);
      break;
    default:
      told(label, item, claims);
  }
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

/** Takes a list as what a label says. */
export function placeList(label: Label, item: List, claims: Claims): void {
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
    case 'innerbcd':
    case 'circle-weak':
    case 'circle-near':
      toldCircles(item, claims);
      break;
    default: {
      const length = asLength(item);
      if (length !== null) placeAmount(label, length, claims);
      else if (label === 'gap') toldText('gap', item.text, claims);
      else claims.unread.push(item.text);
    }
  }
}

/** The outer and the inner circle of one crank; two figures that can not be both are two tellings of one. */
export function toldCircles(item: List, claims: Claims): void {
  const { low, high } = KEYS.innerbcd;
  const innerMm = Math.min(...item.numbers);
  const outerMm = Math.max(...item.numbers);
  tell(claims, 'bcd', outerMm);
  if (innerMm < outerMm && innerMm >= low && innerMm <= high) tell(claims, 'innerbcd', innerMm);
}

function toldText(key: KeyName, text: string, claims: Claims): void {
  const read = readValue(key, text);
  if (read.kind === 'value') tell(claims, key, read.value);
  else if (read.kind === 'refused') refuse(claims, read.refusal);
}

export function toldTeeth(key: 'rings' | 'cassette' | 'newcassette', item: List, claims: Claims): void {
  const read = readTeeth(key, item.numbers, item.text);
  if (read.kind === 'value') tell(claims, key, read.value);
  else if (read.kind === 'refused') refuse(claims, read.refusal);
}
