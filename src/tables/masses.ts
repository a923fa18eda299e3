import type { Cite, Row } from './row.ts';

/** The least, the typical and the most a part weighs. */
export type MassRange = { readonly lowG: number; readonly typicalG: number; readonly highG: number };

/** Figures in print for single examples of a part, all inside its range. */
type Printed = { readonly printed?: { readonly grams: readonly number[]; readonly cite: Cite } };

/**
 * Parts that come off or go on, set by set. The ranges are typical ones (memory) wherever somebody printed only single
 * examples; a kitchen scale overrides every one of them.
 */
// low, typical and high in g
export const PART_MASSES = {
  // Typical: the mean of the four printed.
  frontDerailleur: {
    lowG: 120,
    typicalG: 158.5,
    highG: 190,
    basis: 'memory',
    printed: {
      grams: [128, 140, 178, 188],
      cite: { source: 'ShopCatalogue', locator: 'front derailleurs, four texts' },
    },
  },
  shifterPod: {
    lowG: 100,
    typicalG: 120,
    highG: 130,
    basis: 'memory',
    printed: { grams: [125], cite: { source: 'ShopCatalogue', locator: 'left trigger shifter' } },
  },
  cableAndHousing: { lowG: 35, typicalG: 55, highG: 75, basis: 'memory' },
  ringBoltsOld: {
    lowG: 15,
    typicalG: 25,
    highG: 44,
    basis: 'memory',
    printed: { grams: [15, 44], cite: { source: 'LongBolt2015', locator: 'bolt sets, aluminium and long steel' } },
  },
  ringBoltsShort: {
    lowG: 15,
    typicalG: 22,
    highG: 30,
    basis: 'memory',
    printed: { grams: [15], cite: { source: 'LongBolt2015', locator: 'bolt set, aluminium' } },
  },
  // One printed example; a fifth either way for other shapes.
  directMountRing30: {
    lowG: 49,
    typicalG: 61,
    highG: 73,
    basis: 'memory',
    printed: { grams: [61], cite: { source: 'CrankChart', locator: 'direct-mount ring, 30 teeth' } },
  },
} as const satisfies Record<string, Row<MassRange & Printed>>;

type RingMass = MassRange & { readonly teeth: number };

/**
 * Ordinary bolted rings by size; between two rows the figures run in a straight line. Above 42 teeth the high end is a
 * printed single road ring, and the low end keeps the 42-tooth ring's share of it, 60/95.
 */
// teeth [1]   low [g]   typical [g]   high [g]
// biome-ignore format: aligned columns read as a table
export const RING_MASSES = [
  { teeth: 22, lowG: 25,   typicalG:  32, highG:  40, basis: 'memory' },
  { teeth: 32, lowG: 35,   typicalG:  40, highG:  45, basis: 'memory' },
  { teeth: 42, lowG: 60,   typicalG:  78, highG:  95, basis: 'memory' },
  { teeth: 44, lowG: 67.6, typicalG:  87, highG: 107, basis: 'calculated', cite: { source: 'ShopCatalogue', locator: 'single ring, five-hole 110, 44T 107 g' } },
  { teeth: 46, lowG: 74.5, typicalG:  96, highG: 118, basis: 'calculated', cite: { source: 'ShopCatalogue', locator: 'single ring, five-hole 110, 46T 118 g' } },
  { teeth: 48, lowG: 84.6, typicalG: 109, highG: 134, basis: 'calculated', cite: { source: 'ShopCatalogue', locator: 'single ring, five-hole 110, 48T 134 g' } },
  { teeth: 50, lowG: 94.1, typicalG: 122, highG: 149, basis: 'calculated', cite: { source: 'ShopCatalogue', locator: 'single ring, five-hole 110, 50T 149 g' } },
] as const satisfies readonly Row<RingMass>[];

type NarrowWideMass = MassRange & { readonly fromTeeth: number; readonly toTeeth: number };

/** A bolted narrow-wide ring of a mountain size. */
export const NARROW_WIDE_MASS = {
  fromTeeth: 30,
  toTeeth: 38,
  lowG: 35,
  typicalG: 47,
  highG: 60,
  basis: 'memory',
} as const satisfies Row<NarrowWideMass>;

type PitchMass = MassRange & { readonly speeds: number | null };

/** Chain, one pitch, by the number of sprockets it is made for; `null` is any chain. Typical: the middle of the range. */
// speeds [1]   low [g]   typical [g]   high [g]
// biome-ignore format: aligned columns read as a table
export const CHAIN_PITCH_MASSES = [
  { speeds: 10,   lowG: 2.24, typicalG: 2.335, highG: 2.43, basis: 'published', cite: { source: 'ShopCatalogue', locator: '10-speed chains, mass over pitches' } },
  { speeds: 11,   lowG: 2.09, typicalG: 2.17,  highG: 2.25, basis: 'published', cite: { source: 'ShopCatalogue', locator: '11-speed chains, mass over pitches' } },
  { speeds: 12,   lowG: 2.16, typicalG: 2.16,  highG: 2.16, basis: 'published', cite: { source: 'ShopCatalogue', locator: '12-speed chain, mass over pitches' } },
  { speeds: null, lowG: 2.1,  typicalG: 2.35,  highG: 2.6,  basis: 'published', cite: { source: 'ShopCatalogue', locator: 'chains, lightest and heaviest pitch' } },
] as const satisfies readonly Row<PitchMass>[];

type WeighedJob = { readonly what: string; readonly lowG: number; readonly highG: number };

/** What others report for a whole conversion, to hold a sum against. */
export const REPORTED_SAVINGS = {
  weighed: {
    what: 'front derailleur, two rings and bolts, shifter with cable and housing, less the new ring and bolts',
    lowG: 358,
    highG: 358,
    basis: 'published',
    cite: { source: 'HomeMechanic2013', locator: 'parts on the scale: 163 + 71 + 165 − 41 g' },
  },
  typical: {
    what: 'a typical conversion',
    lowG: 300,
    highG: 600,
    basis: 'published',
    cite: { source: 'Blog2021', locator: 'weight saved' },
  },
  otherCrankset: {
    what: 'mostly a lighter crankset',
    lowG: 712,
    highG: 712,
    basis: 'published',
    cite: { source: 'CycleChat', locator: 'before and after' },
  },
} as const satisfies Record<string, Row<WeighedJob>>;
