import type { Row } from './row.ts';

type Limit = { readonly value: number; readonly unit: 'sprockets' | 'mm' };

/** Where a conversion stops being a good idea, as the trade sees it. */
// biome-ignore format: aligned columns read as a table
export const OBJECTION_LIMITS = {
  /** Loaded touring in hills wants more low gears than this many sprockets or fewer give with one ring. */
  fewSprockets:  { value: 9,   unit: 'sprockets', basis: 'common-practice' },
  /** The larger of the two bead seats sold as 16 in; at this size and below bikes fold or are made for children. */
  smallBeadSeat: { value: 349, unit: 'mm',        basis: 'common-practice' },
} as const satisfies Record<string, Row<Limit>>;
