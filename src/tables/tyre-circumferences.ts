import type { Row } from './row.ts';

type TyreCircumference = {
  readonly widthMm: number;
  readonly beadSeatMm: number;
  readonly circumferenceMm: number;
};

/** Wheel circumferences as a cycle-computer maker prints them. */
// widthMm [mm]  beadSeatMm [mm]  circumferenceMm [mm]
// biome-ignore format: aligned columns read as a table
export const TYRE_CIRCUMFERENCES = [
  { widthMm: 47, beadSeatMm: 305, circumferenceMm: 1195, basis: 'published', cite: { source: 'TyreChart', locator: '47-305' } },
  { widthMm: 37, beadSeatMm: 349, circumferenceMm: 1300, basis: 'published', cite: { source: 'TyreChart', locator: '37-349' } },
  { widthMm: 40, beadSeatMm: 406, circumferenceMm: 1490, basis: 'published', cite: { source: 'TyreChart', locator: '40-406' } },
  { widthMm: 47, beadSeatMm: 406, circumferenceMm: 1515, basis: 'published', cite: { source: 'TyreChart', locator: '47-406' } },
  { widthMm: 47, beadSeatMm: 507, circumferenceMm: 1890, basis: 'published', cite: { source: 'TyreChart', locator: '47-507' } },
  { widthMm: 25, beadSeatMm: 559, circumferenceMm: 1913, basis: 'published', cite: { source: 'TyreChart', locator: '25-559' } },
  { widthMm: 50, beadSeatMm: 559, circumferenceMm: 2050, basis: 'published', cite: { source: 'TyreChart', locator: '50-559' } },
  { widthMm: 54, beadSeatMm: 559, circumferenceMm: 2068, basis: 'published', cite: { source: 'TyreChart', locator: '54-559' } },
  { widthMm: 54, beadSeatMm: 584, circumferenceMm: 2148, basis: 'published', cite: { source: 'TyreChart', locator: '54-584' } },
  { widthMm: 57, beadSeatMm: 584, circumferenceMm: 2182, basis: 'published', cite: { source: 'TyreChart', locator: '57-584' } },
  { widthMm: 23, beadSeatMm: 622, circumferenceMm: 2096, basis: 'published', cite: { source: 'TyreChart', locator: '23-622' } },
  { widthMm: 25, beadSeatMm: 622, circumferenceMm: 2105, basis: 'published', cite: { source: 'TyreChart', locator: '25-622' } },
  { widthMm: 28, beadSeatMm: 622, circumferenceMm: 2136, basis: 'published', cite: { source: 'TyreChart', locator: '28-622' } },
  { widthMm: 32, beadSeatMm: 622, circumferenceMm: 2155, basis: 'published', cite: { source: 'TyreChart', locator: '32-622' } },
  { widthMm: 35, beadSeatMm: 622, circumferenceMm: 2168, basis: 'published', cite: { source: 'TyreChart', locator: '35-622' } },
  { widthMm: 40, beadSeatMm: 622, circumferenceMm: 2200, basis: 'published', cite: { source: 'TyreChart', locator: '40-622' } },
  { widthMm: 47, beadSeatMm: 622, circumferenceMm: 2268, basis: 'published', cite: { source: 'TyreChart', locator: '47-622' } },
  { widthMm: 54, beadSeatMm: 622, circumferenceMm: 2288, basis: 'published', cite: { source: 'TyreChart', locator: '54-622' } },
  { widthMm: 60, beadSeatMm: 622, circumferenceMm: 2326, basis: 'published', cite: { source: 'TyreChart', locator: '60-622' } },
] as const satisfies readonly Row<TyreCircumference>[];

type ChartFirst = { readonly underBeadSeatMm: number };

/** Below this bead seat the chart goes before π × (bead seat + 2 × width), which reads 2 to 5 % high there. */
export const CHART_FIRST = {
  underBeadSeatMm: 500,
  basis: 'calculated',
  cite: { source: 'TyreChart', locator: 'rows of 305 to 406 mm, against the formula' },
} as const satisfies Row<ChartFirst>;

type TradeWidth = { readonly inches: number; readonly widthMm: number };

/** Small-wheel tyres sold by an inch width, and the width in the standard's size mark that the same tyre carries. */
// inches [in]  widthMm [mm]
export const TRADE_WIDTHS = [
  { inches: 1.375, widthMm: 37, basis: 'common-practice' },
  { inches: 1.5, widthMm: 40, basis: 'common-practice' },
  { inches: 1.75, widthMm: 47, basis: 'common-practice' },
] as const satisfies readonly Row<TradeWidth>[];
