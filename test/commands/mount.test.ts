import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Bike } from '../../src/bike/bike.ts';
import { settle } from '../../src/bike/settled.ts';
import { fitOnCircle, mount, mountPart } from '../../src/commands/mount.ts';
import { cardText } from '../support/card-text.ts';

function outcomeOf(bike: Bike) {
  const outcome = mount.answer(settle(bike).bike);
  if (outcome.kind === 'refused') throw new Error('mount refuses nothing');
  const part = outcome.kind === 'answered' ? outcome.answer.mount : undefined;
  return { outcome, part, text: cardText({ ...outcome.words, readBack: '' }) };
}

const findings = (bike: Bike) => mountPart(settle(bike).bike);
const fields = (bike: Bike) => outcomeOf(bike).outcome.asks.map((each) => each.field);

describe('26T wanted on 104 mm', () => {
  const { outcome, text } = outcomeOf({ rings: [36, 22], bcdMm: 104, bolts: 4, ringTeeth: 26 });

  // 12.7/sin(180°/26) − 7.75 = 97.61.
  it('is refused in numbers, with what fits instead', () => {
    expect(outcome.words.answer).toContain('its valley diameter is 97.6 mm and the bolts sit on 104');
    expect(outcome.words.answer).toContain('32T');
    expect(text).toMatch(/30T only as a special ring/);
  });

  it('can use the bolts of a double whose small ring has its own circle', () => {
    expect(text).toMatch(/Old bolts: reuse them; going by the ring sizes only one ring is on them/);
    expect(text).toMatch(/bash guard on the same bolts/);
    expect(text).toMatch(/64 mm/);
  });
});

describe('five bolts 64.7 mm apart on a road double', () => {
  const { part, outcome } = outcomeOf({ rings: [50, 34], bolts: 5, gapsMm: [64.7] });

  it('are a 110 mm circle that takes 34T', () => {
    expect(part).toMatchObject({ bcdMm: 110, bcdFrom: 'gap', smallestEvenTeeth: 34, smallestFrom: 'table' });
  });

  it('are too long for one ring, and what was taken for granted is said', () => {
    expect(part).toMatchObject({ boltAdvice: 'shorter-or-spacer', spacerMm: null });
    if (outcome.kind === 'answered') expect(outcome.assumed.map((each) => each.field)).toEqual(['bcd', 'sharing']);
  });
});

it('a gap told as a circle is asked about, and nothing is built on it', () => {
  const { outcome, part } = outcomeOf({ bcdMm: 64.7, bolts: 5 });
  expect(part).toMatchObject({ bcdMm: null, smallestTeeth: null });
  expect(outcome.words.answer).toContain('as the gap between neighbouring bolts it is 110 mm');
  expect(outcome.asks[0]?.choices.map((each) => each.setup)).toEqual(['bcd=110 bolts=5']);
});

describe('an unknown circle', () => {
  const { outcome, part, text } = outcomeOf({ rings: [36, 26] });

  it('is answered with what it may be, and asked for', () => {
    expect(part?.bcdMm).toBeNull();
    expect(part?.candidates.map((each) => each.bcdMm)).toEqual([120, 110, 110, 104, 96, 94]);
    expect(outcome.asks.map((each) => each.field)).toEqual(['bcd', 'sharing']);
    expect(text).toMatch(/Measuring the bolt circle/);
    expect(outcome.asks[0]?.choices.map((each) => each.setup)).toContain('bcd=104 bolts=4');
    expect(text).toMatch(/104 mm \| 4 \| 73.5 mm \| 32T/);
  });

  it('lets no ring simply fit', () => {
    const { fitOf } = findings({ rings: [36, 26] });
    for (let teeth = 20; teeth <= 60; teeth += 2) expect(fitOf(teeth).fit).not.toBe('fits');
    expect(fitOf(44).reasons[0]).toBe('bolt circle not sure: it would sit on 94, 96, 104, 110 or 120 mm');
    expect(fitOf(32).reasons).toEqual(['bolt circle not sure: it would sit on 94, 96 or 104 mm']);
  });

  it('fits on each candidate by itself', () => {
    const bike = settle({ rings: [36, 26] }).bike;
    expect(fitOnCircle(bike, { bcdMm: 104, bolts: 4 })(32).fit).toBe('fits');
    expect(fitOnCircle(bike, { bcdMm: 120, bolts: 4 })(32).fit).toBe('no');
  });
});

