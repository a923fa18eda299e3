import { describe, expect, it } from 'vitest';
import type { Bike } from '../../src/bike/bike.ts';
import { weight, weightPart } from '../../src/commands/weight.ts';
import { answered, bike, weightOf, wordsOf } from '../support/outcomes.ts';

const ask = (told: Bike) => weight.answer(bike(told));
const DOUBLE: Bike = { rings: [36, 22], ringTeeth: 32, sharingRings: 2, bar: 'flat', speeds: 10 };

describe('weight', () => {
  it('names what comes off and what goes on', () => {
    const part = weightOf(ask(DOUBLE));
    expect(part.removed.map((each) => each.part)).toEqual([
      'Front derailleur',
      'Front shifter pod',
      'Cable and housing',
      '36T ring',
      '22T ring',
      'Ring bolts',
    ]);
    expect(part.added.map((each) => each.part)).toEqual(['New 32T ring', 'Single-ring bolts']);
  });

  it('says of every part what its figures rest on', () => {
    const part = weightOf(ask({ ...DOUBLE, rings: [50, 34] }));
    for (const each of [...part.removed, ...part.added]) expect(each.source.length).toBeGreaterThan(0);
    expect(part.removed.find((each) => each.part === '50T ring')?.basis).toBe('calculated');
  });

  it('counts chain pitches once they are known', () => {
    // 2 pitches of a 10-speed chain: 2 · 2.24 = 4.48, 2 · 2.43 = 4.86
    const chain = weightPart(DOUBLE, 32, 2)?.removed.at(-1);
    expect(chain).toMatchObject({ part: 'Chain, 2 pitches', lowG: 4.5, highG: 4.9, basis: 'published' });
    expect(weightPart(DOUBLE, 32, -2)?.added.at(-1)?.part).toBe('Chain, 2 pitches');
    expect(wordsOf(ask(DOUBLE))).toContain('Chain taken out is not in it');
  });

  it('lets bolts go back on where the sizes show that the big ring has them to itself, and says so', () => {
    // 22T leaves 89.2 − 7.75 − 104 < 0 mm on a 104 circle, so it has one of its own.
    const { answer, assumed, asks } = answered(ask({ rings: [36, 22], bcdMm: 104, bar: 'flat' }));
    expect(answer.weight?.added.map((each) => each.part)).toEqual(['New ring']);
    expect(assumed).toEqual([expect.objectContaining({ field: 'sharing', value: 1 })]);
    expect(asks).toEqual([]);
    const open = answered(ask({ rings: [36, 22], bar: 'flat' }));
    expect(open.answer.weight?.added.map((each) => each.part)).toEqual(['New ring', 'Single-ring bolts']);
    expect(open.asks.map((each) => each.field)).toEqual(['sharing']);
  });

  it('takes the front shifter as a part of its own unless told, and says so', () => {
    const { assumed, asks } = answered(ask({ rings: [36, 22] }));
    expect(assumed.map((each) => each.field)).toEqual(['bar']);
    expect(asks.map((each) => each.field)).toContain('bar');
    const drop = answered(ask({ rings: [50, 34], bar: 'drop' }));
    expect(drop.assumed).toEqual([]);
    expect(drop.answer.weight?.removed.map((each) => each.part)).not.toContain('Front shifter pod');
  });

  it('leaves the front shifter in the lever of a road bike, and says that it was taken for one', () => {
    const road = answered(ask({ rings: [50, 34] }));
    expect(road.assumed).toEqual([expect.objectContaining({ field: 'bar', value: 'drop' })]);
    expect(road.answer.weight?.removed.map((each) => each.part)).not.toContain('Front shifter pod');
    const folder = answered(ask({ rings: [52, 39], wheel: { kind: 'rim', beadSeatMm: 406 } }));
    expect(folder.assumed).toEqual([expect.objectContaining({ field: 'bar', value: 'flat' })]);
  });

  it('answers with the size of the new ring still open', () => {
    const outcome = ask({ rings: [36, 22] });
    expect(weightOf(outcome).added[0]?.part).toBe('New ring');
    expect(answered(outcome).answer.speaksOf).toBeUndefined();
  });

  it('asks for the rings and adds nothing up without them', () => {
    const outcome = ask({});
    expect(outcome.kind).toBe('asks');
    expect(outcome.kind === 'asks' ? outcome.asks.map((each) => each.field) : []).toEqual(['rings']);
  });

  it('refuses to weigh riveted rings, which take the crank along', () => {
    expect(ask({ rings: [42, 34, 24], mount: 'riveted' }).kind).toBe('refused');
    expect(weightPart({ rings: [42, 34, 24], mount: 'riveted' }, 32, null)).toBeNull();
  });

  it('says plainly when the bike gets heavier', () => {
    const { words } = answered(ask({ rings: [32], ringTeeth: 44, sharingRings: 1 }));
    expect(words.answer).toContain('heavier');
  });

  it('tells the reader to weigh what came off, and what a 712 g story hides', () => {
    const words = wordsOf(ask(DOUBLE));
    expect(words).toContain('Weigh what came off');
    expect(words).toContain('358 g');
    expect(words).toContain('712 g is mostly a lighter crankset');
  });

  it('keeps its first line and short lines within their limits', () => {
    for (const rings of [[36, 22], [42, 32, 22], [53, 39], [32]]) {
      const { words } = answered(ask({ ...DOUBLE, rings }));
      expect(words.answer.length).toBeLessThanOrEqual(120);
      expect(words.lines.length).toBeLessThanOrEqual(5);
      for (const line of words.lines) expect(line.length).toBeLessThanOrEqual(80);
    }
  });
});
