import type { Row } from './row.ts';

type BoltCircle = {
  readonly bolts: 3 | 4 | 5;
  readonly bcdMm: number;
  /** The smallest ring printed for the circle; null where nothing is printed and geometry has to say. */
  readonly smallestTeeth: number | null;
  /**
   * The largest ring usually seen on it where it is the outer circle of a crank that gets converted (common practice
   * on every row); null for circles too rare to offer to somebody who has not measured, and for inner circles.
   */
  readonly usualLargestTeeth: number | null;
};

const crib = {
  basis: 'published',
  cite: { source: 'BrownBCD', locator: 'crib sheet, table of bolt circles' },
} as const;
const trade = { basis: 'common-practice' } as const;

/** Bolt circles: how many bolts on which diameter, and the smallest ring printed for it. */
// biome-ignore format: aligned columns read as a table
export const BOLT_CIRCLES = [
  // count    [mm]           [teeth]             [teeth]
  { bolts: 5, bcdMm: 151, smallestTeeth: 44,   usualLargestTeeth: null, ...crib },
  { bolts: 5, bcdMm: 144, smallestTeeth: 41,   usualLargestTeeth: null, ...crib },
  { bolts: 5, bcdMm: 135, smallestTeeth: 39,   usualLargestTeeth: null, ...crib },
  { bolts: 5, bcdMm: 130, smallestTeeth: 38,   usualLargestTeeth: 60,   ...crib },
  { bolts: 5, bcdMm: 128, smallestTeeth: 38,   usualLargestTeeth: null, ...crib },
  { bolts: 5, bcdMm: 122, smallestTeeth: 38,   usualLargestTeeth: null, ...crib },
  { bolts: 5, bcdMm: 118, smallestTeeth: 36,   usualLargestTeeth: null, ...crib },
  { bolts: 5, bcdMm: 116, smallestTeeth: 35,   usualLargestTeeth: null, ...crib },
  { bolts: 5, bcdMm: 110, smallestTeeth: 34,   usualLargestTeeth: 53,   ...crib },
  { bolts: 5, bcdMm: 94,  smallestTeeth: 29,   usualLargestTeeth: 46,   ...crib },
  { bolts: 5, bcdMm: 92,  smallestTeeth: null, usualLargestTeeth: null, ...crib },
  { bolts: 5, bcdMm: 86,  smallestTeeth: 28,   usualLargestTeeth: null, ...crib },
  { bolts: 5, bcdMm: 74,  smallestTeeth: 24,   usualLargestTeeth: null, ...crib },
  { bolts: 5, bcdMm: 58,  smallestTeeth: 20,   usualLargestTeeth: null, ...crib },
  { bolts: 5, bcdMm: 56,  smallestTeeth: 20,   usualLargestTeeth: null, ...crib },
  { bolts: 4, bcdMm: 146, smallestTeeth: 44,   usualLargestTeeth: null, ...crib },
  { bolts: 4, bcdMm: 120, smallestTeeth: null, usualLargestTeeth: 44,   ...crib },
  { bolts: 4, bcdMm: 112, smallestTeeth: 34,   usualLargestTeeth: null, ...crib },
  { bolts: 4, bcdMm: 110, smallestTeeth: null, usualLargestTeeth: 55,   ...trade },
  { bolts: 4, bcdMm: 104, smallestTeeth: 32,   usualLargestTeeth: 48,   ...crib },
  { bolts: 4, bcdMm: 102, smallestTeeth: null, usualLargestTeeth: null, ...crib },
  { bolts: 4, bcdMm: 96,  smallestTeeth: null, usualLargestTeeth: 42,   ...trade },
  { bolts: 4, bcdMm: 94,  smallestTeeth: null, usualLargestTeeth: null, ...trade },
  { bolts: 4, bcdMm: 88,  smallestTeeth: null, usualLargestTeeth: null, ...crib },
  { bolts: 4, bcdMm: 80,  smallestTeeth: null, usualLargestTeeth: null, ...crib },
  { bolts: 4, bcdMm: 76,  smallestTeeth: null, usualLargestTeeth: null, ...trade },
  { bolts: 4, bcdMm: 68,  smallestTeeth: 22,   usualLargestTeeth: null, ...crib },
  { bolts: 4, bcdMm: 64,  smallestTeeth: 22,   usualLargestTeeth: null, ...crib },
  { bolts: 3, bcdMm: 86,  smallestTeeth: null, usualLargestTeeth: null, ...crib },
] as const satisfies readonly Row<BoltCircle>[];

type UnevenPattern = { readonly bolts: number; readonly bcdMm: number };

/** Labels under which cranks with unequally spaced arms are sold too. Opposite holes still give the label. */
export const UNEVEN_PATTERNS = [
  { bolts: 4, bcdMm: 96, basis: 'published', cite: { source: 'BrownPatterns', locator: 'four arms, 96 mm' } },
  { bolts: 4, bcdMm: 104, basis: 'published', cite: { source: 'BrownPatterns', locator: 'four arms, 104 mm' } },
  { bolts: 4, bcdMm: 110, basis: 'published', cite: { source: 'BrownPatterns', locator: 'four arms, 110 mm' } },
] as const satisfies readonly Row<UnevenPattern>[];

type CirclePair = { readonly bolts: number; readonly outerMm: number; readonly innerMm: number };

/** Two circles on one crank: the outer one carries the large rings, the inner one the smallest. */
export const CIRCLE_PAIRS = [
  { bolts: 4, outerMm: 104, innerMm: 64, basis: 'common-practice' },
  { bolts: 4, outerMm: 120, innerMm: 80, basis: 'common-practice' },
  { bolts: 4, outerMm: 96, innerMm: 64, basis: 'common-practice' },
  { bolts: 5, outerMm: 110, innerMm: 74, basis: 'common-practice' },
  { bolts: 5, outerMm: 94, innerMm: 58, basis: 'common-practice' },
  { bolts: 5, outerMm: 130, innerMm: 74, basis: 'common-practice' },
] as const satisfies readonly Row<CirclePair>[];

type CircleRule = { readonly valueMm: number };

/** What decides between circles, and whether a ring's valleys leave room for its bolts. */
// biome-ignore format: aligned columns read as a table
export const CIRCLE_RULES = {
  //                          [mm]
  /** A gap this near to a listed one is that circle. */
  matchGap:       { valueMm: 0.3,  basis: 'common-practice' },
  /** A gap this near is taken only if no second circle is; half of what 102 and 104 differ by, and a little. */
  nearGap:        { valueMm: 0.75, basis: 'calculated', cite: { source: 'BrownBCD', locator: 'crib sheet, 72.1 against 73.6' } },
  /** Two gaps of one crank that differ by more are not evenly spaced. */
  unevenGaps:     { valueMm: 0.6,  basis: 'common-practice' },
  /** Valley diameter less bolt circle from which a ring is an ordinary bolted one. */
  ordinaryMargin: { valueMm: 14,   basis: 'calculated', cite: { source: 'BrownBCD', locator: 'crib sheet, smallest rings' } },
  /** The least margin of a ring with threads of its own or raised tabs: 30 teeth on 104 has 9.7. */
  specialMargin:  { valueMm: 9.5,  basis: 'calculated', cite: { source: 'HomeMechanic2013', locator: '30 teeth on a 104 circle' } },
} as const satisfies Record<string, Row<CircleRule>>;
