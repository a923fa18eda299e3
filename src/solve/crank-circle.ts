import { CIRCLE_RULES } from '../tables/bolt-circles.ts';
import {
  boltCirclesFromGap,
  type Circle,
  holeSpacingMm,
  type ListedCircle,
  listedBolts,
  outerCircles,
} from './bolt-circle.ts';
import { usualCircles } from './usual-circles.ts';

const NEAR_MM = CIRCLE_RULES.nearGap.valueMm;
const UNEVEN_MM = CIRCLE_RULES.unevenGaps.valueMm;
const ANY_BOLTS = [4, 5, 3, 6];

/** What is known of a crank's bolt circle. */
export type CrankCircle =
  | {
      readonly kind: 'found';
      readonly bcdMm: number;
      readonly bolts: number | null;
      readonly from: 'told' | 'gap';
      readonly boltsFrom: 'told' | 'gap' | 'listed' | 'pattern' | null;
      /** Two gaps differ, or the pattern is told to be uneven: the label holds between opposite holes, but a ring must match the pattern. */
      readonly uneven: boolean;
      /** The gap is farther from the circle's than careful measuring leaves. */
      readonly near: boolean;
      /** The circle, once for each bolt count it may have. */
      readonly circles: readonly Circle[];
    }
  | {
      readonly kind: 'cannot';
      readonly reason:
        | 'unknown'
        | 'uneven-pattern'
        | 'uneven-label-unknown'
        | 'told-and-gap-disagree'
        | 'told-is-a-gap'
        | 'several'
        | 'no-listed-circle';
      /** What it may be: measured but not told apart, or, when unknown, usual for the rings of today. */
      readonly circles: readonly ListedCircle[];
      /** The circle the gap would make, where the table has none. */
      readonly computed: readonly ListedCircle[];
    };

/**
 * Settles a crank's bolt circle from what is told and what is measured.
 *
 * told and measured agree when |BCD · sin(180°/n) − c| ≤ 0.75 mm
 *
 * Valid for told circles of 50 to 160 mm and gaps of 25 to 120 mm; a contradiction, a tie or an uneven pattern is an
 * answer of its own and never guessed away. On an uneven pattern neighbouring holes are not sin(180°/n) apart, so one
 * gap gives no circle. Agrees with the printed table, which lists the circles.
 *
 * @param input `bcdMm` [mm] or null; `bolts` [1] or null; `gapsMm` up to two gaps [mm]; `innerMm` circle of the smallest ring [mm] or null; `pattern` of the holes [—] or null; `largestRingTeeth` and `outerLeastTeeth`, the smallest known to share the outer circle [1] or null
 * @returns [—] `bcdMm` [mm] and `bolts` [1] with where they come from; or the reason and the circles that are possible
 * @example crankCircle({ bcdMm: null, innerMm: null, bolts: 5, gapsMm: [64.7], pattern: null, largestRingTeeth: 50, outerLeastTeeth: null }).bcdMm // 110
 * @example crankCircle({ bcdMm: 104, innerMm: null, bolts: 4, gapsMm: [67.9], pattern: null, largestRingTeeth: 36, outerLeastTeeth: null }).reason // "told-and-gap-disagree"
 * @example crankCircle({ bcdMm: 64.7, innerMm: null, bolts: 5, gapsMm: [], pattern: null, largestRingTeeth: null, outerLeastTeeth: null }).reason // "told-is-a-gap"
 * @example crankCircle({ bcdMm: null, innerMm: null, bolts: 4, gapsMm: [70], pattern: 'uneven', largestRingTeeth: 36, outerLeastTeeth: null }).reason // "uneven-label-unknown"
 * @see BrownBCD, crib sheet
 */
export function crankCircle(input: {
  readonly bcdMm: number | null;
  readonly innerMm: number | null;
  readonly bolts: number | null;
  readonly gapsMm: readonly number[];
  readonly pattern: 'even' | 'uneven' | null;
  readonly largestRingTeeth: number | null;
  readonly outerLeastTeeth: number | null;
}): CrankCircle {
  const { bcdMm, innerMm, bolts, gapsMm, pattern } = input;
  if (bcdMm !== null) return toldCircle(bcdMm, bolts, gapsMm, pattern);
  if (pattern === 'uneven' && !differ(gapsMm)) {
    return { kind: 'cannot', reason: 'uneven-label-unknown', circles: [], computed: [] };
  }
  if (gapsMm.length === 0) {
    const outer = innerMm === null ? [] : outerCircles({ bcdMm: innerMm, bolts });
    const circles = outer.length > 0 ? outer : usualCircles(input);
    return { kind: 'cannot', reason: 'unknown', circles, computed: [] };
  }

  const reading = boltCirclesFromGap({ gapsMm, bolts });
  if (reading.kind === 'cannot') {
    return reading.reason === 'uneven-pattern'
      ? { kind: 'cannot', reason: 'uneven-pattern', circles: reading.circles, computed: [] }
      : { kind: 'cannot', reason: 'no-listed-circle', circles: [], computed: reading.computed };
  }
  const [only] = reading.circles;
  // With the bolts uncounted a near miss may be off in two ways at once: too little to take it for the answer.
  const doubtful = reading.near && bolts === null;
  if (only === undefined || reading.circles.length > 1 || doubtful) {
    return { kind: 'cannot', reason: 'several', circles: reading.circles, computed: [] };
  }
  return {
    kind: 'found',
    bcdMm: only.bcdMm,
    bolts: only.bolts,
    from: 'gap',
    boltsFrom: bolts === null ? 'gap' : 'told',
    uneven: false,
    near: reading.near,
    circles: [only],
  };
}

