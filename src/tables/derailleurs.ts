import type { Row } from './row.ts';

type CageCapacity = {
  readonly cage: 'short' | 'medium' | 'long';
  readonly lowTeeth: number;
  readonly highTeeth: number;
};

/** Teeth of chain a rear derailleur takes up, by its cage. The word alone is a hint: the printed figure decides. */
// biome-ignore format: aligned columns read as a table
export const CAGE_CAPACITIES = [
  //                        [teeth]        [teeth]
  { cage: 'short',  lowTeeth: 28, highTeeth: 32, basis: 'memory' },
  { cage: 'short',  lowTeeth: 29, highTeeth: 32, basis: 'published', cite: { source: 'CapacityTable', locator: 'short, 34/32 and 27/29' } },
  { cage: 'medium', lowTeeth: 33, highTeeth: 37, basis: 'published', cite: { source: 'CapacityTable', locator: 'medium, 34/37 and 34/33' } },
  { cage: 'long',   lowTeeth: 43, highTeeth: 45, basis: 'memory' },
  { cage: 'long',   lowTeeth: 45, highTeeth: 45, basis: 'published', cite: { source: 'CapacityTable', locator: 'long, 34/45' } },
  // Single-ring types, which are made for 42 to 52 teeth.
  { cage: 'long',   lowTeeth: 36, highTeeth: 42, basis: 'memory' },
] as const satisfies readonly Row<CageCapacity>[];

type OneSizeOnly = { readonly highestLargestTeeth: number; readonly lowestLargestTeeth: number };

/** A derailleur can have a least largest sprocket as well as a greatest. */
export const BOTH_ENDS = {
  highestLargestTeeth: 51,
  lowestLargestTeeth: 51,
  basis: 'published',
  cite: { source: 'CrankChart', locator: '12-speed, largest sprocket 51 at most, 51 at least' },
} as const satisfies Row<OneSizeOnly>;

type GuideGap = { readonly fromLargestTeeth: number; readonly gapMm: number };

/** Gap between the upper pulley and the largest sprocket; the maker's gauge decides. */
export const GUIDE_GAPS = {
  usual: {
    fromLargestTeeth: 0,
    gapMm: 6,
    basis: 'published',
    cite: { source: 'TrikeManual', locator: 'p. 20, 9 and 10 speed' },
  },
  large: { fromLargestTeeth: 50, gapMm: 15, basis: 'memory' },
} as const satisfies Record<string, Row<GuideGap>>;
