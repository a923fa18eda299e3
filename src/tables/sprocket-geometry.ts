import type { Row } from './row.ts';

type SprocketConstant = { readonly value: number; readonly unit: 'mm' | 'pitches' };

/** What makes a bicycle sprocket: the chain it is cut for, and how far its teeth stand above and below the rollers. */
// biome-ignore format: aligned columns read as a table
export const SPROCKET_GEOMETRY = {
  // name          value        unit
  pitch:         { value: 12.7, unit: 'mm',      basis: 'published', cite: { source: 'BikeGremlinChain',  locator: 'pitch of every bicycle chain, 1/2 in' } },
  roller:        { value: 7.75, unit: 'mm',      basis: 'published', cite: { source: 'PlateWheel',        locator: 'dimension table, roller diameter' } },
  tip:           { value: 0.6,  unit: 'pitches', basis: 'published', cite: { source: 'SprocketCatalog80', locator: 'dimension table, outside diameter p(0.6 + cot(180°/N))' } },
  // The plate-wheel table prints outside diameters 1.0 to 1.7 mm below the catalog form.
  tipScatter:    { value: 1,    unit: 'mm',      basis: 'calculated', cite: { source: 'PlateWheel',       locator: 'dimension table, outside diameter, against the catalog form' } },
} as const satisfies Record<string, Row<SprocketConstant>>;
