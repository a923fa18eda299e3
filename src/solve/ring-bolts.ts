import { ENGAGEMENT, RING_BOLT } from '../tables/ring-bolts.ts';
import type { Circle } from './bolt-circle.ts';
import { ringSeat, smallestRing } from './smallest-ring.ts';

const LEAST_CLEAR_MM = RING_BOLT.leastClear.valueMm;
const PITCH_MM = RING_BOLT.threadPitch.valueMm;
const ROUNDING_MM = 1e-9;

/** How many rings the bolts hold today, and how that is known. */
export type SharingRings =
  | { readonly kind: 'found'; readonly rings: number; readonly from: 'told' | 'one-ring' | 'geometry' }
  | { readonly kind: 'cannot'; readonly reason: 'not-told' | 'more-than-fitted' };

/**
 * How many of today's rings share the bolt circle, which decides whether their bolts are too long for one ring.
 *
 * count of rings N with root diameter − BCD ≥ 14 mm, when every other ring has less than 9.5 mm
 *
 * Valid for an outer circle: a ring whose valleys leave no room for the bolts must have a circle of its own, and rings
 * that have room are bolted to the same one (common practice). A ring in between, or an inner circle, gives no answer.
 * Agrees with the trade: a double whose small ring has its own circle counts 1, a triple 2.
 *
 * @param input `sharingRings` as told [1] or null; `rings` teeth of today's rings [1] or null; `circle` with `bcdMm` [mm] and `bolts` [1], or null; `isInner` [—]
 * @returns [—] `rings` [1] and where the count is from, or why there is none
 * @example ringsSharing({ sharingRings: null, rings: [36, 22], circle: { bcdMm: 104, bolts: 4 }, isInner: false }).rings // 1
 * @example ringsSharing({ sharingRings: null, rings: [44, 32, 22], circle: { bcdMm: 104, bolts: 4 }, isInner: false }).rings // 2
 * @see common practice
 */
export function ringsSharing(input: {
  readonly sharingRings: number | null;
  readonly rings: readonly number[] | null;
  readonly circle: Circle | null;
  readonly isInner: boolean;
}): SharingRings {
  const { sharingRings, rings, circle } = input;
  if (sharingRings !== null) {
    if (rings !== null && sharingRings > rings.length) return { kind: 'cannot', reason: 'more-than-fitted' };
    return { kind: 'found', rings: sharingRings, from: 'told' };
  }
  if (rings === null) return { kind: 'cannot', reason: 'not-told' };
  if (rings.length === 1) return { kind: 'found', rings: 1, from: 'one-ring' };
  if (circle === null || input.isInner) return { kind: 'cannot', reason: 'not-told' };

  const smallest = smallestRing(circle);
  let sharing = 0;
  for (const teeth of rings) {
    const seat = ringSeat(teeth, circle.bcdMm, smallest.teeth);
    if (seat === 'ordinary') sharing += 1;
    else if (seat !== 'impossible') return { kind: 'cannot', reason: 'not-told' };
  }
  return sharing === 0 ? { kind: 'cannot', reason: 'not-told' } : { kind: 'found', rings: sharing, from: 'geometry' };
}

/** What lies between bolt head and sleeve, whether they meet before the ring is clamped, and whether enough thread holds. */
export type BoltStack = {
  readonly gripMm: number;
  readonly clearanceMm: number | null;
  /** Thread that must hold: the sleeve is at least as long. */
  readonly leastThreadMm: number;
  readonly verdict: 'holds' | 'bottoms' | 'short' | 'unknown';
};

/**
 * Whether a bolt's sleeve is short enough to clamp one ring, and long enough for its thread.
 *
 * grip = ring tab + spider tab; clearance = grip − sleeve ≥ 0.3 mm; sleeve ≥ thread that must hold
 *
 * Valid for bolts with sleeves, tabs measured at the hole inside any counterbore; with less clearance head and sleeve
 * meet and the ring stays loose however tight the bolt feels. The 0.3 mm is common practice on a printed principle. The
 * thread lies in the sleeve, so that no more of it can hold than the sleeve is long; of an unknown material the least
 * that any needs is asked.
 *
 * @param input `ringTabMm` and `spiderTabMm` at the hole [mm]; `sleeveMm` sleeve length [mm] or null; `material` of the bolts or null
 * @returns [—] `gripMm`, `clearanceMm`, `leastThreadMm` [mm]; `verdict` holds, bottoms, short (of thread) or unknown
 * @example boltStack({ ringTabMm: 3.5, spiderTabMm: 4, sleeveMm: 8, material: null }).verdict // "bottoms"
 * @example boltStack({ ringTabMm: 3.5, spiderTabMm: 4, sleeveMm: 6.5, material: null }).verdict // "holds"
 * @example boltStack({ ringTabMm: 3.5, spiderTabMm: 4, sleeveMm: 2, material: null }).verdict // "short"
 * @see BCDLexicon, bolts and sleeves
 */
export function boltStack(input: {
  readonly ringTabMm: number;
  readonly spiderTabMm: number;
  readonly sleeveMm: number | null;
  readonly material: 'steel' | 'aluminium' | null;
}): BoltStack {
  const gripMm = input.ringTabMm + input.spiderTabMm;
  const leastThreadMm = threadEngagement(input.material ?? 'steel').lowMm;
  if (input.sleeveMm === null) return { gripMm, clearanceMm: null, leastThreadMm, verdict: 'unknown' };
  const clearanceMm = gripMm - input.sleeveMm;
  const isClear = clearanceMm >= LEAST_CLEAR_MM - ROUNDING_MM;
  const verdict = input.sleeveMm < leastThreadMm ? 'short' : isClear ? 'holds' : 'bottoms';
  return { gripMm, clearanceMm, leastThreadMm, verdict };
}

/**
 * Length of thread that has to hold, from the full turns the material asks for.
 *
 * length = turns · thread pitch
 *
 * Valid for the M8 × 0.75 thread of ring bolts. Agrees with the trade's 3 mm for four turns in steel.
 *
 * @param material steel or aluminium [—]
 * @returns [—] `lowMm` and `highMm` of engaged thread [mm]
 * @example threadEngagement('steel').lowMm // 3
 * @see ThreadTable, M8 × 0.75
 */
export function threadEngagement(material: 'steel' | 'aluminium'): { readonly lowMm: number; readonly highMm: number } {
  const { lowTurns, highTurns } = ENGAGEMENT[material];
  return { lowMm: lowTurns * PITCH_MM, highMm: highTurns * PITCH_MM };
}
