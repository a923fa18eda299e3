import { describe, expect, it } from 'vitest';
import type { Bike } from '../../src/bike/bike.ts';
import { settle } from '../../src/bike/settled.ts';
import { chain, chainAsks, chainPart } from '../../src/commands/chain.ts';
import type { Outcome } from '../../src/commands/command.ts';

const HARDTAIL: Bike = {
  rings: [36, 22],
  cassette: { smallestTeeth: 11, largestTeeth: 36 },
  speeds: 10,
  ringTeeth: 32,
  stayMm: 440,
};

type Answered = Extract<Outcome, { kind: 'answered' }>;

function answered(bike: Bike): Answered {
  const outcome = chain.answer(settle(bike).bike);
  if (outcome.kind !== 'answered') throw new Error(`${outcome.kind} instead of an answer`);
  return outcome;
}

function asked(bike: Bike): Extract<Outcome, { kind: 'asks' }> {
  const outcome = chain.answer(settle(bike).bike);
  if (outcome.kind !== 'asks') throw new Error(`${outcome.kind} instead of questions`);
  return outcome;
}

const partOf = (bike: Bike) => {
  const part = answered(bike).answer.chain;
  if (part === undefined) throw new Error('no chain part');
  return part;
};

describe('the chain command', () => {
  it('sizes for the wanted ring and takes the surplus out', () => {
    const part = partOf({ ...HARDTAIL, chainPitches: 108 });
    expect(part).toMatchObject({
      ringTeeth: 32,
      sprocketTeeth: 36,
      gate: 'clear',
      gateReason: null,
      centreMm: 440,
      targetPitches: 106,
      targetPairs: 53,
      targetMm: 1346.2,
      presentPitches: 108,
      removePitches: 2,
      addPitches: null,
      oldTargetPitches: 108,
    });
    expect(answered({ ...HARDTAIL, chainPitches: 108 }).asks).toEqual([]);
  });

  it('gives the target alone where the count is unknown, and asks for it', () => {
    const outcome = answered(HARDTAIL);
    expect(outcome.answer.chain).toMatchObject({ targetPitches: 106, removePitches: null, addPitches: null });
    expect(outcome.asks.map((each) => each.field)).toEqual(['chain']);
    expect(outcome.words.lines).toContain('A chain sized for 36 × 36 has 108: then one pair comes out.');
  });

  it('uses the new cassette for the new chain and the old one for the old', () => {
    const part = partOf({ ...HARDTAIL, newCassette: { smallestTeeth: 11, largestTeeth: 46 } });
    expect(part).toMatchObject({ sprocketTeeth: 46, targetPitches: 112, oldTargetPitches: 108 });
  });

  it('takes the only ring there is', () => {
    const { ringTeeth, ...rest } = HARDTAIL;
    expect(partOf({ ...rest, rings: [30] }).ringTeeth).toBe(30);
  });

  it('asks which of several rings, with sizes between them as buttons', () => {
    const { ringTeeth, ...rest } = HARDTAIL;
    const asks = asked(rest).asks;
    expect(asks[0]?.field).toBe('ring');
    expect(asks[0]?.choices.map((choice) => choice.setup)).toEqual(['ring=30', 'ring=32', 'ring=34']);
  });

  it('asks at most three things of somebody who has told nothing, and needs no numbers for it', () => {
    const { asks, words } = asked({});
    expect(asks.map((each) => each.field)).toEqual(['ring', 'cassette', 'stays']);
    expect([words.answer, ...words.lines].join(' ')).not.toMatch(/\d/);
  });

  it('asks again for an odd count, with both neighbours as buttons', () => {
    const outcome = answered({ ...HARDTAIL, chainPitches: 113 });
    expect(outcome.answer.chain).toMatchObject({ presentPitches: 113, removePitches: null, addPitches: null });
    expect(outcome.asks).toHaveLength(1);
    expect(outcome.asks[0]?.question).toContain('113 is odd');
    expect(outcome.asks[0]?.choices.map((choice) => choice.setup)).toEqual(['chain=112', 'chain=114']);
  });

  it('is shut for rear suspension without its longest, and asks for that first', () => {
    const outcome = answered({ ...HARDTAIL, suspension: 'rear', chainPitches: 116 });
    expect(outcome.answer.chain).toMatchObject({
      gate: 'measure-first',
      wrapPitches: null,
      targetPitches: null,
      targetPairs: null,
      targetMm: null,
      removePitches: null,
      addPitches: null,
      alternativeRulePitches: null,
      byAllowance: [],
      growthMm: null,
      growthPitches: null,
      oldTargetPitches: null,
      boundaryStayMm: null,
    });
    expect(outcome.answer.chain?.gateReason).toMatch(/suspension/);
    expect(outcome.asks[0]?.field).toBe('longest');
  });

  it('is shut without any axle distance, and asks for the stays', () => {
    const { stayMm, ...rest } = HARDTAIL;
    const outcome = answered(rest);
    expect(outcome.answer.chain).toMatchObject({ gate: 'measure-first', targetPitches: null });
    expect(outcome.asks[0]?.field).toBe('stays');
  });

  it('is shut where the longest is under the stays, and asks which is right', () => {
    const outcome = answered({ ...HARDTAIL, suspension: 'rear', stayMm: 452, longestMm: 440 });
    expect(outcome.answer.chain).toMatchObject({ gate: 'measure-first', targetPitches: null });
    expect(outcome.asks[0]?.field).toBe('longest');
    expect(outcome.words.answer).toContain('440 mm');
    expect(outcome.words.answer).toContain('452 mm');
  });

  it('sizes at the longest: 36/26 and 11-42 to 32T, 435 mm stays, 452 mm at the longest', () => {
    const part = partOf({
      rings: [36, 26],
      cassette: { smallestTeeth: 11, largestTeeth: 42 },
      ringTeeth: 32,
      stayMm: 435,
      longestMm: 452,
    });
    expect(part).toMatchObject({ centreMm: 452, targetPitches: 112, growthMm: 17 });
    expect(part.growthPitches).toBeCloseTo(2.68, 2);
  });

  it('adds for a folder that goes from 52/39 to 60', () => {
    const outcome = answered({
      rings: [52, 39],
      cassette: { smallestTeeth: 11, largestTeeth: 32 },
      ringTeeth: 60,
      stayMm: 400,
      chainPitches: 108,
    });
    expect(outcome.answer.chain).toMatchObject({ targetPitches: 112, addPitches: 4, removePitches: null });
    expect(outcome.words.answer).toContain('Add 4 pitches (2 pairs, 50.8 mm)');
  });
});

describe('the glue for a whole plan', () => {
  it('has no chain part while no cassette is known', () => {
    expect(chainPart(settle({ rings: [36, 22], stayMm: 440 }).bike, 32)).toBeNull();
  });

  it('asks for what opens the gate before the count', () => {
    expect(chainAsks(settle({ suspension: 'rear' }).bike).map((each) => each.field)).toEqual(['longest', 'chain']);
    expect(chainAsks(settle({ stayMm: 440, chainPitches: 108 }).bike)).toEqual([]);
  });
});
