import { BOLT_CIRCLES, CIRCLE_PAIRS, CIRCLE_RULES, UNEVEN_PATTERNS } from '../tables/bolt-circles.ts';

/** A bolt circle; the number of bolts is null where nobody has counted them. */
export type Circle = { readonly bcdMm: number; readonly bolts: number | null };

/** A circle with its bolts counted, as the table lists them. */
export type ListedCircle = { readonly bcdMm: number; readonly bolts: number };

const MATCH_MM = CIRCLE_RULES.matchGap.valueMm;
const NEAR_MM = CIRCLE_RULES.nearGap.valueMm;
const UNEVEN_MM = CIRCLE_RULES.unevenGaps.valueMm;

const SPACED = BOLT_CIRCLES.map((row) => ({
  circle: { bcdMm: row.bcdMm, bolts: row.bolts } as ListedCircle,
  spacingMm: row.bcdMm * Math.sin(Math.PI / row.bolts),
}));

/**
 * Distance between the centres of neighbouring bolt holes.
 *
 * c = BCD · sin(180°/n)
 *
 * Valid for evenly spaced holes, 3 or more; an uneven pattern has two spacings and neither is this one. Agrees with the
 * printed table to half a unit of its last digit, but for three rows 0.06 to 0.21 mm off and one misprint.
 *
 * @param bcdMm bolt circle diameter [mm], over 0
 * @param bolts number of bolts [1], 3 or more
 * @returns spacing of neighbouring holes [mm]
 * @example holeSpacingMm(110, 5) // 64.66
 * @see BrownBCD, crib sheet, 110 mm, five holes
 */
export function holeSpacingMm(bcdMm: number, bolts: number): number {
  return bcdMm * Math.sin(Math.PI / bolts);
}

/**
 * Distance between the centres of bolt holes that are next neighbours but one: the easier one to measure on five arms.
 *
 * d = BCD · sin(360°/n)
 *
 * Valid for evenly spaced holes, 3 or more; on four holes it is the circle itself. Agrees with the printed table for
 * five holes to 0.1 mm.
 *
 * @param bcdMm bolt circle diameter [mm], over 0
 * @param bolts number of bolts [1], 3 or more
 * @returns spacing of holes with one between them [mm]
 * @example nextButOneSpacingMm(110, 5) // 104.6
 * @see BrownBCD, crib sheet, next but one, 110 mm
 */
export function nextButOneSpacingMm(bcdMm: number, bolts: number): number {
  return bcdMm * Math.sin((2 * Math.PI) / bolts);
}

/**
 * Bolt circle on which holes of a given spacing lie.
 *
 * BCD = c / sin(180°/n)
 *
 * Valid for evenly spaced holes, 3 or more. Agrees with the printed factors 1.1547, 1.4142, 1.7013 and 2.0 to four
 * places.
 *
 * @param spacingMm spacing of neighbouring holes [mm], over 0
 * @param bolts number of bolts [1], 3 or more
 * @returns bolt circle diameter [mm]
 * @example circleOfSpacingMm(73.5, 4) // 103.9
 * @see geometry
 */
export function circleOfSpacingMm(spacingMm: number, bolts: number): number {
  return spacingMm / Math.sin(Math.PI / bolts);
}

/**
 * The other gap of an uneven four-arm pattern, from its circle and one gap.
 *
 * b = √(BCD² − a²)
 *
 * Valid for four holes whose opposite ones lie a circle's diameter apart, since every third hole then sees that diameter
 * under a right angle; a gap as long as the circle, or longer, is none and gives null. Equal gaps give back the even
 * spacing.
 *
 * @param bcdMm bolt circle diameter [mm], over 0
 * @param gapMm one gap between neighbouring hole centres [mm], over 0
 * @returns the gap beside it [mm], or null
 * @example otherGapMm(104, 70) // 76.9
 * @example otherGapMm(104, 104) // null
 * @see geometry
 */
export function otherGapMm(bcdMm: number, gapMm: number): number | null {
  return gapMm < bcdMm ? Math.sqrt(bcdMm * bcdMm - gapMm * gapMm) : null;
}

/** What one or two measured gaps say of the bolt circle. */
export type GapReading =
  | {
      readonly kind: 'found';
      readonly gapMm: number;
      /** Every listed circle the gap cannot be told apart from, the nearest first. */
      readonly circles: readonly ListedCircle[];
      /** True when the gap is off by more than careful measuring leaves: worth measuring again. */
      readonly near: boolean;
      /** How far the nearest one is off. */
      readonly offMm: number;
    }
  | { readonly kind: 'cannot'; readonly reason: 'uneven-pattern'; readonly circles: readonly ListedCircle[] }
  | { readonly kind: 'cannot'; readonly reason: 'no-listed-circle'; readonly computed: readonly ListedCircle[] };

/**
 * Reads the bolt circle from the gap between neighbouring holes, measured once or at two places.
 *
 * |BCD · sin(180°/n) − c| ≤ 0.3 mm
 *
 * Valid for evenly spaced holes; two gaps more than 0.6 mm apart are an uneven pattern, where opposite holes √(a² + b²)
 * apart still give the label. Where no circle is within 0.3 mm, those within 0.75 mm are named as near. Agrees with the
 * printed table for every row.
 *
 * @param input `gapsMm` one or two gaps between neighbouring hole centres [mm]; `bolts` number of bolts [1] or null
 * @returns [—] `gapMm` and `offMm` [mm]; the circles as `bcdMm` [mm] and `bolts` [1]; or why there is none
 * @example boltCirclesFromGap({ gapsMm: [72.5], bolts: 4 }).circles // [{"bcdMm":102,"bolts":4}]
 * @example boltCirclesFromGap({ gapsMm: [70, 77], bolts: 4 }).reason // "uneven-pattern"
 * @see BrownPatterns, four arms
 */
