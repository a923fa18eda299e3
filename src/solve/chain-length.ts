import { ALLOWANCES } from '../tables/chain-rules.ts';
import { SPROCKET_GEOMETRY } from '../tables/sprocket-geometry.ts';
import { centreMmForWrap, wrapPitches } from './chain-wrap.ts';

const PITCH_MM = SPROCKET_GEOMETRY.pitch.value;
/** A sum this close above an even number counts as that number: it is rounding, not chain. */
const TOLERANCE_PITCHES = 1e-9;

/** The drivetrain a chain is to be sized for. Null is unknown, never zero. */
export type ChainQuestion = {
  readonly ringTeeth: number;
  readonly sprocketTeeth: number;
  readonly stayMm: number | null;
  readonly longestMm: number | null;
  readonly suspension: 'none' | 'rear';
  readonly allowancePitches: number;
  readonly presentPitches: number | null;
};

/** The axle distance a chain may be sized on, or why there is none yet. */
export type AxleDistance =
  | { readonly kind: 'found'; readonly centreMm: number }
  | { readonly kind: 'cannot'; readonly reason: ChainGateReason };

/** Why no length can be given yet. */
export type ChainGateReason = 'longest-unknown' | 'stay-unknown' | 'longest-under-stay';

export type ChainLength =
  | {
      readonly kind: 'found';
      readonly centreMm: number;
      readonly wrapPitches: number;
      readonly targetPitches: number;
      readonly targetPairs: number;
      readonly targetMm: number;
      readonly removePitches: number | null;
      readonly addPitches: number | null;
      readonly alternativeRulePitches: number;
      readonly byAllowance: readonly { readonly allowancePitches: number; readonly targetPitches: number }[];
      readonly growthMm: number | null;
      readonly growthPitches: number | null;
      readonly boundaryStayMm: number | null;
    }
  | { readonly kind: 'cannot'; readonly reason: ChainGateReason };

function evenCeiling(pitches: number): number {
  return 2 * Math.ceil((pitches - TOLERANCE_PITCHES) / 2);
}

/**
 * Shortest chain that the allowance rule lets ride on a ring and a sprocket.
 *
 * target = even ceiling of (bare wrap + allowance)
 *
 * Valid where the bare wrap is; a sum within 1e-9 of an even number counts as that number. Agrees with the worked
 * figures of the rule, 32 × 36 at 440 mm: 103.30 + 2, so 106.
 *
 * @param input `ringTeeth` and `sprocketTeeth` [1], 9 to 70, `centreMm` [mm], over 300, `allowancePitches` [1], 2, 4 or 6
 * @returns even number of pitches [1]
 * @example chainTargetPitches({ ringTeeth: 32, sprocketTeeth: 36, centreMm: 440, allowancePitches: 2 }) // 106
 * @see CyclistsGlossary, chain-sizing entry
 */
export function chainTargetPitches(input: {
  readonly ringTeeth: number;
  readonly sprocketTeeth: number;
  readonly centreMm: number;
  readonly allowancePitches: number;
}): number {
  return evenCeiling(wrapPitches(input.ringTeeth, input.sprocketTeeth, input.centreMm) + input.allowancePitches);
}

/**
 * Fewest whole pitches that reach round, joined with no slack: where the cycling organisation's rule starts.
 *
 * fit = ceiling of the bare wrap
 *
 * Valid for any bare wrap; one within 1e-9 above a whole number counts as that number. Agrees with laying the chain
 * round both wheels and pulling its ends together.
 *
 * @param barePitches bare wrap in pitches [1], 50 to 300
 * @returns whole number of pitches [1]
 * @example justFitsPitches(103.303) // 104
 * @see CyclingUK2012, answer on triple chain length
 */
export function justFitsPitches(barePitches: number): number {
  return Math.ceil(barePitches - TOLERANCE_PITCHES);
}

/**
 * How much longer the rear suspension lets the chain's way become.
 *
 * ΔL = 2g/p
 *
 * Valid for growths of a few centimetres, where the chain's slant does not matter; the exact figure is the bare wrap at
 * the longest. Agrees with it to 0.03 pitch up to 20 mm on wheels within 25 teeth of each other.
 *
 * @param growthMm longest axle distance less the distance at rest [mm], 0 to 60
 * @returns extra pitches of 12.7 mm [1]
 * @example growthPitches(17) // 2.68
 * @see SuspensionChain, air out, cycled to the longest
 */
export function growthPitches(growthMm: number): number {
  return (2 * growthMm) / PITCH_MM;
}

/**
 * What fewer teeth on the two largest wheels set free, and the whole pairs that come out of it.
 *
 * ΔL = ½ΔN
 *
 * Valid for changes of a few teeth at the same axle distance; more teeth (a negative number) ask for whole pairs more.
 * Agrees with the forum's 120 pitches on 11-51 that become 116 on 11-42.
 *
 * @param fewerTeeth old less new teeth, ring and sprocket together [1], −40 to 40
 * @returns `freedPitches` [1] and the even `outPitches` of it [1], negative where pairs go in
 * @example freedByFewerTeeth(6).outPitches // 2
 * @see CyclingUKForum2023, 11-51 to 11-42 on 120 pitches gives 116
 */
