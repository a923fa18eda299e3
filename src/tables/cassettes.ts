import type { Row } from './row.ts';

type CassetteList = { readonly speeds: number; readonly sprockets: readonly number[] };

/** Whole cassettes, every sprocket smallest first. Makers change them without notice: a counted list overrides. */
// speeds [1]  sprockets [teeth]
// biome-ignore format: aligned columns read as a table
export const CASSETTES = [
  { speeds: 7,  sprockets: [12, 14, 16, 18, 21, 24, 28],                        basis: 'published', cite: { source: 'CassetteSheets', locator: '7-speed, 12-28' } },
  { speeds: 7,  sprockets: [12, 14, 16, 18, 21, 26, 32],                        basis: 'published', cite: { source: 'CassetteSheets', locator: '7-speed, 12-32' } },
  { speeds: 7,  sprockets: [14, 16, 18, 20, 22, 24, 28],                        basis: 'published', cite: { source: 'CassetteSheets', locator: '7-speed, 14-28' } },
  { speeds: 8,  sprockets: [11, 13, 15, 17, 19, 21, 24, 28],                    basis: 'published', cite: { source: 'CassetteSheets', locator: '8-speed, 11-28' } },
  { speeds: 8,  sprockets: [11, 13, 15, 17, 20, 23, 26, 30],                    basis: 'published', cite: { source: 'CassetteSheets', locator: '8-speed, 11-30' } },
  { speeds: 8,  sprockets: [11, 13, 15, 18, 21, 24, 28, 32],                    basis: 'published', cite: { source: 'CassetteSheets', locator: '8-speed, 11-32' } },
  { speeds: 8,  sprockets: [11, 13, 15, 18, 21, 24, 28, 34],                    basis: 'published', cite: { source: 'CassetteSheets', locator: '8-speed, 11-34' } },
  { speeds: 8,  sprockets: [12, 13, 15, 17, 19, 21, 23, 25],                    basis: 'published', cite: { source: 'CassetteSheets', locator: '8-speed, 12-25' } },
  { speeds: 9,  sprockets: [11, 12, 14, 16, 18, 21, 24, 28, 32],                basis: 'memory' },
  { speeds: 9,  sprockets: [11, 13, 15, 17, 20, 23, 26, 30, 34],                basis: 'memory' },
  { speeds: 9,  sprockets: [12, 14, 16, 18, 20, 23, 26, 30, 34],                basis: 'memory' },
  { speeds: 10, sprockets: [11, 12, 13, 14, 15, 16, 17, 19, 21, 23],            basis: 'published', cite: { source: 'CassetteSheets', locator: '10-speed, 11-23' } },
  { speeds: 10, sprockets: [11, 13, 15, 17, 19, 21, 24, 28, 32, 36],            basis: 'published', cite: { source: 'CassetteSheets', locator: '10-speed, 11-36' } },
  { speeds: 11, sprockets: [11, 12, 13, 14, 15, 17, 19, 21, 23, 25, 28],        basis: 'published', cite: { source: 'CassetteSheets', locator: '11-speed, 11-28' } },
  { speeds: 11, sprockets: [11, 13, 15, 17, 19, 21, 23, 25, 27, 30, 34],        basis: 'published', cite: { source: 'CassetteSheets', locator: '11-speed, 11-34' } },
  { speeds: 11, sprockets: [11, 13, 15, 17, 19, 21, 23, 25, 28, 32, 36],        basis: 'published', cite: { source: 'CassetteSheets', locator: '11-speed, 11-36' } },
  { speeds: 11, sprockets: [11, 13, 15, 17, 19, 21, 24, 27, 31, 35, 40],        basis: 'published', cite: { source: 'CassetteSheets', locator: '11-speed, 11-40' } },
  { speeds: 11, sprockets: [11, 13, 15, 17, 19, 21, 24, 28, 32, 37, 42],        basis: 'published', cite: { source: 'CassetteSheets', locator: '11-speed, 11-42' } },
  { speeds: 11, sprockets: [11, 13, 15, 18, 21, 24, 28, 32, 36, 42, 50],        basis: 'published', cite: { source: 'CassetteSheets', locator: '11-speed, 11-50' } },
  { speeds: 11, sprockets: [11, 13, 15, 18, 21, 24, 28, 33, 39, 45, 51],        basis: 'published', cite: { source: 'CassetteSheets', locator: '11-speed, 11-51' } },
  { speeds: 12, sprockets: [10, 11, 12, 13, 14, 15, 17, 19, 21, 24, 28, 33],    basis: 'published', cite: { source: 'CassetteSheets', locator: '12-speed, 10-33' } },
  { speeds: 12, sprockets: [10, 11, 12, 13, 15, 17, 19, 21, 24, 28, 32, 36],    basis: 'published', cite: { source: 'CassetteSheets', locator: '12-speed, 10-36' } },
  { speeds: 12, sprockets: [10, 12, 14, 16, 18, 21, 24, 28, 32, 36, 40, 45],    basis: 'published', cite: { source: 'CassetteSheets', locator: '12-speed, 10-45' } },
  { speeds: 12, sprockets: [10, 12, 14, 16, 18, 21, 24, 28, 33, 39, 45, 51],    basis: 'published', cite: { source: 'CassetteSheets', locator: '12-speed, 10-51' } },
  { speeds: 12, sprockets: [10, 12, 14, 16, 18, 21, 24, 28, 32, 36, 42, 52],    basis: 'published', cite: { source: 'CassetteSheets', locator: '12-speed, 10-52' } },
  { speeds: 12, sprockets: [11, 12, 13, 14, 15, 17, 19, 21, 24, 27, 30, 34],    basis: 'published', cite: { source: 'CassetteSheets', locator: '12-speed, 11-34' } },
  { speeds: 13, sprockets: [9, 10, 11, 12, 13, 14, 16, 18, 21, 25, 30, 36, 42], basis: 'published', cite: { source: 'CassetteSheets', locator: '13-speed, 9-42' } },
] as const satisfies readonly Row<CassetteList>[];

