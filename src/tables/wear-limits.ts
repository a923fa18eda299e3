import type { Row } from './row.ts';

type WearLimit = { readonly lowSpeeds: number; readonly highSpeeds: number; readonly replaceAtPct: number };

/** How far a chain may lengthen before it takes the sprockets with it. */
// biome-ignore format: aligned columns read as a table
export const WEAR_LIMITS = [
  // sprockets from, to             [%]
  { lowSpeeds: 5,  highSpeeds: 10, replaceAtPct: 0.75, basis: 'published', cite: { source: 'WearPages', locator: 'replace at 0.75 % up to 10 speed' } },
  { lowSpeeds: 11, highSpeeds: 12, replaceAtPct: 0.5,  basis: 'published', cite: { source: 'WearPages', locator: 'replace at 0.5 % for 11 and 12 speed' } },
  // Nothing printed was found for 13; the narrower chain is held to the stricter figure.
  { lowSpeeds: 13, highSpeeds: 13, replaceAtPct: 0.5,  basis: 'memory' },
] as const satisfies readonly Row<WearLimit>[];

type WearMark = { readonly value: number; readonly unit: '%' | 'pitches' };

/** Where wear has likely reached the cassette and rings, and the length wear is measured over. */
// biome-ignore format: aligned columns read as a table
export const WEAR_MARKS = {
  cassetteToo:  { value: 1,  unit: '%',       basis: 'published', cite: { source: 'WearPages', locator: 'over 1 % cassette and rings likely worn too' } },
  // 24 pitches are 12 inches, so that an ordinary ruler serves.
  measuredOver: { value: 24, unit: 'pitches', basis: 'published', cite: { source: 'WearPages', locator: 'elongation over 24 pitches (12 in)' } },
} as const satisfies Record<string, Row<WearMark>>;
