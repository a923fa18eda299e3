import type { Row } from './row.ts';

type BeadSeat = { readonly beadSeatMm: number; readonly names: string };

/** Bead seat diameters and the trade names they go by. */
// beadSeatMm [mm]
// biome-ignore format: aligned columns read as a table
export const BEAD_SEATS = [
  { beadSeatMm: 305, names: '16 in',          basis: 'memory' },
  { beadSeatMm: 349, names: '16 in, the larger', basis: 'memory' },
  { beadSeatMm: 406, names: '20 in',          basis: 'published', cite: { source: 'ISO5775', locator: 'size table' } },
  { beadSeatMm: 507, names: '24 in',          basis: 'published', cite: { source: 'ISO5775', locator: 'size table' } },
  { beadSeatMm: 559, names: '26 in',          basis: 'published', cite: { source: 'ISO5775', locator: 'size table' } },
  { beadSeatMm: 571, names: '26 in, narrow',  basis: 'published', cite: { source: 'ISO5775', locator: 'size table' } },
  { beadSeatMm: 584, names: '27.5 in, 650B',  basis: 'published', cite: { source: 'ISO5775', locator: 'size table' } },
  { beadSeatMm: 590, names: '26 in, roadster', basis: 'published', cite: { source: 'ISO5775', locator: 'size table' } },
  { beadSeatMm: 622, names: '29 in, 700C',    basis: 'published', cite: { source: 'ISO5775', locator: 'size table' } },
  { beadSeatMm: 630, names: '27 in',          basis: 'published', cite: { source: 'ISO5775', locator: 'size table' } },
] as const satisfies readonly Row<BeadSeat>[];

type TypicalWidth = {
  readonly beadSeatMm: number;
  /** The outer ring the bike has today: it tells a trail bike (up to 44T) from a road bike (46T and more). */
  readonly outerRing: 'any' | 'small' | 'large';
  readonly lowMm: number;
  readonly typicalMm: number;
  readonly highMm: number;
};

/**
 * The tyre to reckon with when only the rim is known, and the widths one may really find there. A 622 rim may carry a
 * road tyre or a trail tyre, so the rings decide where they are known; a told width always overrides. The first row that
 * fits counts.
 */
// beadSeatMm [mm]  outerRing [—]  lowMm [mm]  typicalMm [mm]  highMm [mm]
// biome-ignore format: aligned columns read as a table
export const TYPICAL_WIDTHS = [
  { beadSeatMm: 305, outerRing: 'any',   lowMm: 40, typicalMm: 47, highMm: 54, basis: 'memory' },
  { beadSeatMm: 349, outerRing: 'any',   lowMm: 32, typicalMm: 37, highMm: 50, basis: 'memory' },
  { beadSeatMm: 406, outerRing: 'any',   lowMm: 28, typicalMm: 47, highMm: 57, basis: 'memory' },
  { beadSeatMm: 507, outerRing: 'any',   lowMm: 37, typicalMm: 47, highMm: 57, basis: 'memory' },
  { beadSeatMm: 559, outerRing: 'any',   lowMm: 32, typicalMm: 50, highMm: 62, basis: 'memory' },
  { beadSeatMm: 571, outerRing: 'any',   lowMm: 18, typicalMm: 23, highMm: 28, basis: 'memory' },
  { beadSeatMm: 584, outerRing: 'any',   lowMm: 38, typicalMm: 54, highMm: 66, basis: 'memory' },
  { beadSeatMm: 590, outerRing: 'any',   lowMm: 32, typicalMm: 37, highMm: 44, basis: 'memory' },
  { beadSeatMm: 622, outerRing: 'small', lowMm: 50, typicalMm: 57, highMm: 64, basis: 'memory' },
  { beadSeatMm: 622, outerRing: 'large', lowMm: 23, typicalMm: 32, highMm: 45, basis: 'memory' },
  { beadSeatMm: 622, outerRing: 'any',   lowMm: 23, typicalMm: 40, highMm: 60, basis: 'memory' },
  { beadSeatMm: 630, outerRing: 'any',   lowMm: 25, typicalMm: 28, highMm: 37, basis: 'memory' },
] as const satisfies readonly Row<TypicalWidth>[];

/** Up to this outer ring a bike is taken for a trail bike, from the other on for a road bike (common practice). */
export const OUTER_RINGS = {
  small: { toTeeth: 44, basis: 'common-practice' },
  large: { fromTeeth: 46, basis: 'common-practice' },
} as const satisfies Readonly<Record<string, Row<{ readonly toTeeth?: number; readonly fromTeeth?: number }>>>;
