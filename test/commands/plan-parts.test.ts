import { describe, expect, it } from 'vitest';
import type { Bike } from '../../src/bike/bike.ts';
import { settle } from '../../src/bike/settled.ts';
import { derailleurBlocks } from '../../src/card/derailleur.ts';
import { retentionBlocks } from '../../src/card/retention.ts';
import { derailleurPart } from '../../src/commands/derailleur-part.ts';
import { retentionPart } from '../../src/commands/retention-part.ts';
import { cardText } from '../support/card-text.ts';

const card = { answer: '', readBack: '', lines: [] };

function derailleur(told: Bike) {
  const { bike } = settle(told);
  const findings = derailleurPart(bike);
  if (findings === null) throw new Error('a cassette is told');
  const { part, verdict, asks } = findings;
  return { part, asks, text: cardText({ ...card, blocks: derailleurBlocks(part, verdict, bike) }) };
}

function retention(told: Bike) {
  const { bike } = settle(told);
  const { part, asks } = retentionPart(bike);
  return { part, asks, text: cardText({ ...card, blocks: retentionBlocks(part, bike) }) };
}

describe('11-46 behind a short-cage derailleur made for 36 at most', () => {
  const { part, asks, text } = derailleur({
    rings: [36, 22],
    cassette: { smallestTeeth: 11, largestTeeth: 36 },
    newCassette: { smallestTeeth: 11, largestTeeth: 46 },
    maxSprocketTeeth: 36,
    cage: 'short',
  });

  // (36 − 22) + (36 − 11) = 39 today; 46 − 11 = 35 with one ring.
  it('fails on two limits, each said, and warns of the gap screw', () => {
    expect(part).toMatchObject({ capacityNeeded: 35, capacityNeededNow: 39, capacityFits: false, largestFits: false });
    expect(text).toMatch(/46T is over the derailleur's largest, 36T/);
    expect(text).toMatch(/35 teeth of capacity, a short cage usually has 32/);
    expect(text).toMatch(/care: .*gap screw/);
    expect(asks).toEqual([]);
  });
});

describe('a rear derailleur nobody told of', () => {
  it('has no harder work with the old cassette', () => {
    const { part, asks, text } = derailleur({ rings: [36, 22], cassette: { smallestTeeth: 11, largestTeeth: 36 } });
    expect(part).toMatchObject({ capacityFits: null, largestFits: null });
    expect(asks).toEqual([]);
    expect(text).toMatch(/no harder work than today/);
  });

  it('is asked for its two limits when the cassette grows', () => {
    const { asks, text } = derailleur({
      cassette: { smallestTeeth: 11, largestTeeth: 36 },
      newCassette: { smallestTeeth: 10, largestTeeth: 51 },
    });
    expect(asks.map((each) => each.field)).toEqual(['maxcog', 'capacity']);
    expect(text).toMatch(/about 15 mm/);
  });

  it('is nothing without a cassette', () => expect(derailleurPart(settle({ rings: [36, 22] }).bike)).toBeNull());
});

describe('keeping the chain on', () => {
  it('names what to add, and what was not told', () => {
    const { part, asks, text } = retention({ ground: 'rough' });
    expect(part).toMatchObject({ missing: 2, enough: false, unknown: ['clutch', 'guide'] });
    expect(asks.map((each) => each.field)).toEqual(['clutch', 'guide']);
    expect(text).toMatch(/2 more: a derailleur with a clutch and a chain guide/);
    expect(text).toMatch(/counted as none: clutch and guide/);
  });

  it('is enough with a clutch on mixed ground, and promises nothing', () => {
    const { part, asks, text } = retention({ ground: 'mixed', clutch: true, speeds: 10 });
    expect(part.enough).toBe(true);
    expect(asks).toEqual([]);
    expect(text).toMatch(/no promise/);
    expect(text).not.toMatch(/rides loose/);
  });

  it('is weaker with the wider chain of eight sprockets', () => {
    expect(retention({ ground: 'smooth', speeds: 8 }).text).toMatch(/rides loose/);
  });
});