type CassetteRange = { readonly speeds: number; readonly smallestTeeth: number; readonly largestTeeth: number };

/** Ranges that are sold for a count of sprockets, where no whole list is at hand. */
// speeds [1]  smallestTeeth [teeth]  largestTeeth [teeth]
// biome-ignore format: aligned columns read as a table
export const CASSETTE_RANGES = [
  { speeds: 8,  smallestTeeth: 11, largestTeeth: 40, basis: 'memory' },
  { speeds: 8,  smallestTeeth: 11, largestTeeth: 42, basis: 'memory' },
  { speeds: 9,  smallestTeeth: 11, largestTeeth: 36, basis: 'memory' },
  { speeds: 9,  smallestTeeth: 11, largestTeeth: 40, basis: 'memory' },
  { speeds: 9,  smallestTeeth: 11, largestTeeth: 42, basis: 'memory' },
  { speeds: 9,  smallestTeeth: 11, largestTeeth: 46, basis: 'memory' },
  { speeds: 10, smallestTeeth: 11, largestTeeth: 32, basis: 'memory' },
  { speeds: 10, smallestTeeth: 11, largestTeeth: 34, basis: 'memory' },
  { speeds: 10, smallestTeeth: 11, largestTeeth: 40, basis: 'memory' },
  { speeds: 10, smallestTeeth: 11, largestTeeth: 42, basis: 'memory' },
  { speeds: 10, smallestTeeth: 11, largestTeeth: 46, basis: 'memory' },
  { speeds: 11, smallestTeeth: 10, largestTeeth: 42, basis: 'memory' },
  { speeds: 11, smallestTeeth: 11, largestTeeth: 46, basis: 'memory' },
  { speeds: 12, smallestTeeth: 10, largestTeeth: 44, basis: 'memory' },
  { speeds: 12, smallestTeeth: 10, largestTeeth: 50, basis: 'memory' },
  { speeds: 12, smallestTeeth: 11, largestTeeth: 50, basis: 'memory' },
] as const satisfies readonly Row<CassetteRange>[];