describe('what does not go together is asked, never guessed', () => {
  it('a circle and a gap that disagree', () => {
    const bike = { rings: [36, 22], bcdMm: 104, bolts: 4, gapsMm: [67.9] };
    expect(outcomeOf(bike).part).toMatchObject({ bcdMm: null, bcdFrom: null });
    expect(fields(bike)[0]).toBe('gap');
    expect(outcomeOf(bike).outcome.words.answer).toMatch(/misread/);
  });

  it('two gaps of an uneven pattern', () => {
    const bike = { rings: [36, 22], bolts: 4, gapsMm: [70, 77] };
    const { part, outcome } = outcomeOf(bike);
    expect(part).toMatchObject({ unevenPattern: true, bcdMm: null, candidates: [{ bcdMm: 104 }] });
    expect(outcome.words.answer).toMatch(/uneven/);
    expect(findings({ ...bike, bcdMm: 104 }).fitOf(32)).toMatchObject({ fit: 'check' });
  });

  it('a bolt count the circle is not listed with', () => {
    expect(fields({ rings: [36, 22], bcdMm: 104, bolts: 5 })).toContain('bolts');
  });

  it('more rings on the bolts than are fitted', () => {
    expect(fields({ rings: [36, 22], bcdMm: 104, bolts: 4, sharingRings: 3 })).toEqual(['sharing']);
  });

  it('a gap no circle has', () => {
    const { outcome } = outcomeOf({ rings: [36, 22], bolts: 4, gapsMm: [50] });
    expect(outcome.words.answer).toContain('70.7 mm on 4 bolts');
  });

  it('nothing at all', () => expect(outcomeOf({}).outcome.kind).toBe('asks'));
});

it('a ring below the printed smallest that geometry allows is for measuring, not for a special ring', () => {
  // 122: printed 38; 36T leaves 145.72 − 7.75 − 122 = 16.0 mm.
  const { text, outcome } = outcomeOf({ bcdMm: 122, bolts: 5, ringTeeth: 36 });
  expect(outcome.words.answer).toMatch(/38T is the printed smallest; 16 mm are left/);
  expect(text).toMatch(/36T is below what is printed/);
});

describe('bolts and stack', () => {
  const triple = { rings: [44, 32, 22], bcdMm: 104, bolts: 4 };

  it('of a triple are too long; a washer as thick as the ring that leaves stands in', () => {
    const { part } = outcomeOf({ ...triple, ringTabMm: 3.5 });
    expect(part).toMatchObject({ boltAdvice: 'shorter-or-spacer', spacerMm: 3.5, stack: null });
    expect(outcomeOf(triple).text).toMatch(/usually 3–4 mm/);
  });

  // Grip 3.5 + 4 = 7.5; sleeve 8: 0.5 too long, and 0.3 more to be clear: 0.8.
  it('that bottom are a reason not to ride', () => {
    const { part, text } = outcomeOf({ ...triple, ringTabMm: 3.5, spiderTabMm: 4, sleeveMm: 8 });
    expect(part?.stack).toMatchObject({ gripMm: 7.5, clearanceMm: -0.5, verdict: 'bottoms' });
    expect(text).toMatch(/stop: Do not ride with this sleeve/);
    expect(text).toMatch(/washer of at least 0.8 mm/);
  });

  // 4 turns of 0.75 mm in steel are 3 mm; a sleeve of 2 holds less, and of 7.5 − 0.3 = 7.2 is the longest.
  it('whose sleeve is shorter than the thread that must hold are a reason not to ride', () => {
    const { part, text } = outcomeOf({ ...triple, ringTabMm: 3.5, spiderTabMm: 4, sleeveMm: 2 });
    expect(part?.stack).toMatchObject({ clearanceMm: 5.5, leastThreadMm: 3, verdict: 'short' });
    expect(text).toMatch(/stop: Do not ride with this sleeve: at least 3 mm of thread must hold/);
    expect(text).toMatch(/Take a longer one, 7.2 mm \(0.28 in\) at most/);
    expect(text).not.toMatch(/it holds/);
  });

  // Tabs of 1 and 1: at most 1.7 mm of sleeve, and 3 − 1.7 = 1.3 of washer.
  it('of tabs too thin for the thread need a washer as well', () => {
    const { text } = outcomeOf({ ...triple, ringTabMm: 1, spiderTabMm: 1, sleeveMm: 2 });
    expect(text).toMatch(/Take a longer one, and a washer of at least 1.3 mm/);
  });

  it('are answered for each possibility while nobody knows how many rings share them', () => {
    const { part, text } = outcomeOf({ bcdMm: 104 });
    expect(part?.boltAdvice).toBe('ask');
    expect(text).toMatch(/for one ring on them today, reuse. For two, shorter bolts or a washer/);
  });

  it.each([/star, in two passes/, /Threadlocker or grease, never both/, /4.5 or 6.5 mm, are both sold as "single"/])(
    'come with %s',
    (words) => expect(outcomeOf(triple).text).toMatch(words),
  );
});

