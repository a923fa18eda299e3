import type { Row } from './row.ts';

type RingOffset = { readonly offsetMm: number; readonly hubs: string };

/** Offsets of direct-mount rings in one widespread family. They do not carry over to any other family. */
// biome-ignore format: aligned columns read as a table
export const RING_OFFSETS = [
  //      [mm]       [mm]
  { offsetMm: 6, hubs: '135 or 142', basis: 'published', cite: { source: 'OffsetTable', locator: '6 mm' } },
  { offsetMm: 3, hubs: '148',        basis: 'published', cite: { source: 'OffsetTable', locator: '3 mm' } },
  { offsetMm: 0, hubs: 'wider',      basis: 'published', cite: { source: 'OffsetTable', locator: '0 mm' } },
] as const satisfies readonly Row<RingOffset>[];

type ZeroOffset = { readonly lineMm: number };

/** The line of a ring without offset in that family: what 6 for 49 and 3 for 52 have in common. */
export const ZERO_OFFSET_LINE = {
  lineMm: 55,
  basis: 'calculated',
  cite: { source: 'OffsetTable', locator: '6 mm for 135 and 142, 3 mm for 148' },
} as const satisfies Row<ZeroOffset>;

type Interface = { readonly screws: number };

/** Interfaces told apart by their screws; a ring for one does not go on another. */
export const SCREW_INTERFACES = [
  { screws: 3, basis: 'published', cite: { source: 'RingDecoder2025', locator: 'three-screw pattern' } },
  { screws: 8, basis: 'published', cite: { source: 'RingDecoder2025', locator: 'eight-screw pattern' } },
] as const satisfies readonly Row<Interface>[];

type SmallestDirect = { readonly teeth: number };

/** Few direct-mount rings are made below this count. */
export const SMALLEST_USUAL_DIRECT = { teeth: 28, basis: 'memory' } as const satisfies Row<SmallestDirect>;
