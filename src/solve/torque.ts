import type { TorqueStep } from '../tables/torques.ts';
import { UNIT_FACTORS } from '../tables/unit-factors.ts';

const NM_PER_INLBF = UNIT_FACTORS.nmPerInLbf.factor;

/** What decides which fasteners a conversion touches; null where the rider has not said. */
export type TouchedInput = {
  readonly crankType: 'pinch' | 'taper' | 'splined' | null;
  readonly mount: 'bolted' | 'direct' | 'riveted' | null;
  readonly boltMaterial: 'steel' | 'aluminium' | null;
  readonly bar: 'flat' | 'drop' | null;
  readonly newCassette: boolean;
  readonly assist: 'none' | 'hub' | 'mid-drive' | 'yes' | null;
};

/** A step of the job, and whether it is certain to come up or hangs on something not known yet. */
export type TouchedStep = { readonly step: TorqueStep; readonly certain: boolean };

/**
 * A torque in pound-force inches, to a tenth, the last place a workshop wrench shows.
 *
 * M(lbf·in) = M(N·m) / 0.112 984 8
 *
 * Valid for any torque. Agrees with the printed conversions 40 → 354, 12 → 106, 14 → 124, 5 → 44.3, 9 → 79.7 and
 * 0.7 → 6.2 to their last digit.
 *
 * @param torqueNm torque [N·m], 0 and over
 * @returns the same torque [lbf·in]
 * @example torqueInLbf(12) // 106.2
 * @see NIST811, B.8, pound-force inch
 */
export function torqueInLbf(torqueNm: number): number {
  return Math.round((torqueNm / NM_PER_INLBF) * 10) / 10;
}

/**
 * Whether two printed ranges for one fastener have any torque in common.
 *
 * low₁ ≤ high₂ and low₂ ≤ high₁
 *
 * Valid for ranges with their low end first; ranges that share just an end do meet.
 *
 * @param first one range, `lowNm` [N·m], `highNm` [N·m]
 * @param second the other range, `lowNm` [N·m], `highNm` [N·m]
 * @returns true when they meet [—]
 * @example rangesMeet({ lowNm: 12, highNm: 14 }, { lowNm: 7.9, highNm: 10.7 }) // false
 * @see geometry
 */
export function rangesMeet(
  first: { readonly lowNm: number; readonly highNm: number },
  second: { readonly lowNm: number; readonly highNm: number },
): boolean {
  return first.lowNm <= second.highNm && second.lowNm <= first.highNm;
}

/**
 * The steps of a conversion that put a torque on something, in the order of the work.
 *
 * One crank type, one bolt material, one handlebar: its step is certain. Not known: every possibility, none certain.
 *
 * Valid for a ring swap with the front derailleur and its shifter taken off. A named bolt material means bolted rings.
 * Riveted rings have no ring bolts: the crank is replaced and only its own bolts remain. At a motor in the cranks every
 * bolt of ring and arms is its maker's, so no other row for them is left.
 *
 * @param input choices [—]: `crankType`, `mount`, `boltMaterial`, `bar`, `newCassette`, `assist`; null where not known
 * @returns steps [—], each with `certain`
 * @example touchedSteps({ crankType: 'taper', mount: 'riveted', boltMaterial: null, bar: 'drop', newCassette: false, assist: null }).length // 3
 * @see common practice
 */
export function touchedSteps(input: TouchedInput): readonly TouchedStep[] {
  const steps: TouchedStep[] = [];
  const { crankType, boltMaterial, bar } = input;
  const mount = input.mount ?? (boltMaterial === null ? null : 'bolted');

  const { assist } = input;
  if (assist === 'mid-drive' || assist === 'yes') steps.push({ step: 'drive-unit', certain: assist === 'mid-drive' });
  if (assist !== 'mid-drive') steps.push(...ringAndCrank(crankType, mount, boltMaterial));

  if (bar !== 'drop') steps.push({ step: 'flat-bar', certain: bar === 'flat' });
  if (bar !== 'flat') steps.push({ step: 'drop-bar', certain: bar === 'drop' });

  if (input.newCassette) steps.push({ step: 'new-cassette', certain: true });
  if (assist === 'hub' || assist === 'yes') steps.push({ step: 'hub-motor', certain: false });
  steps.push({ step: 'rear-derailleur', certain: false });
  return steps;
}

function ringAndCrank(
  crankType: TouchedInput['crankType'],
  mount: TouchedInput['mount'],
  boltMaterial: TouchedInput['boltMaterial'],
): readonly TouchedStep[] {
  const steps: TouchedStep[] = [];
  if (mount === 'bolted' || mount === null) {
    if (boltMaterial !== 'steel') steps.push({ step: 'ring-bolts-aluminium', certain: boltMaterial === 'aluminium' });
    if (boltMaterial !== 'aluminium') steps.push({ step: 'ring-bolts-steel', certain: boltMaterial === 'steel' });
  }
  if (mount === 'direct' || mount === null) steps.push({ step: 'direct-mount', certain: mount === 'direct' });

  if (crankType === null || crankType === 'pinch') steps.push({ step: 'crank-pinch', certain: crankType !== null });
  if (crankType === null || crankType === 'taper') steps.push({ step: 'crank-taper', certain: crankType !== null });
  if (crankType === null || crankType === 'splined') steps.push({ step: 'crank-splined', certain: crankType !== null });
  return steps;
}
