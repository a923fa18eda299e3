import { UNIT_FACTORS } from '../tables/unit-factors.ts';
import type { Wheel } from './bike.ts';
import { isInch, readQuantity } from './quantities.ts';
import type { ReadValue } from './read-value.ts';
import type { Question } from './reading.ts';
import { refuseValue } from './refusals.ts';
import { settling, wheelText } from './value-text.ts';

/** The bead seats a trade name stands for, in mm (ISO 5775 size table; 16 in from memory). Two make it a question. */
const NAMED = new Map<string, readonly number[]>([
  ['16', [305, 349]],
  ['20', [406]],
  ['24', [507]],
  ['26', [559]],
  ['27', [630]],
  ['27.5', [584]],
  ['28', [622]],
  ['29', [622]],
  ['650a', [590]],
  ['650b', [584]],
  ['650c', [571]],
  ['700', [622]],
  ['700c', [622]],
]);

/** A width in inches with a fraction is another, older rim than the same width with decimals. */
const FRACTIONAL = new Map<string, number>([
  ['16', 349],
  ['20', 451],
  ['24', 540],
  ['26', 590],
  ['27', 630],
  ['28', 635],
]);

const MARKED = /^(\d{2,3}(?:\.\d{1,5})?) ?[-x] ?(\d{3})$/;
const MARKED_BACKWARDS = /^(\d{3}) ?- ?(\d{2,3}(?:\.\d{1,5})?)$/;
const NOMINAL = /^(\d{2,3}(?:[.,]5)?[abc]?)(?: ?-?(?:er|ers|in|inch|inches|"))?(?: (?:wheel|wheels|rim|rims))?$/;
const CROSSED =
  /^(\d{2,3}(?:[.,]5)?[abc]?)(?:in|"|er)? ?[x*] ?(\d{1,3}(?:[.,]\d{1,4})?)(?:[ -](\d)\/(\d{1,2}))? ?(mm|in|inch|")?([abc])?$/;

/** Reads a wheel in any of the trade's ways: a marking, a name, a name with a tyre width, or a measured roll-out. */
export function readWheel(text: string): ReadValue {
  const marked = MARKED.exec(text) ?? swapped(MARKED_BACKWARDS.exec(text));
  if (marked !== null) {
    const beadSeatMm = Number(marked[2]);
    if (beadSeatMm >= 200 && beadSeatMm <= 700) return tyre(beadSeatMm, Number(marked[1]), text);
  }
  const crossed = CROSSED.exec(text);
  if (crossed !== null) return readCrossed(crossed, text);
  const nominal = NOMINAL.exec(text);
  const seats = nominal === null ? undefined : NAMED.get((nominal[1] ?? '').replace(',', '.'));
  if (seats !== undefined) return rims(seats, text);
  const quantity = readQuantity(text.replace(/ (?:rim|rims|wheel|wheels)$/, ''));
  if (quantity === null || (quantity.unit !== null && quantity.unit !== 'mm')) return refused(text);
  const { value, written } = quantity;
  if (value >= 200 && value <= 700 && Number.isInteger(value) && !isInch(written)) {
    return { kind: 'value', value: { kind: 'rim', beadSeatMm: value } };
  }
  if (value < 900 || value > 2600) return refused(text);
  return { kind: 'value', value: { kind: 'rollout', circumferenceMm: value } };
}

function swapped(match: RegExpExecArray | null): readonly (string | undefined)[] | null {
  return match !== null && Number(match[1]) >= 300 && Number(match[2]) <= 130 ? [match[0], match[2], match[1]] : null;
}

function readCrossed(match: RegExpExecArray, text: string): ReadValue {
  const [, named = '', digits = '', over, under, unit, letter] = match;
  const name = named.replace(',', '.');
  const width = Number(digits.replace(',', '.'));
  const seats = NAMED.get(letter !== undefined && name === '650' ? `650${letter}` : name);
  if (over !== undefined) {
    const beadSeatMm = FRACTIONAL.get(name);
    if (beadSeatMm === undefined) return refused(text);
    return tyre(beadSeatMm, tyreWidthMm(width + Number(over) / Number(under), unit), text);
  }
  if (seats === undefined) return refused(text);
  const widthMm = tyreWidthMm(width, unit);
  const [only, other] = seats;
  if (only === undefined || other !== undefined) return { kind: 'open', question: whichSeat(seats, text, widthMm) };
  return tyre(only, widthMm, text);
}

/** Tyre widths under 10 are inches, the others millimetres: no tyre is 10 in or 10 mm wide. */
export function tyreWidthMm(width: number, unit: string | undefined): number {
  const inches = unit === undefined || unit === '' ? width < 10 : unit !== 'mm';
  return inches ? Math.round(width * UNIT_FACTORS.mmPerInch.factor * 1e4) / 1e4 : width;
}

function tyre(beadSeatMm: number, widthMm: number, text: string): ReadValue {
  if (widthMm < 18 || widthMm > 130) {
    return { kind: 'refused', refusal: refuseValue('wheel', text, 'has a tyre width outside 18 to 130 mm') };
  }
  return { kind: 'value', value: { kind: 'tyre', beadSeatMm, widthMm } };
}

function rims(seats: readonly number[], text: string): ReadValue {
  const [only, other] = seats;
  if (only !== undefined && other === undefined) return { kind: 'value', value: { kind: 'rim', beadSeatMm: only } };
  return { kind: 'open', question: whichSeat(seats, text, null) };
}

function whichSeat(seats: readonly number[], text: string, widthMm: number | null): Question {
  return {
    field: 'wheel',
    question: `Wheels called ${text.replace('"', ' in')} have one of two rims: ${seats.join(' or ')} mm. Which is on the tyre, after the dash?`,
    choices: seats.map((beadSeatMm) => {
      const wheel: Wheel = widthMm === null ? { kind: 'rim', beadSeatMm } : { kind: 'tyre', beadSeatMm, widthMm };
      return { label: widthMm === null ? `${beadSeatMm} mm` : wheelText(wheel), setup: settling('wheel', wheel) };
    }),
  };
}

function refused(text: string): ReadValue {
  return { kind: 'refused', refusal: refuseValue('wheel', text, 'is no wheel size known here') };
}
