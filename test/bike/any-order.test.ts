import { isDeepStrictEqual } from 'node:util';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Bike } from '../../src/bike/bike.ts';
import { readSetup } from '../../src/bike/read-setup.ts';
import { range, rim, tyre } from './corpus/phrasing.ts';

/** One fact a rider may tell, in spellings that mean it wherever they stand. */
type Fact = { readonly bike: Bike; readonly spellings: readonly string[] };

const FACTS: readonly Fact[] = [
  { bike: { rings: [36, 22] }, spellings: ['36/22', '22-36T', '22–36', 'rings=36,22', 'rings 36/22', '٣٦/٢٢'] },
  { bike: { cassette: range(11, 34) }, spellings: ['11-34', '34−11', '11/34', 'cassette=11-34', 'cassette 11-34t'] },
  { bike: { speeds: 10 }, spellings: ['2x10', '2 × 10', '10 speed', 'speeds=10', 'two by ten'] },
  { bike: { ringTeeth: 32 }, spellings: ['to 32', '→ 32T', 'ring=32', '32t ring', 'want 32', '32t narrow-wide'] },
  { bike: { newCassette: range(11, 46) }, spellings: ['newcassette=11-46', 'new cassette 11-46', 'add 11-46'] },
  { bike: { bcdMm: 104 }, spellings: ['104 BCD', '104bcd', 'bcd=104', '104 PCD', 'bcd 104 mm'] },
  { bike: { bolts: 4 }, spellings: ['4 bolt', '4-arm', 'bolts=4', 'four bolts'] },
  { bike: { wheel: rim(622) }, spellings: ['29er', '700c', 'wheel=29er'] },
  { bike: { wheel: tyre(584, 54) }, spellings: ['54-584', 'wheel=54-584'] },
  { bike: { stayMm: 440 }, spellings: ['stays 440 mm', 'stays=440', '440 mm chainstays', 'stays 44cm'] },
  { bike: { suspension: 'none' }, spellings: ['hardtail', 'HT', 'suspension=none'] },
  { bike: { hubMm: 148 }, spellings: ['boost', 'hub=148', '148 hub'] },
  { bike: { chainPitches: 114 }, spellings: ['114 links', 'chain=114', 'chain 114', '114 pins'] },
  { bike: { clutch: true }, spellings: ['clutch', 'clutch on', 'clutch=yes'] },
  { bike: { clutch: false }, spellings: ['no clutch', 'clutch=no'] },
  { bike: { guide: false }, spellings: ['no guide', 'guide=no', 'no chain guide'] },
  { bike: { cage: 'long' }, spellings: ['long cage', 'cage=long', 'long-cage mech'] },
  { bike: { maxSprocketTeeth: 42 }, spellings: ['mech says max 42', 'maxcog=42', 'max cog 42'] },
  { bike: { terrain: 'hills' }, spellings: ['hilly', 'terrain=hills', 'hill-country'] },
  { bike: { join: 'link' }, spellings: ['quick link', 'master link', 'join=link'] },
  { bike: { wearPct: 0.75 }, spellings: ['wear 0.75', 'wear=0,75', 'stretched 0.75'] },
  { bike: { riderKg: 75 }, spellings: ['rider 75 kg', '75 kg rider', 'rider=75'] },
  { bike: { powerW: 200 }, spellings: ['200 W', 'power=200'] },
  { bike: { cadenceRpm: 85 }, spellings: ['85 rpm', 'cadence=85', 'cadence 85'] },
];

const field = (fact: Fact): string => Object.keys(fact.bike).join();
const told = fc
  .uniqueArray(fc.constantFrom(...FACTS), { selector: field, minLength: 1, maxLength: 12 })
  .chain((facts) => fc.tuple(fc.constant(facts), fc.tuple(...facts.map((fact) => fc.constantFrom(...fact.spellings)))));

/** Whatever ends one fact before the next begins. */
const SEPARATORS = [', ', '; ', ' · ', '\n', ' | '];

const exactly = (bike: Bike) => ({ kind: 'read', bike, conflicts: [], open: [], unread: [] });

describe('facts in any order and spelling', () => {
  it('add up by twos, every spelling beside every other', () => {
    const wrong: string[] = [];
    for (const first of FACTS) {
      for (const second of FACTS) {
        if (field(first) === field(second)) continue;
        const wanted = exactly({ ...first.bike, ...second.bike });
        for (const one of first.spellings) {
          for (const other of second.spellings) {
            for (const between of SEPARATORS) {
              const line = `${one}${between}${other}`;
              if (!isDeepStrictEqual(readSetup(line), wanted)) wrong.push(line);
            }
          }
        }
      }
    }
    expect(wrong).toEqual([]);
  });

  it('add up by the dozen', () => {
    fc.assert(
      fc.property(told, fc.constantFrom(...SEPARATORS), ([facts, words], between) => {
        const bike: Bike = Object.assign({}, ...facts.map((fact) => fact.bike));
        expect(readSetup(words.join(between))).toEqual(exactly(bike));
      }),
      { numRuns: 2000 },
    );
  });
});
