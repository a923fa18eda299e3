import { describe, expect, it } from 'vitest';
import type { Bike } from '../../src/bike/bike.ts';
import { settle } from '../../src/bike/settled.ts';
import { wear } from '../../src/commands/wear.ts';

function answered(bike: Bike) {
  const outcome = wear.answer(settle(bike).bike);
  if (outcome.kind !== 'answered') throw new Error(`${outcome.kind} instead of an answer`);
  return outcome;
}

const cautions = (bike: Bike) => answered(bike).words.blocks.filter((block) => block.kind === 'caution');

describe('the wear command', () => {
  it('replaces a 10-speed chain at 0.75 %', () => {
    const outcome = answered({ wearPct: 0.75, speeds: 10 });
    expect(outcome.answer.wear).toEqual({ wearPct: 0.75, speeds: 10, replaceAtPct: 0.75, verdict: 'replace-chain' });
    expect(outcome.words.answer).toBe('0.75 % worn: replace the chain.');
    expect(outcome.asks).toEqual([]);
  });

  it('lets a chain ride on under its limit and says when it is due', () => {
    expect(answered({ wearPct: 0.4, speeds: 12 }).words.answer).toBe(
      '0.4 % worn: ride on. It is due at 0.5 % at 12-speed.',
    );
    expect(cautions({ wearPct: 0.4, speeds: 12 })).toEqual([]);
  });

  it('counts the sprockets of a full list', () => {
    const sprockets = [11, 12, 13, 14, 15, 17, 19, 21, 23, 25, 28];
    const cassette = { smallestTeeth: 11, largestTeeth: 28, sprockets };
    expect(answered({ wearPct: 0.6, cassette }).answer.wear).toMatchObject({ speeds: 11, verdict: 'replace-chain' });
  });

  it('answers for each possibility where the speeds decide, and asks for them', () => {
    const outcome = answered({ wearPct: 0.6 });
    expect(outcome.answer.wear).toEqual({ wearPct: 0.6, speeds: null, replaceAtPct: null, verdict: null });
    expect(outcome.words.answer).toContain('due from 11-speed on, not yet up to 10-speed');
    expect(outcome.asks.map((each) => each.field)).toEqual(['speeds']);
  });

  it('asks nothing where every limit agrees', () => {
    const outcome = answered({ wearPct: 1.2 });
    expect(outcome.answer.wear?.verdict).toBe('replace-chain-check-cassette');
    expect(outcome.words.answer).toContain('cassette and rings are likely worn too');
    expect(outcome.asks).toEqual([]);
  });

  it('tells how to measure where nothing is known', () => {
    const outcome = answered({});
    expect(outcome.answer.wear).toEqual({ wearPct: null, speeds: null, replaceAtPct: null, verdict: null });
    expect(outcome.asks.map((each) => each.field)).toEqual(['wear', 'speeds']);
    expect(JSON.stringify(outcome.words.blocks)).toContain('Not across the joining link');
  });

  it('warns of a new chain on worn sprockets wherever the chain may have to go', () => {
    for (const bike of [{ wearPct: 0.75, speeds: 10 }, { wearPct: 1.2 }, { wearPct: 0.6 }]) {
      expect(cautions(bike)).toHaveLength(1);
    }
  });

  it('keeps its first line to 120 characters and table cells under 14', () => {
    for (const bike of [{}, { speeds: 11 }, { wearPct: 0.6 }, { wearPct: 1.25, speeds: 11 }, { wearPct: 0.1 }]) {
      const { words } = answered(bike);
      expect(words.answer.length).toBeLessThanOrEqual(120);
      for (const block of words.blocks) {
        if (block.kind === 'table') for (const cell of block.rows.flat()) expect(cell.length).toBeLessThan(14);
      }
    }
  });
});
