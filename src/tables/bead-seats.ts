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
  readonly lowMm: number;
  readonly typicalMm: number;
  readonly highMm: number;
};

/**
 * The tyre to reckon with when only the rim is known, and the widths one may really find there. A 622 rim may carry a
 * road tyre or a trail tyre, so its middle is far from both; a told width always overrides.
 */
// beadSeatMm [mm]  lowMm [mm]  typicalMm [mm]  highMm [mm]
// biome-ignore format: aligned columns read as a table
export const TYPICAL_WIDTHS = [
  { beadSeatMm: 305, lowMm: 40, typicalMm: 47, highMm: 54, basis: 'memory' },
  { beadSeatMm: 349, lowMm: 32, typicalMm: 37, highMm: 50, basis: 'memory' },
  { beadSeatMm: 406, lowMm: 28, typicalMm: 47, highMm: 57, basis: 'memory' },
  { beadSeatMm: 507, lowMm: 37, typicalMm: 47, highMm: 57, basis: 'memory' },
  { beadSeatMm: 559, lowMm: 32, typicalMm: 50, highMm: 62, basis: 'memory' },
  { beadSeatMm: 571, lowMm: 18, typicalMm: 23, highMm: 28, basis: 'memory' },
  { beadSeatMm: 584, lowMm: 38, typicalMm: 54, highMm: 66, basis: 'memory' },
  { beadSeatMm: 590, lowMm: 32, typicalMm: 37, highMm: 44, basis: 'memory' },
  { beadSeatMm: 622, lowMm: 23, typicalMm: 40, highMm: 60, basis: 'memory' },
  { beadSeatMm: 630, lowMm: 25, typicalMm: 28, highMm: 37, basis: 'memory' },
] as const satisfies readonly Row<TypicalWidth>[];