describe('other mounts', () => {
  it('riveted rings need a new crank', () => {
    const bike = { rings: [42, 34, 24], mount: 'riveted' } as const;
    expect(outcomeOf(bike).outcome.words.answer).toMatch(/new crank/);
    expect(findings(bike).fitOf(32).fit).toBe('no');
  });

  it('direct mount has no circle to ask for', () => {
    const { part, text } = outcomeOf({ rings: [36, 26], mount: 'direct' });
    expect(part).toMatchObject({ mount: 'direct', bcdMm: null, candidates: [] });
    expect(text).toMatch(/Interfaces do not interchange/);
  });

  it('an inner circle is not where the ring goes', () => {
    const bike = { rings: [44, 32, 22], bcdMm: 64, bolts: 4 };
    expect(findings(bike).fitOf(32).reasons.join()).toMatch(/outer one, 104 or 96 mm/);
    expect(outcomeOf(bike).text).toMatch(/inner circle/);
  });
});

describe('every card', () => {
  const bike: fc.Arbitrary<Bike> = fc.record(
    {
      rings: fc.constantFrom([36, 22], [50, 34], [44, 32, 22], [52, 39, 30], [32], [46, 30]),
      bcdMm: fc.constantFrom(104, 110, 64, 58, 100, 122, 151),
      bolts: fc.constantFrom(3, 4, 5, 6),
      gapsMm: fc.constantFrom([64.7], [73.5], [70, 77], [50], [72.83], [67.9]),
      mount: fc.constantFrom('bolted', 'direct', 'riveted'),
      sharingRings: fc.constantFrom(1, 2, 3),
      ringTeeth: fc.integer({ min: 18, max: 70 }),
      maxRingTeeth: fc.integer({ min: 18, max: 70 }),
      ringTabMm: fc.constantFrom(3, 3.5),
      spiderTabMm: fc.constantFrom(3.5, 5),
      sleeveMm: fc.constantFrom(4.5, 6.5, 8),
      ovalityPct: fc.constantFrom(0, 12),
      cassette: fc.constant({ smallestTeeth: 11, largestTeeth: 36 }),
      maxSprocketTeeth: fc.constantFrom(32, 36),
    },
    { requiredKeys: [] },
  );

  it('answers in 120 characters and five lines, asks three things at most, and keeps its cautions', () => {
    fc.assert(
      fc.property(bike, (each) => {
        const { outcome } = outcomeOf(each);
        expect(outcome.words.answer.length).toBeLessThanOrEqual(120);
        expect(outcome.words.lines.length).toBeLessThanOrEqual(5);
        expect(outcome.asks.length).toBeLessThanOrEqual(3);
        const cautions = outcome.words.blocks.filter((block) => block.kind === 'caution');
        expect(cautions.some((block) => /ramps and pins/.test(block.text))).toBe(true);
        const boltless = each.mount === 'direct' || each.mount === 'riveted';
        expect(cautions.some((block) => block.level === 'stop')).toBe(!boltless);
        expect(cardText({ ...outcome.words, readBack: '' })).not.toMatch(/undefined|NaN|null|Infinity/);
      }),
      { numRuns: 400 },
    );
  });

  it('lets no odd ring and no ring without room fit', () => {
    fc.assert(
      fc.property(bike, fc.integer({ min: 18, max: 70 }), (each, teeth) => {
        const { part, fitOf } = findings(each);
        const { fit, reasons } = fitOf(teeth);
        if (fit !== 'fits') {
          expect(reasons.length).toBeGreaterThan(0);
          return;
        }
        expect(teeth % 2).toBe(0);
        if (part.smallestTeeth !== null) expect(teeth).toBeGreaterThanOrEqual(part.smallestTeeth);
        if (each.maxRingTeeth !== undefined) expect(teeth).toBeLessThanOrEqual(each.maxRingTeeth);
        expect(each.cassette !== undefined && each.maxSprocketTeeth === 32).toBe(false);
      }),
      { numRuns: 400 },
    );
  });
});
