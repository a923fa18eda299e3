import type { Row } from './row.ts';

type BoltMeasure = { readonly valueMm: number };

/** The bolt and its sleeve. */
// biome-ignore format: aligned columns read as a table
export const RING_BOLT = {
  //                      [mm]
  thread:      { valueMm: 8,    basis: 'published', cite: { source: 'ThreadTable',    locator: 'M8 × 0.75, ring bolts' } },
  threadPitch: { valueMm: 0.75, basis: 'published', cite: { source: 'ThreadTable',    locator: 'M8 × 0.75, ring bolts' } },
  boltKey:     { valueMm: 5,    basis: 'published', cite: { source: 'WikibooksRings', locator: 'ring bolts, hex key' } },
  sleeveKey:   { valueMm: 6,    basis: 'published', cite: { source: 'WikibooksRings', locator: 'ring bolts, hex key of the sleeve' } },
  head:        { valueMm: 11,   basis: 'published', cite: { source: 'VeloFAQ',        locator: 'bolt heads on a 130 circle' } },
  /** Outside of the sleeve; drawn in section, never printed as a figure. */
  sleeve:      { valueMm: 10,   basis: 'memory' },
  /** The printed principle is that head and sleeve must not meet; the figure is common practice. */
  leastClear:  { valueMm: 0.3,  basis: 'calculated', cite: { source: 'BCDLexicon',    locator: 'bolts and sleeves' } },
} as const satisfies Record<string, Row<BoltMeasure>>;

type Sleeve = { readonly lengthMm: number };

/** Two sleeves that are both sold as "single". */
export const SINGLE_SLEEVES = [
  { lengthMm: 4.5, basis: 'published', cite: { source: 'RingBolt2018', locator: 'the shorter sleeve' } },
  { lengthMm: 6.5, basis: 'published', cite: { source: 'RingBolt2018', locator: 'the longer sleeve' } },
] as const satisfies readonly Row<Sleeve>[];

type Thickness = { readonly lowMm: number; readonly highMm: number };

/** Typical thickness at the bolt. */
// biome-ignore format: aligned columns read as a table
export const TAB_THICKNESS = {
  //            [mm]        [mm]
  ringTab:  { lowMm: 3,   highMm: 4,   basis: 'memory' },
  oneRing:  { lowMm: 6.5, highMm: 8.5, basis: 'memory' },
  twoRings: { lowMm: 10,  highMm: 12,  basis: 'memory' },
} as const satisfies Record<string, Row<Thickness>>;

type Engagement = { readonly lowTurns: number; readonly highTurns: number };

/** Full turns of thread that must hold, by the bolt's material. */
// biome-ignore format: aligned columns read as a table
export const ENGAGEMENT = {
  //             turns
  steel:     { lowTurns: 4, highTurns: 4, basis: 'common-practice' },
  aluminium: { lowTurns: 5, highTurns: 6, basis: 'common-practice' },
} as const satisfies Record<string, Row<Engagement>>;
