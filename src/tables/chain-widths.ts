import type { Row } from './row.ts';

type InnerWidth = { readonly lowSpeeds: number; readonly highSpeeds: number; readonly innerMm: number };

/** Room between the inner plates. Nothing is printed for 13 sprockets. */
// biome-ignore format: aligned columns read as a table
export const INNER_WIDTHS = [
  // sprockets from, to           [mm]
  { lowSpeeds: 5, highSpeeds: 8,  innerMm: 2.38, basis: 'published', cite: { source: 'BikeGremlinChain', locator: 'inner width, 5 to 8 speed' } },
  { lowSpeeds: 9, highSpeeds: 12, innerMm: 2.18, basis: 'published', cite: { source: 'BikeGremlinChain', locator: 'inner width, 9 to 12 speed' } },
] as const satisfies readonly Row<InnerWidth>[];

type OuterWidth = { readonly speeds: number; readonly lowMm: number; readonly highMm: number };

/** Width over the pins. Nothing is printed below 8 sprockets. */
// biome-ignore format: aligned columns read as a table
export const OUTER_WIDTHS = [
  // sprockets    [mm]         [mm]
  { speeds: 8,  lowMm: 7.1,  highMm: 7.3,  basis: 'published', cite: { source: 'WidthTables', locator: '8 speed' } },
  { speeds: 9,  lowMm: 6.5,  highMm: 7.0,  basis: 'published', cite: { source: 'WidthTables', locator: '9 speed' } },
  { speeds: 10, lowMm: 5.88, highMm: 6.2,  basis: 'published', cite: { source: 'WidthTables', locator: '10 speed' } },
  { speeds: 11, lowMm: 5.5,  highMm: 5.65, basis: 'published', cite: { source: 'WidthTables', locator: '11 speed' } },
  { speeds: 12, lowMm: 5.3,  highMm: 5.3,  basis: 'published', cite: { source: 'WidthTables', locator: '12 speed' } },
  { speeds: 13, lowMm: 4.9,  highMm: 4.9,  basis: 'published', cite: { source: 'WidthTables', locator: '13 speed' } },
] as const satisfies readonly Row<OuterWidth>[];

type JoiningLink = { readonly lowSpeeds: number; readonly highSpeeds: number; readonly singleUse: boolean };

/** Whether makers call their joining links single-use. */
// biome-ignore format: aligned columns read as a table
export const JOINING_LINKS = [
  // sprockets from, to
  { lowSpeeds: 5,  highSpeeds: 9,  singleUse: false, basis: 'common-practice' },
  { lowSpeeds: 10, highSpeeds: 13, singleUse: true,  basis: 'common-practice' },
] as const satisfies readonly Row<JoiningLink>[];
