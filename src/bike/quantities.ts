import { UNIT_FACTORS } from '../tables/unit-factors.ts';
import type { Key } from './keys.ts';

type Unit = 'mm' | 'kg' | 'W' | 'rpm' | 'teeth' | 'pitches' | '%' | '°';

/** A number as it was written; `unit` is null where none stood behind it, and `factor` brings it to that unit. */
export type Quantity = {
  readonly value: number;
  readonly unit: Unit | null;
  /** What the written unit was: an inch and a millimetre both become mm, but a wheel of 29 in is no length. */
  readonly written: string;
};

const UNITS = new Map<string, readonly [unit: Unit, factor: number]>();
for (const [words, unit, factor] of [
  ['mm millimetre millimetres millimeter millimeters mil', 'mm', 1],
  ['cm centimetre centimetres centimeter centimeters', 'mm', 10],
  ['m metre metres meter meters', 'mm', 1000],
  ['in inch inches ins "', 'mm', UNIT_FACTORS.mmPerInch.factor],
  ['kg kgs kilo kilos kilogram kilograms', 'kg', 1],
  ['lb lbs pound pounds', 'kg', UNIT_FACTORS.kgPerPound.factor],
  ['st stone stones', 'kg', 14 * UNIT_FACTORS.kgPerPound.factor],
  ['w watt watts', 'W', 1],
  ['rpm', 'rpm', 1],
  ['t tooth teeth tooths', 'teeth', 1],
  ['pitch pitches link links pin pins rivet rivets', 'pitches', 1],
  ['pair pairs', 'pitches', 2],
  ['% percent pct', '%', 1],
  ['° deg degree degrees', '°', 1],
] as const) {
  for (const word of words.split(' ')) UNITS.set(word, [unit, factor]);
}

// Six decimals are as many as a number says back without an exponent.
const QUANTITY = /^(-?\d{1,7}(?:[.,]\d{1,6})?)(?:[ -](\d{1,2})\/(2|4|8|16|32))?(?: ?-?([a-z"°%]+))?$/;
const FRACTION = /^(\d{1,2})\/(2|4|8|16|32) ?([a-z"]+)$/;

/** The unit a word stands for. */
export function unitOf(word: string): Unit | null {
  return UNITS.get(word)?.[0] ?? null;
}

/** Whether the word is an inch mark or an inch. */
export function isInch(word: string): boolean {
  return word === '"' || word === 'in' || word === 'inch' || word === 'inches' || word === 'ins';
}

/** A plain decimal number, a fraction behind it and a unit where they stand; null for anything else. */
export function readQuantity(text: string): Quantity | null {
  const match = QUANTITY.exec(text);
  if (match === null) {
    const part = FRACTION.exec(text);
    return part === null ? null : inUnit(Number(part[1]) / Number(part[2]), part[3] ?? '');
  }
  const [, digits = '', over, under, word = ''] = match;
  const value = Number(digits.replace(',', '.'));
  if (over === undefined) return inUnit(value, word);
  // Nobody measures millimetres in eighths.
  return inUnit(value + Number(over) / Number(under), word === '' ? 'in' : word);
}

/** A number in the unit a word names; null where the word is no unit. */
export function inUnit(value: number, word: string): Quantity | null {
  if (word === '') return { value: value + 0, unit: null, written: '' };
  const unit = UNITS.get(word);
  if (unit === undefined) return null;
  const [name, factor] = unit;
  return { value: factor === 1 ? value + 0 : fine(value * factor), unit: name, written: word };
}

/** Of a converted value four decimals hold every sixteenth of an inch exactly; more would only be rounding noise. */
function fine(value: number): number {
  return Math.round(value * 1e4) / 1e4;
}

/** Whether a quantity may stand where the key wants its own unit. */
export function suits(key: Key, unit: Unit | null): boolean {
  return unit === null || unit === key.unit;
}
