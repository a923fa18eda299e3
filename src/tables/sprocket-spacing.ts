import type { Row } from './row.ts';

type Spacing = {
  readonly speeds: number;
  readonly spacingLowMm: number;
  readonly spacingHighMm: number;
  readonly thicknessMm: number;
};

const stack = (speeds: 7 | 9) =>
  ({ basis: 'published', cite: { source: 'StackTable', locator: `${speeds} sprockets` } }) as const;

/** Centre-to-centre spacing and thickness of sprockets. The printed stacks are (n − 1) × spacing + thickness. */
// biome-ignore format: aligned columns read as a table
export const SPROCKET_SPACING = [
  // sprockets          [mm]                [mm]            [mm]
  { speeds: 5,  spacingLowMm: 5.5,  spacingHighMm: 5.5,  thicknessMm: 2,    basis: 'published', cite: { source: 'BrownSpacing', locator: 'regular 5-speed' } },
  { speeds: 6,  spacingLowMm: 5.5,  spacingHighMm: 5.5,  thicknessMm: 2,    basis: 'published', cite: { source: 'BrownSpacing', locator: 'regular 6-speed' } },
  { speeds: 7,  spacingLowMm: 5.0,  spacingHighMm: 5.0,  thicknessMm: 1.85, ...stack(7) },
  { speeds: 8,  spacingLowMm: 4.8,  spacingHighMm: 4.8,  thicknessMm: 1.8,  basis: 'published', cite: { source: 'BrownSpacing', locator: '8 speed' } },
  { speeds: 9,  spacingLowMm: 4.34, spacingHighMm: 4.34, thicknessMm: 1.78, ...stack(9) },
  { speeds: 10, spacingLowMm: 3.95, spacingHighMm: 3.95, thicknessMm: 1.6,  basis: 'published', cite: { source: 'TiBlog', locator: 'spacing 3.95, thickness 1.6' } },
  { speeds: 11, spacingLowMm: 3.74, spacingHighMm: 3.9,  thicknessMm: 1.6,  basis: 'memory' },
  { speeds: 12, spacingLowMm: 3.5,  spacingHighMm: 3.65, thicknessMm: 1.6,  basis: 'memory' },
  { speeds: 13, spacingLowMm: 3.3,  spacingHighMm: 3.3,  thicknessMm: 1.6,  basis: 'memory' },
] as const satisfies readonly Row<Spacing>[];