export function freedByFewerTeeth(fewerTeeth: number): { readonly freedPitches: number; readonly outPitches: number } {
  const freedPitches = fewerTeeth / 2;
  return { freedPitches, outPitches: 2 * Math.floor(freedPitches / 2) };
}

/**
 * How near a sum of wrap and allowance lies to the even number where a pair more or less is asked for.
 *
 * distance = sum − nearest even number
 *
 * Valid for any sum; never more than 1 either way. Agrees with the arithmetic by hand: 34 × 51 at 440 mm is 112.003.
 *
 * @param sumPitches bare wrap and allowance in pitches [1], 50 to 300
 * @returns pitches above (+) or below (−) the nearest even number [1]
 * @example pitchesFromEven(114.003) // 0.003
 * @see geometry
 */
export function pitchesFromEven(sumPitches: number): number {
  return sumPitches - 2 * Math.round(sumPitches / 2);
}

/**
 * The axle distance that decides the chain: the longest with rear suspension, else the chainstay.
 *
 * C = longest with rear suspension, else stay
 *
 * Valid for any bicycle. With rear suspension the chainstay at rest never stands in for the longest, and a longest
 * under the chainstay is a contradiction: both give the reason and no distance. A frame without suspension is at its
 * longest all the time, so either figure serves. Agrees with the printed advice on suspension.
 *
 * @param input `stayMm` and `longestMm` [mm], 300 to 850, or null, `suspension` none or rear
 * @returns [—] `centreMm` [mm], or the reason why there is none
 * @example axleDistance({ stayMm: 435, longestMm: 452, suspension: 'rear' }).centreMm // 452
 * @see SuspensionChain, air out, cycled to the longest
 */
export function axleDistance(input: {
  readonly stayMm: number | null;
  readonly longestMm: number | null;
  readonly suspension: 'none' | 'rear';
}): AxleDistance {
  const { stayMm, longestMm } = input;
  if (stayMm !== null && longestMm !== null && longestMm < stayMm) {
    return { kind: 'cannot', reason: 'longest-under-stay' };
  }
  if (input.suspension === 'rear') {
    return longestMm === null ? { kind: 'cannot', reason: 'longest-unknown' } : { kind: 'found', centreMm: longestMm };
  }
  const centreMm = stayMm ?? longestMm;
  return centreMm === null ? { kind: 'cannot', reason: 'stay-unknown' } : { kind: 'found', centreMm };
}

/**
 * The chain a ring and a sprocket ask for, what comes out of the present one, and what would change the answer.
 *
 * target = even ceiling of (bare wrap + allowance); second rule: next even count above what just fits
 *
 * Valid for bicycles with derailleurs. Where {@link axleDistance} gives none there is no number at all. An odd present
 * count is no loop, so nothing to take out is named. Agrees with the cycling organisation's 108 or 109 that just fits and
 * becomes 110.
 *
 * @param input `ringTeeth` and `sprocketTeeth` [1], `stayMm` and `longestMm` [mm] or null, `suspension`, `allowancePitches` [1], `presentPitches` [1] or null
 * @returns [—] lengths in pitches [1] and `targetMm`, `centreMm`, `growthMm`, `boundaryStayMm` [mm], or the reason why not
 * @example chainLength({ ringTeeth: 32, sprocketTeeth: 42, stayMm: 435, longestMm: 452, suspension: 'rear', allowancePitches: 2, presentPitches: null }).targetPitches // 112
 * @see CyclingUK2012, answer on triple chain length
 */
export function chainLength(input: ChainQuestion): ChainLength {
  const { ringTeeth, sprocketTeeth, stayMm, allowancePitches, presentPitches } = input;
  const axles = axleDistance(input);
  if (axles.kind === 'cannot') return axles;
  const { centreMm } = axles;
  const wrap = wrapPitches(ringTeeth, sprocketTeeth, centreMm);
  const targetPitches = evenCeiling(wrap + allowancePitches);
  const surplus = presentPitches === null || presentPitches % 2 !== 0 ? null : presentPitches - targetPitches;
  const growthMm = input.suspension === 'rear' && stayMm !== null ? centreMm - stayMm : null;
  return {
    kind: 'found',
    centreMm,
    wrapPitches: wrap,
    targetPitches,
    targetPairs: targetPitches / 2,
    // A tenth of a millimetre is exact for whole pitches of 12.7 mm; binary fractions are not.
    targetMm: Math.round(targetPitches * PITCH_MM * 10) / 10,
    // Only the one that applies is a number, so that nobody reads "take out 0" beside "add 4"; both are 0 where it fits.
    removePitches: surplus === null || surplus < 0 ? null : surplus,
    addPitches: surplus === null || surplus > 0 ? null : 0 - surplus,
    alternativeRulePitches: 2 * Math.floor(justFitsPitches(wrap) / 2) + 2,
    byAllowance: ALLOWANCES.map((row) => ({
      allowancePitches: row.allowancePitches,
      targetPitches: evenCeiling(wrap + row.allowancePitches),
    })),
    growthMm,
    growthPitches: growthMm === null ? null : growthPitches(growthMm),
    boundaryStayMm: centreMmForWrap(ringTeeth, sprocketTeeth, targetPitches - allowancePitches),
  };
}
