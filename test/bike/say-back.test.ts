import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Bike } from '../../src/bike/bike.ts';
import { FIELDS } from '../../src/bike/fields.ts';
import { readSetup } from '../../src/bike/read-setup.ts';
import { sayBack } from '../../src/bike/say-back.ts';
import { settling } from '../../src/bike/value-text.ts';
import { anyBike } from './any-bike.ts';

function bikeOf(line: string): Bike {
  const reading = readSetup(line);
  if (reading.kind === 'refused') throw new Error(`${line}: ${reading.refusal.message}`);
  return reading.bike;
}

describe('a said-back bike', () => {
  it('reads as the same bike again, contradictions and all, with nothing unread', () => {
    fc.assert(
      fc.property(anyBike, (bike) => {
        expect(Bike.safeParse(bike).success).toBe(true);
        const reading = readSetup(sayBack(bike));
        expect(reading).toMatchObject({ kind: 'read', open: [], unread: [] });
        expect(reading.kind === 'read' && reading.bike).toEqual(bike);
      }),
      { numRuns: 3000 },
    );
  });

  it('reads back in the same order of properties, so that two spellings give the same bytes', () => {
    fc.assert(
      fc.property(anyBike, (bike) => {
        const once = bikeOf(sayBack(bike));
        expect(JSON.stringify(bikeOf(sayBack(once)))).toBe(JSON.stringify(once));
      }),
      { numRuns: 300 },
    );
  });

  it('says every field that a bike has', () => {
    fc.assert(
      fc.property(anyBike, fc.constantFrom(...Object.values(FIELDS)), (bike, field) => {
        const { [field]: value, ...rest } = bike;
        if (value !== undefined) expect(sayBack(bike)).not.toBe(sayBack(rest));
      }),
    );
  });

  it.each([
    [{}, ''],
    [
      {
        rings: [36, 22],
        cassette: { smallestTeeth: 11, largestTeeth: 36 },
        speeds: 10,
        ringTeeth: 32,
        bcdMm: 104,
        bolts: 4,
        wheel: { kind: 'tyre', beadSeatMm: 622, widthMm: 57 },
        stayMm: 440,
        suspension: 'none',
        chainPitches: 114,
        clutch: true,
      },
      '2x10, rings 36/22, cassette 11-36, wanted ring 32, 104 mm circle, 4 bolts, 57-622, stays 440 mm, hardtail, chain 114 pitches (57 pairs), clutch',
    ],
    [{ rings: [32], speeds: 11 }, 'rings 32, 11 sprockets'],
    [{ chainPitches: 113 }, 'chain 113 pitches'],
  ] as const satisfies readonly (readonly [Bike, string])[])('of %j is "%s"', (bike, said) => {
    expect(sayBack(bike)).toBe(said);
  });
});

describe('a value settled by its mark', () => {
  it('overrules whatever the line says of the same key', () => {
    fc.assert(
      fc.property(anyBike, anyBike, (line, settled) => {
        for (const [key, field] of Object.entries(FIELDS)) {
          const value = settled[field];
          if (value === undefined) continue;
          const reading = readSetup(`${sayBack(line)} ${settling(key as keyof typeof FIELDS, value)}`);
          expect(reading.kind === 'read' && reading.bike[field], `${key} in ${sayBack(line)}`).toEqual(value);
        }
      }),
      { numRuns: 60 },
    );
  });
});