export function boltCirclesFromGap(input: {
  readonly gapsMm: readonly number[];
  readonly bolts: number | null;
}): GapReading {
  const [first = 0, second = first] = input.gapsMm;
  if (Math.abs(first - second) > UNEVEN_MM) {
    const acrossMm = Math.hypot(first, second);
    const labels = input.bolts === null || input.bolts === 4 ? UNEVEN_PATTERNS : [];
    const circles = labels
      .filter((label) => Math.abs(label.bcdMm - acrossMm) <= 2 * NEAR_MM)
      .map(({ bcdMm, bolts }) => ({ bcdMm, bolts }));
    return { kind: 'cannot', reason: 'uneven-pattern', circles };
  }
  const gapMm = (first + second) / 2;
  const close = SPACED.filter(
    (each) =>
      (input.bolts === null || each.circle.bolts === input.bolts) && Math.abs(each.spacingMm - gapMm) <= NEAR_MM,
  ).sort((a, b) => Math.abs(a.spacingMm - gapMm) - Math.abs(b.spacingMm - gapMm));
  const matched = close.filter((each) => Math.abs(each.spacingMm - gapMm) <= MATCH_MM);
  const taken = matched.length > 0 ? matched : close;
  const [best] = taken;
  if (best === undefined) {
    const counts = input.bolts === null ? [4, 5] : [input.bolts];
    const computed = counts.map((bolts) => ({ bcdMm: circleOfSpacingMm(gapMm, bolts), bolts }));
    return { kind: 'cannot', reason: 'no-listed-circle', computed };
  }
  return {
    kind: 'found',
    gapMm,
    circles: taken.map((each) => each.circle),
    near: matched.length === 0,
    offMm: Math.abs(best.spacingMm - gapMm),
  };
}

/**
 * Bolt counts that the table lists for a circle.
 *
 * {n : (n, BCD) listed}
 *
 * Valid for any diameter; one that is not listed gives an empty list. Agrees with the printed table, which it reads.
 *
 * @param bcdMm bolt circle diameter [mm]
 * @returns bolt counts [1], most bolts first
 * @example listedBolts(94) // [5,4]
 * @see BrownBCD, crib sheet
 */
export function listedBolts(bcdMm: number): readonly number[] {
  return SPACED.filter((each) => each.circle.bcdMm === bcdMm).map((each) => each.circle.bolts);
}

/**
 * The outer circle that a crank with this inner circle also has.
 *
 * {outer : (outer, inner) is a pair}
 *
 * Valid for the pairs met in the trade; a circle that is no pair's inner one gives an empty list.
 *
 * @param circle `bcdMm` [mm]; `bolts` number of bolts [1] or null
 * @returns diameters of the outer circles [mm]
 * @example outerCirclesMm({ bcdMm: 64, bolts: 4 }) // [104,96]
 * @see common practice
 */
export function outerCirclesMm(circle: Circle): readonly number[] {
  return pairsOf(circle, 'innerMm').map((pair) => pair.outerMm);
}

/**
 * The outer circles a crank with this inner circle may have, each with its bolts.
 *
 * {(outer, n) : (outer, inner) is a pair on n bolts}
 *
 * Valid as {@link outerCirclesMm} is; with the bolts uncounted a pair may stand on either count.
 *
 * @param circle `bcdMm` [mm]; `bolts` number of bolts [1] or null
 * @returns [—] circles as `bcdMm` [mm] and `bolts` [1]
 * @example outerCircles({ bcdMm: 74, bolts: 5 }) // [{"bcdMm":110,"bolts":5},{"bcdMm":130,"bolts":5}]
 * @see common practice
 */
export function outerCircles(circle: Circle): readonly ListedCircle[] {
  return pairsOf(circle, 'innerMm').map((pair) => ({ bcdMm: pair.outerMm, bolts: pair.bolts }));
}

/**
 * The inner circles that cranks with this outer circle may have besides.
 *
 * {inner : (outer, inner) is a pair}
 *
 * Valid for the pairs met in the trade; a circle that is no pair's outer one gives an empty list.
 *
 * @param circle `bcdMm` [mm]; `bolts` number of bolts [1] or null
 * @returns diameters of the inner circles [mm]
 * @example innerCirclesMm({ bcdMm: 104, bolts: 4 }) // [64]
 * @see common practice
 */
export function innerCirclesMm(circle: Circle): readonly number[] {
  return pairsOf(circle, 'outerMm').map((pair) => pair.innerMm);
}

/** The pairs of which this circle is the outer or the inner one; any count of bolts where nobody has counted. */
function pairsOf({ bcdMm, bolts }: Circle, as: 'outerMm' | 'innerMm') {
  return CIRCLE_PAIRS.filter((pair) => pair[as] === bcdMm && (bolts === null || pair.bolts === bolts));
}