function differ([firstMm, secondMm]: readonly number[]): boolean {
  return firstMm !== undefined && secondMm !== undefined && Math.abs(firstMm - secondMm) > UNEVEN_MM;
}

function toldCircle(
  bcdMm: number,
  bolts: number | null,
  gapsMm: readonly number[],
  pattern: 'even' | 'uneven' | null,
): CrankCircle {
  const listed = listedBolts(bcdMm);
  const [firstMm, secondMm = firstMm] = gapsMm;
  const told = { kind: 'found', bcdMm, from: 'told', near: false } as const;

  if (pattern === 'uneven' && !differ(gapsMm)) {
    const fourArms = bolts === null && listed.includes(4);
    const taken = bolts ?? (fourArms ? 4 : null);
    const boltsFrom = bolts !== null ? 'told' : fourArms ? 'pattern' : null;
    return { ...told, bolts: taken, boltsFrom, uneven: true, circles: [{ bcdMm, bolts: taken }] };
  }

  if (firstMm === undefined || secondMm === undefined) {
    // A figure that no circle has, and that is a printed gap to a hair, is what was measured between two bolts.
    const asGap = listed.length === 0 ? boltCirclesFromGap({ gapsMm: [bcdMm], bolts }) : null;
    if (asGap?.kind === 'found' && !asGap.near) {
      return { kind: 'cannot', reason: 'told-is-a-gap', circles: asGap.circles, computed: [] };
    }
    const [onlyListed] = listed;
    const taken = bolts ?? (listed.length === 1 && onlyListed !== undefined ? onlyListed : null);
    const boltsFrom = bolts !== null ? 'told' : taken === null ? null : 'listed';
    const circles = taken === null && listed.length > 1 ? listed.map((n) => ({ bcdMm, bolts: n })) : undefined;
    return { ...told, bolts: taken, boltsFrom, uneven: false, circles: circles ?? [{ bcdMm, bolts: taken }] };
  }

  if (Math.abs(firstMm - secondMm) > UNEVEN_MM) {
    // Only on four arms do two gaps give the circle: opposite holes lie across their right angle.
    const fourArms = bolts === 4 || (bolts === null && listed.includes(4));
    const agrees = !fourArms || Math.abs(Math.hypot(firstMm, secondMm) - bcdMm) <= 2 * NEAR_MM;
    const taken = bolts ?? (fourArms ? 4 : null);
    const boltsFrom = bolts !== null ? 'told' : fourArms ? 'gap' : null;
    return agrees
      ? { ...told, bolts: taken, boltsFrom, uneven: true, circles: [{ bcdMm, bolts: taken }] }
      : { kind: 'cannot', reason: 'uneven-pattern', circles: uneven(gapsMm, bolts), computed: [] };
  }

  const gapMm = (firstMm + secondMm) / 2;
  const counts = bolts !== null ? [bolts] : [...listed, ...ANY_BOLTS];
  const agreeing = counts.find((n) => Math.abs(holeSpacingMm(bcdMm, n) - gapMm) <= NEAR_MM);
  if (agreeing !== undefined) {
    const boltsFrom = bolts !== null ? 'told' : 'gap';
    return { ...told, bolts: agreeing, boltsFrom, uneven: false, circles: [{ bcdMm, bolts: agreeing }] };
  }
  const reading = boltCirclesFromGap({ gapsMm, bolts });
  const measured = reading.kind === 'found' ? reading.circles : [];
  const label = (bolts === null ? listed : [bolts]).map((n) => ({ bcdMm, bolts: n }));
  return { kind: 'cannot', reason: 'told-and-gap-disagree', circles: [...label, ...measured], computed: [] };
}

function uneven(gapsMm: readonly number[], bolts: number | null): readonly ListedCircle[] {
  const reading = boltCirclesFromGap({ gapsMm, bolts });
  return reading.kind === 'cannot' && reading.reason === 'uneven-pattern' ? reading.circles : [];
}
