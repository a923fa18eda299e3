import type { Row } from './row.ts';

type RearLine = { readonly hubMm: number; readonly rearMm: number };

/**
 * Middle of the cassette from the frame's mid-plane, by hub width. The rows without a printed figure keep the printed
 * distance from the dropout face: 142 and 135 share a cassette place, so 148 and 141 do, and 150 and 157.
 */
// biome-ignore format: aligned columns read as a table
export const REAR_LINES = [
  //   [mm]          [mm]
  { hubMm: 130, rearMm: 43.4, basis: 'published',  cite: { source: 'TiBlog',           locator: 'ten sprockets on 130' } },
  { hubMm: 135, rearMm: 43.0, basis: 'calculated', cite: { source: 'Walt2015',         locator: '142 keeps the cassette where 135 has it' } },
  { hubMm: 141, rearMm: 46.0, basis: 'calculated', cite: { source: 'Walt2015',         locator: '148 moves it out by 3' } },
  { hubMm: 142, rearMm: 43.0, basis: 'published',  cite: { source: 'BikeGremlinForum', locator: '71 − 22 − 2.5 − 3.5' } },
  { hubMm: 148, rearMm: 46.0, basis: 'calculated', cite: { source: 'Walt2015',         locator: '148 moves it out by 3' } },
  { hubMm: 150, rearMm: 50.5, basis: 'calculated', cite: { source: 'BikeGremlinForum', locator: '142 row, 7.5 mm wider a side than 135' } },
  { hubMm: 157, rearMm: 50.5, basis: 'calculated', cite: { source: 'BikeGremlinForum', locator: '142 row, 7.5 mm wider a side than 142' } },
] as const satisfies readonly Row<RearLine>[];

type FrontLine = { readonly hubMm: number; readonly lowMm: number; readonly highMm: number };

/** Where a single ring is meant to run, by hub width. On 135 and 142 the usual design figure is 49. */
// biome-ignore format: aligned columns read as a table
export const FRONT_LINES = [
  //   [mm]        [mm]        [mm]
  { hubMm: 130, lowMm: 42, highMm: 44.5, basis: 'published',  cite: { source: 'ChainlineThreads', locator: 'road cranks, single 42 to 44.5' } },
  { hubMm: 135, lowMm: 48, highMm: 50,   basis: 'published',  cite: { source: 'ChainlineThreads', locator: 'single ring on 135' } },
  { hubMm: 141, lowMm: 51, highMm: 55,   basis: 'calculated', cite: { source: 'CrankChart',       locator: '148 mm hubs; 141 has the same cassette place' } },
  { hubMm: 142, lowMm: 48, highMm: 50,   basis: 'published',  cite: { source: 'ChainlineThreads', locator: 'single ring on 142' } },
  { hubMm: 148, lowMm: 51, highMm: 55,   basis: 'published',  cite: { source: 'Chainline55',      locator: '52 from 2014, 55 on newer designs' } },
  { hubMm: 150, lowMm: 55, highMm: 57,   basis: 'published',  cite: { source: 'ShellTable',       locator: '150 and 157 mm hubs' } },
  { hubMm: 157, lowMm: 55, highMm: 57,   basis: 'published',  cite: { source: 'ShellTable',       locator: '150 and 157 mm hubs' } },
] as const satisfies readonly Row<FrontLine>[];

type CrankLine = {
  readonly place: string;
  readonly rings: 1 | 2 | 3;
  readonly road: boolean;
  readonly lowMm: number;
  readonly highMm: number;
};

