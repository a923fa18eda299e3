import { UNIT_FACTORS } from '../tables/unit-factors.ts';

/** What somebody set on a torque wrench, as they told it. */
export type ToldTorque = {
  readonly nm: number;
  /** Half of the last digit told, where cards print the same figure rounded to that digit; 0 where they do not round. */
  readonly withinNm: number;
};

const NM_PER_INLBF = UNIT_FACTORS.nmPerInLbf.factor;
const DAY_MS = 86_400_000;

/** Units as wrenches are marked, without blanks, dots and dashes. */
const NM_PER_UNIT = new Map<string, number>([
  ['', 1],
  ['nm', 1],
  ...['inlb', 'inlbs', 'inlbf', 'lbin', 'lbsin', 'lbfin'].map((unit) => [unit, NM_PER_INLBF] as const),
  ...['ftlb', 'ftlbs', 'ftlbf', 'lbft', 'lbsft', 'lbfft'].map((unit) => [unit, 12 * NM_PER_INLBF] as const),
]);

const TOLD = /^(\d{1,4})(?:[.,](\d{1,3}))?([^\d]*)$/u;
const BETWEEN_UNITS = /[\s·⋅•*.-]/gu;
const DAY = /^(\d{4})-(\d{2})-(\d{2})$/;

function unitKey(text: string): string {
  return text.toLowerCase().replace(BETWEEN_UNITS, '');
}

/** "13.5", "13,5 N·m", "133 lbf·in" or "133inlb"; null for anything else. */
export function readTorque(text: string): ToldTorque | null {
  const match = TOLD.exec(text.trim());
  if (match === null) return null;
  const [, whole = '', decimals = '', unit = ''] = match;
  const factor = NM_PER_UNIT.get(unitKey(unit));
  if (factor === undefined) return null;
  const told = Number(`${whole}.${decimals}0`);
  return { nm: told * factor, withinNm: factor === NM_PER_INLBF ? (0.5 * factor) / 10 ** decimals.length : 0 };
}

/** Whether a word can only be the unit that got parted from its value. */
export function isTorqueUnit(word: string): boolean {
  const key = unitKey(word);
  return key !== '' && NM_PER_UNIT.has(key);
}

type Planned = {
  readonly lowNm: number | null;
  readonly highNm: number | null;
  readonly ticks: readonly { readonly setNm: number }[];
};

/**
 * The torque that was meant, in N·m. Cards print a range in whole lbf·in, and 133 lbf·in is 15.03 N·m where 15 is
 * printed beside it: a figure that stands for the end of the range, or for what the first person set, is that figure.
 */
export function meantNm({ nm, withinNm }: ToldTorque, planned: Planned | undefined): number {
  const [first] = planned?.ticks ?? [];
  if (first !== undefined && Math.abs(first.setNm - nm) <= withinNm) return first.setNm;
  const low = planned?.lowNm ?? null;
  const high = planned?.highNm ?? null;
  if (low !== null && nm < low && low - nm <= withinNm) return low;
  if (high !== null && nm > high && nm - high <= withinNm) return high;
  return Math.round(nm * 100) / 100;
}

/** The last moment of a day like 2027-03-01 in UTC: a wrench is good on the day its calibration runs out. */
export function readDueDay(text: string): number | null {
  const match = DAY.exec(text.trim());
  if (match === null) return null;
  const startMs = Date.UTC(Number(match[1]), Number(match[2]) - 1, Number(match[3]));
  return new Date(startMs).toISOString().slice(0, 10) === match[0] ? startMs + DAY_MS - 1 : null;
}
