import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Bike } from '../../src/bike/bike.ts';
import { conflictsOf } from '../../src/bike/conflicts.ts';
import { mergeBikes } from '../../src/bike/merge.ts';
import { anyBike } from './any-bike.ts';

const NINE = { smallestTeeth: 11, largestTeeth: 32, sprockets: [11, 12, 14, 16, 18, 21, 24, 28, 32] } as const;

describe('what is told now, laid over a remembered bike', () => {
  it('wins field by field, and nothing comes in that neither told', () => {
    fc.assert(
      fc.property(anyBike, anyBike, (known, told) => {
        const merged = mergeBikes(known, told);
        expect(Bike.safeParse(merged).success).toBe(true);
        const { wheel: toldWheel, assist: toldAssist, ...rest } = told;
        expect(merged).toMatchObject(rest);
        // "e-bike" does not untell where the motor sits.
        if (toldAssist !== undefined) {
          const deeper = toldAssist === 'yes' && (known.assist === 'hub' || known.assist === 'mid-drive');
          expect(merged.assist).toBe(deeper ? known.assist : toldAssist);
        }
        for (const [field, value] of Object.entries(merged)) {
          const before = known[field as keyof Bike];
          const now = told[field as keyof Bike];
          if (field !== 'cassette') expect([before, now]).toContainEqual(value);
        }
        if (toldWheel !== undefined) expect(merged.wheel).toBeDefined();
      }),
    );
  });

  it('changes nothing when nothing, or the same, is told', () => {
    fc.assert(
      fc.property(anyBike, (bike) => {
        expect(mergeBikes(bike, {})).toEqual(bike);
        expect(mergeBikes({}, bike)).toEqual(bike);
        // A bike that contradicts itself may lose the remembered half of the contradiction.
        fc.pre(conflictsOf(bike).length === 0);
        expect(mergeBikes(bike, bike)).toEqual(bike);
      }),
    );
  });

  it.each([
    ['a cassette told whole drops a count that disagrees', { speeds: 10 }, { cassette: NINE }, { cassette: NINE }],
    [
      'a cassette told by its ends keeps the count',
      { speeds: 9 },
      { cassette: { smallestTeeth: 11, largestTeeth: 34 } },
      { speeds: 9, cassette: { smallestTeeth: 11, largestTeeth: 34 } },
    ],
    [
      'a count that disagrees keeps only the ends of a remembered list',
      { cassette: NINE },
      { speeds: 10 },
      { speeds: 10, cassette: { smallestTeeth: 11, largestTeeth: 32 } },
    ],
    [
      'other rings drop how many shared the circle',
      { rings: [44, 32, 22], sharingRings: 2 },
      { rings: [36, 22] },
      { rings: [36, 22] },
    ],
    ['a circle drops the gap of another crank', { gapsMm: [64.7] }, { bcdMm: 104 }, { bcdMm: 104 }],
    ['a gap drops the circle of another crank', { bcdMm: 104 }, { gapsMm: [64.7] }, { gapsMm: [64.7] }],
    ['a direct mount drops the circle', { bcdMm: 104, bolts: 4 }, { mount: 'direct' }, { mount: 'direct' }],
    [
      'a circle drops the direct mount and its offset',
      { mount: 'direct', offsetMm: 3 },
      { bcdMm: 104 },
      { bcdMm: 104 },
    ],
    ['a hardtail drops the longest axle distance', { longestMm: 452 }, { suspension: 'none' }, { suspension: 'none' }],
    ['a longest axle distance drops the hardtail', { suspension: 'none' }, { longestMm: 452 }, { longestMm: 452 }],
    [
      'a wheel size says nothing new of a known tyre on it',
      { wheel: { kind: 'tyre', beadSeatMm: 622, widthMm: 57 } },
      { wheel: { kind: 'rim', beadSeatMm: 622 } },
      { wheel: { kind: 'tyre', beadSeatMm: 622, widthMm: 57 } },
    ],
    [
      'another wheel size replaces it',
      { wheel: { kind: 'tyre', beadSeatMm: 622, widthMm: 57 } },
      { wheel: { kind: 'rim', beadSeatMm: 584 } },
      { wheel: { kind: 'rim', beadSeatMm: 584 } },
    ],
    [
      'a ring leaves the rest of the bike alone',
      { rings: [36, 22], chainPitches: 114 },
      { ringTeeth: 34 },
      { rings: [36, 22], ringTeeth: 34, chainPitches: 114 },
    ],
  ] as const satisfies readonly (readonly [string, Bike, Bike, Bike])[])('%s', (_, known, told, merged) => {
    expect(mergeBikes(known, told)).toEqual(merged);
  });
});