/** Where the places of usual cranks lie from the mid-plane. */
// biome-ignore format: aligned columns read as a table
export const CRANK_LINES = [
  //                                                   [mm]         [mm]
  { place: 'Road double, midpoint',     rings: 2, road: true,  lowMm: 43.5, highMm: 43.5, basis: 'published', cite: { source: 'ChainlineThreads', locator: 'road double, rings at 41 and 46' } },
  { place: 'Road triple, outer',        rings: 3, road: true,  lowMm: 47.5, highMm: 47.5, basis: 'published', cite: { source: 'ChainlineThreads', locator: 'road triple' } },
  { place: 'Mountain triple, middle',   rings: 3, road: false, lowMm: 47.5, highMm: 50,   basis: 'published', cite: { source: 'ChainlineThreads', locator: 'mountain triple' } },
  { place: 'Mountain triple, outer',    rings: 3, road: false, lowMm: 52,   highMm: 52,   basis: 'published', cite: { source: 'ChainlineThreads', locator: 'outer position of a triple' } },
] as const satisfies readonly Row<CrankLine>[];

type MadeLine = { readonly lineMm: number };

/** Lines that a crank factory really makes: a quarter of a millimetre off the round figure. */
export const MADE_LINES = [
  { lineMm: 49.25, basis: 'published', cite: { source: 'FourLines', locator: 'first line' } },
  { lineMm: 50.25, basis: 'published', cite: { source: 'FourLines', locator: 'second line' } },
  { lineMm: 52.25, basis: 'published', cite: { source: 'FourLines', locator: 'third line' } },
  { lineMm: 55.25, basis: 'published', cite: { source: 'FourLines', locator: 'fourth line' } },
] as const satisfies readonly Row<MadeLine>[];

type LineLimit = { readonly value: number; readonly unit: 'mm' | '°' };

/** How far ring and cassette may be out of line. */
// biome-ignore format: aligned columns read as a table
export const LINE_LIMITS = {
  straight:  { value: 2,   unit: 'mm', basis: 'published', cite: { source: 'RearLine2012', locator: 'ring within 2 mm of the middle' } },
  outside:   { value: 5,   unit: 'mm', basis: 'published', cite: { source: 'RearLine2012', locator: '5 mm the outside' } },
  preferred: { value: 2.5, unit: '°',  basis: 'common-practice' },
  comfort:   { value: 3.5, unit: '°',  basis: 'common-practice' },
} as const satisfies Record<string, Row<LineLimit>>;

type MeasuredLine = { readonly tubeMm: number; readonly gapMm: number };

/** A front line measured in print, used as the example of how to do it. */
export const MEASURED_LINE = {
  tubeMm: 30,
  gapMm: 27.5,
  basis: 'published',
  cite: { source: 'FixedForum', locator: 'seat tube 30, gap 27.5: 42.5' },
} as const satisfies Row<MeasuredLine>;

type MeasuredRear = { readonly hubMm: number; readonly lockGapMm: number; readonly speeds: number };

/** A rear line measured in print, used as the example of how to do it. */
export const MEASURED_REAR = {
  hubMm: 130,
  lockGapMm: 3,
  speeds: 10,
  basis: 'published',
  cite: { source: 'TiBlog', locator: 'locknut gap 3 mm, ten sprockets on 130' },
} as const satisfies Row<MeasuredRear>;

type LineLoss = { readonly lowPct: number; readonly highPct: number };

/** Measured drive efficiency: tension and sprocket size decide it, the slant of the chain does not show. */
export const DRIVE_EFFICIENCY = {
  lowPct: 80.9,
  highPct: 98.6,
  basis: 'published',
  cite: { source: 'Spicer2001', locator: 'abstract; lateral offset negligible' },
} as const satisfies Row<LineLoss>;

type RoadRings = { readonly rings: number; readonly fromTeeth: number };

/** From which outer ring on a double or a triple is a road bike's; a trekking triple stays under it. */
// biome-ignore format: aligned columns read as a table
export const ROAD_RINGS = [
  // count            [teeth]
  { rings: 2, fromTeeth: 46, basis: 'common-practice' },
  { rings: 3, fromTeeth: 50, basis: 'common-practice' },
] as const satisfies readonly Row<RoadRings>[];

type RoadWheel = { readonly leastBeadSeatMm: number };

/** Under it wheels are those of folding and children's bikes, whose large rings make up for the small wheel. */
export const ROAD_WHEEL = { leastBeadSeatMm: 500, basis: 'common-practice' } as const satisfies Row<RoadWheel>;
