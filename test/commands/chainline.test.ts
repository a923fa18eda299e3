import { describe, expect, it } from 'vitest';
import type { Bike } from '../../src/bike/bike.ts';
import { settle } from '../../src/bike/settled.ts';
import { chainline, chainlinePart } from '../../src/commands/chainline.ts';
import { cardText } from '../support/card-text.ts';

function outcomeOf(bike: Bike) {
  const outcome = chainline.answer(settle(bike).bike);
  if (outcome.kind === 'refused') throw new Error('chainline refuses nothing');
  const part = outcome.kind === 'answered' ? outcome.answer.chainline : undefined;
  return { outcome, part, text: cardText({ ...outcome.words, readBack: '' }) };
}

const hardtail: Bike = {
  rings: [36, 22],
  cassette: { smallestTeeth: 11, largestTeeth: 36 },
  speeds: 10,
  chainlineMm: 49,
  hubMm: 142,
  stayMm: 440,
};

describe('a ring at 49 mm on a 142 mm hub', () => {
  const { part, outcome } = outcomeOf(hardtail);

  // Middle 43; half of nine spacings is 17.775, so the largest sprocket runs at 25.225: 23.775 mm, atan(23.775/440) = 3.09°.
  it('is 6 mm out and 3.1° at worst, which is acceptable', () => {
    expect(part).toMatchObject({ frontMm: 49, rearMm: 43, offsetMm: 6, verdict: 'acceptable' });
    expect(part?.worstDeg).toBeCloseTo(3.09, 2);
    expect(part?.sprockets.map((each) => each.teeth)).toEqual([11, 36]);
    expect(outcome.words.answer).toContain('6 mm further out');
    expect(outcome.words.answer).toContain('36T');
    expect(outcome.asks).toEqual([]);
  });

  it('gives every sprocket its own offset where all are known, the smallest outermost', () => {
    const sprockets = [11, 13, 15, 17, 19, 21, 24, 28, 32, 36];
    const { part: whole } = chainlinePart(settle(hardtail).bike, sprockets);
    expect(whole.sprockets.map((each) => each.teeth)).toEqual(sprockets);
    expect(whole.worstDeg).toBe(part?.worstDeg);
    const offsets = whole.sprockets.map((each) => each.offsetMm);
    expect(offsets).toEqual([...offsets].sort((a, b) => a - b));
  });

  it('has no angle without the stays, and asks for them', () => {
    const { stayMm: _, ...without } = hardtail;
    const { part: open, outcome: asked } = outcomeOf(without);
    expect(open).toMatchObject({ worstDeg: null, verdict: 'acceptable' });
    expect(asked.asks.map((each) => each.field)).toEqual(['stays']);
  });
});

describe('what is not known is not made up', () => {
  it('an unmeasured ring gets what to aim for and how to measure', () => {
    const { part, outcome, text } = outcomeOf({ rings: [44, 32, 22], hubMm: 135 });
    expect(part).toMatchObject({ frontMm: null, offsetMm: null, verdict: null, targetLowMm: 48, targetHighMm: 50 });
    expect(outcome.words.answer).toContain('48 to 50 mm');
    expect(text).toContain('30 mm tube and a 27.5 mm gap make 42.5 mm');
    expect(text).toMatch(/Mountain triple, outer: about 52 mm/);
  });

  it('a hub that is not listed has no rear line', () => {
    const { part, outcome } = outcomeOf({ ...hardtail, hubMm: 126 });
    expect(part).toMatchObject({ rearMm: null, verdict: null, sprockets: [] });
    expect(outcome.words.answer).toMatch(/126 mm hub: measure it/);
  });

  it('without a hub a measured ring names the hubs its line is made for', () => {
    const { part, outcome } = outcomeOf({ chainlineMm: 52 });
    expect(part?.offsetMm).toBeNull();
    expect(outcome.words.answer).toContain('141 or 148');
    expect(outcome.asks.map((each) => each.field)).toContain('hub');
  });

  it('nothing at all is a question', () => expect(outcomeOf({}).outcome.kind).toBe('asks'));
});

it('a direct-mount offset gives a line in one family only, and no verdict', () => {
  const { part, text } = outcomeOf({ mount: 'direct', offsetMm: 3, hubMm: 148 });
  expect(part).toMatchObject({ frontMm: null, verdict: null });
  expect(text).toMatch(/3 mm offset is 52 mm; in others not: measure/);
});

it('claims no power saved, and warns of the back-pedal drop', () => {
  const { text } = outcomeOf(hardtail);
  expect(text).toMatch(/the slant did not show/);
  expect(text).toMatch(/pedal backwards/);
});
