import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Bike } from '../../src/bike/bike.ts';
import { conflictsOf } from '../../src/bike/conflicts.ts';
import { mergeBikes } from '../../src/bike/merge.ts';
import { readSetup } from '../../src/bike/read-setup.ts';
import { sayBack } from '../../src/bike/say-back.ts';
import { anyBike } from './any-bike.ts';

const TEN = [11, 13, 15, 17, 19, 21, 24, 28, 32, 36] as const;
const LISTED = { smallestTeeth: 11, largestTeeth: 36, sprockets: TEN } as const;

describe('a bike that contradicts itself', () => {
  it.each([
    [{ cassette: LISTED, speeds: 9 }, 'speeds'],
    [{ mount: 'direct', bcdMm: 104 }, 'mount'],
    [{ mount: 'direct', gapsMm: [73.5] }, 'mount'],
    [{ suspension: 'none', longestMm: 452 }, 'suspension'],
    [{ stayMm: 440, longestMm: 439 }, 'longest'],
    [{ chainPitches: 113 }, 'chain'],
    [{ minSprocketTeeth: 46, maxSprocketTeeth: 42 }, 'maxcog'],
    [{ sharingRings: 3, rings: [36, 22] }, 'sharing'],
  ] as const satisfies readonly (readonly [Bike, string])[])('%j is asked about %s', (bike, field) => {
    const asks = conflictsOf(bike);
    expect(asks.map((each) => each.field)).toEqual([field]);
    expect(asks[0]?.choices.length).toBeGreaterThan(0);
  });

  it.each([
    {},
    { cassette: LISTED, speeds: 10 },
    { cassette: { smallestTeeth: 11, largestTeeth: 36 }, speeds: 9 },
    { mount: 'bolted', bcdMm: 104 },
    { mount: 'direct', bolts: 3, offsetMm: 3 },
    { suspension: 'rear', stayMm: 440, longestMm: 440 },
    { chainPitches: 114 },
    { minSprocketTeeth: 42, maxSprocketTeeth: 42 },
    { sharingRings: 2, rings: [36, 22] },
  ] as const satisfies readonly Bike[])('%j is not asked about', (bike) => {
    expect(conflictsOf(bike)).toEqual([]);
  });

  it('is settled by the words of any choice, added to what was told or to what is remembered', () => {
    fc.assert(
      fc.property(anyBike, (bike) => {
        for (const ask of conflictsOf(bike)) {
          for (const choice of ask.choices) {
            const told = readSetup(`${sayBack(bike)} ${choice.setup}`);
            const fields = told.kind === 'read' ? told.conflicts.map((each) => each.field) : ['refused'];
            expect(fields, choice.setup).not.toContain(ask.field);
            const alone = readSetup(choice.setup);
            const merged = alone.kind === 'read' ? mergeBikes(bike, alone.bike) : bike;
            expect(
              conflictsOf(merged).map((each) => each.question),
              choice.setup,
            ).not.toContain(ask.question);
          }
        }
      }),
      { numRuns: 300 },
    );
  });
});

describe('a line that contradicts itself', () => {
  it.each([
    ['2x10 hardtail 42/32/24, 140 mm rear shock', ['rings', 'suspension']],
    ['triple 36/22', ['rings']],
    ['double triple', ['rings']],
    ['36/22 rings=42/28', ['rings']],
    ['ring=32 ring=34', ['ring']],
    ['boost, 135 hub', ['hub']],
    ['clutch, no clutch', ['clutch']],
    ['spiderless, 104 bcd', ['mount']],
    ['2x10 11-13-15-17-19-21-24-28-32', ['speeds']],
    ['29er 26in', ['wheel']],
    ['clutch off', ['clutch']],
    ['flat or drop bars', ['bar']],
  ])('%s is asked about %j', (line, fields) => {
    const reading = readSetup(line);
    expect(reading.kind === 'read' && reading.conflicts.map((each) => each.field)).toEqual(fields);
  });

  it('told a third time with its mark is settled', () => {
    expect(readSetup('36/22 rings=42/28 rings=44/32/22!')).toMatchObject({
      kind: 'read',
      bike: { rings: [44, 32, 22] },
      conflicts: [],
    });
  });
});
