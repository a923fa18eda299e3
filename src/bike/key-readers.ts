import { choiceOf } from './choices.ts';
import { KEYS, type Key, type KeyName } from './keys.ts';
import { type Quantity, readQuantity, suits } from './quantities.ts';
import type { ReadValue } from './read-value.ts';
import { refuseValue } from './refusals.ts';
import { readWheel } from './wheel-sizes.ts';

/** Reads the text behind `key=`. */
export function readValue(name: KeyName, text: string): ReadValue {
  const key: Key = KEYS[name];
  switch (key.form) {
    case 'teeth-list':
    case 'cassette':
      return readTeeth(name, teethIn(text), text);
    case 'lengths':
      return readLengths(name, text);
    case 'wheel':
      return readWheel(text);
    case 'choice':
    case 'yes-no': {
      const value = choiceOf(name, text);
      if (value !== undefined) return { kind: 'value', value };
      return refused(name, text, key.form === 'choice' ? 'is none of the choices' : 'is neither yes nor no');
    }
    case 'teeth':
    case 'whole':
    case 'number': {
      const quantity = readQuantity(text);
      if (quantity === null) return refused(name, text, 'is not a plain number');
      return readAmount(name, quantity, text);
    }
  }
}

/** A number as the value of one key: its unit, whether it must be whole, and the range. */
export function readAmount(name: KeyName, quantity: Quantity, text: string): ReadValue {
  const key: Key = KEYS[name];
  const { value, unit } = quantity;
  if (key.form === 'choice' || key.form === 'wheel') return readValue(name, text);
  if (!suits(key, unit)) return refused(name, text, 'is in another unit');
  if (key.form !== 'number' && key.form !== 'lengths' && !Number.isInteger(value)) {
    return refused(name, text, 'is not a whole number');
  }
  if (!within(key, value)) return refused(name, text, value < 0 ? 'is below zero' : 'is out of range');
  if (key.form === 'teeth-list' || key.form === 'lengths') return { kind: 'value', value: [value] };
  if (key.form === 'cassette') return refused(name, text, 'is one sprocket; a cassette has two ends');
  return { kind: 'value', value };
}

/** A list of teeth as the value of `rings`, `cassette` or `newcassette`. */
export function readTeeth(name: KeyName, list: readonly number[] | null, text: string): ReadValue {
  if (list === null || list.length === 0) return refused(name, text, 'is not a list of whole numbers');
  const key: Key = KEYS[name];
  if (!list.every((teeth) => within(key, teeth))) return refused(name, text, 'is out of range');
  if (new Set(list).size < list.length) return refused(name, text, 'names the same size twice');
  if (key.form === 'teeth-list') {
    if (list.length > 3) return refused(name, text, 'is more than three rings');
    return { kind: 'value', value: list.toSorted((one, other) => other - one) };
  }
  if (key.form !== 'cassette') return refused(name, text, 'is more than one number');
  if (list.length === 1) return refused(name, text, 'is one sprocket; a cassette has two ends');
  const steady = rising(list) ? list : list.toReversed();
  const [smallestTeeth = 0] = steady;
  const largestTeeth = steady.at(-1) ?? 0;
  if (list.length === 2) return { kind: 'value', value: { smallestTeeth, largestTeeth } };
  if (!rising(steady)) return refused(name, text, 'does not rise from sprocket to sprocket');
  if (list.length < 5) return refused(name, text, 'is neither two ends nor all of 5 to 13 sprockets');
  if (list.length > 13) return refused(name, text, 'is more than 13 sprockets');
  return { kind: 'value', value: { smallestTeeth, largestTeeth, sprockets: steady } };
}

const TEETH = /^\d{1,7}t?$/;
const BETWEEN = /[-/,&+\s]+/;

/** The whole numbers of a list such as 36/22, 24t-36t or 36,22; null where anything else stands among them. */
export function teethIn(text: string): readonly number[] | null {
  const parts = text
    .trim()
    .split(BETWEEN)
    .filter((part) => part !== 't' && part !== 'teeth' && part !== 'tooth');
  if (parts.at(-1) === '') parts.pop();
  const gap = parts.indexOf('...');
  // "11-13-15-…-36" names the ends; what lies between is not told.
  if (gap > 0 && gap === parts.length - 2) parts.splice(1, parts.length - 2);
  return parts.every((part) => TEETH.test(part)) ? parts.map((part) => Number.parseInt(part, 10)) : null;
}

function readLengths(name: KeyName, text: string): ReadValue {
  const whole = readQuantity(text);
  if (whole !== null) return readAmount(name, whole, text);
  const decimalComma = !text.includes('.') && (text.includes('/') || text.includes(' '));
  const parts = text.split(decimalComma ? /\/| and | (?=\d)/ : /[/,]| and | (?=\d)/);
  const quantities = parts.map((part) => readQuantity(part.trim()));
  if (parts.length > 2) return refused(name, text, 'is more than two lengths');
  const values: number[] = [];
  for (const quantity of quantities) {
    if (quantity === null) return refused(name, text, 'is not a plain number');
    const read = readAmount(name, quantity, text);
    if (read.kind !== 'value') return read;
    values.push(quantity.value);
  }
  return { kind: 'value', value: values };
}

function within(key: Key, value: number): boolean {
  return value >= (key.low ?? Number.NEGATIVE_INFINITY) && value <= (key.high ?? Number.POSITIVE_INFINITY);
}

function rising(list: readonly number[]): boolean {
  return list.every((teeth, index) => index === 0 || teeth > (list[index - 1] ?? 0));
}

function refused(name: KeyName, text: string, problem: string): ReadValue {
  return { kind: 'refused', refusal: refuseValue(name, text, problem) };
}
