import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Bike } from '../../src/bike/bike.ts';
import { settle } from '../../src/bike/settled.ts';
import type { Block } from '../../src/card/card.ts';
import type { Outcome } from '../../src/commands/command.ts';
import { gears, gearsPart } from '../../src/commands/gears.ts';

type Answered = Extract<Outcome, { readonly kind: 'answered' }>;

function answered(bike: Bike): Answered {
  const outcome = gears.answer(settle(bike).bike);
  if (outcome.kind !== 'answered') throw new Error(`gears ${outcome.kind}`);
  return outcome;
}

const HILL_HARDTAIL: Bike = {
  rings: [36, 22],
  cassette: { smallestTeeth: 11, largestTeeth: 36 },
  speeds: 10,
  wheel: { kind: 'tyre', beadSeatMm: 622, widthMm: 57 },
  terrain: 'hills',
};

const textOf = (blocks: readonly Block[]): string =>
  blocks
    .flatMap((block) => {
      if (block.kind === 'text') return [block.title ?? '', ...block.lines];
      if (block.kind === 'table') return [block.title, ...block.columns, ...block.rows.flat()];
      if (block.kind === 'actions') return block.actions.map((action) => `${action.label} ${action.setup}`);
      if (block.kind === 'working') return block.steps.map((step) => `${step.quantity} ${step.numbers} ${step.result}`);
      return [];
    })
    .join('\n');

const rowOf = (outcome: Answered, ring: string): readonly string[] | undefined =>
  outcome.words.blocks
    .filter((block) => block.kind === 'table')
    .flatMap((block) => block.rows)
    .find((row) => row[0]?.startsWith(ring));

describe('gears of a hill-country hardtail, 36/22 with 11-36', () => {
  const outcome = answered({ ...HILL_HARDTAIL, ringTeeth: 32 });

  it('show 30, 32 and 34 against today', () => {
    // 30/36 = 0.83, 30/11 = 2.73; 32/36 = 0.89, 32/11 = 2.91; 34/36 = 0.94, 34/11 = 3.09; against 22/36 and 36/11.
    expect(rowOf(outcome, 'Now')?.slice(1, 4)).toEqual(['0.61', '3.27', '536 %']);
    expect(rowOf(outcome, '30T')?.slice(1, 4)).toEqual(['0.83 (+36 %)', '2.73 (−17 %)', '327 %']);
    expect(rowOf(outcome, '32T')?.slice(1, 4)).toEqual(['0.89 (+45 %)', '2.91 (−11 %)', '327 %']);
    expect(rowOf(outcome, '34T')?.slice(1, 4)).toEqual(['0.94 (+55 %)', '3.09 (−6 %)', '327 %']);
  });

  it('open with the wanted ring in at most 120 characters', () => {
    expect(outcome.words.answer).toContain('32T with 11-36: lowest gear 45 % harder, top gear 11 % slower');
    expect(outcome.words.answer.length).toBeLessThanOrEqual(120);
    expect(outcome.answer.speaksOf).toEqual({ teeth: 32, because: 'wanted' });
  });

  it('say the speed at the cadence', () => {
    // π · (622 + 2 · 57) = 2312.2 mm; 32/11 · 2.3122 · 90 · 0.06 = 36.3 km/h, 36/11 gives 40.9 km/h.
    expect(outcome.words.lines.join('\n')).toContain(
      'At 90 rpm 32T spins out at 36.3 km/h (22.6 mph) instead of 40.9 km/h (25.4 mph).',
    );
  });

  it('name exactly the gears to leave out for two weeks', () => {
    // Below 32/36 = 0.889 lie 22/36, 22/32 and 22/28 (0.786), not 22/24 (0.917); above 32/11 only 36/11.
    const text = textOf(outcome.words.blocks);
    expect(text).toContain('22T ring: sprockets 36, 32, 28 ');
    expect(text).toContain('36T ring: sprocket 11 ');
    expect(outcome.answer.trial?.avoid).toHaveLength(4);
  });

  it('offer a wider cassette to keep the low gear', () => {
    expect(textOf(outcome.words.blocks)).toContain('with a largest sprocket of 53T or more');
    expect(outcome.answer.widerCassettes?.map((wider) => wider.largestTeeth)).toContain(46);
    expect(textOf(outcome.words.blocks)).toContain('newcassette=11-46');
  });

  it('say that the sprockets are assumed, and that fit was not looked at', () => {
    expect(outcome.assumed.map((assumption) => assumption.field)).toContain('cassette');
    expect(outcome.words.lines.join('\n')).toContain('not looked at');
    expect(outcome.answer.rings?.every((ring) => ring.fit !== 'fits' && !ring.recommended)).toBe(true);
  });
});

describe('gears of other bicycles', () => {
  it('say half the range for a triple 44/32/22 with 11-34', () => {
    const outcome = answered({
      rings: [44, 32, 22],
      cassette: { smallestTeeth: 11, largestTeeth: 34 },
      ringTeeth: 32,
    });
    // 32/34 = 0.94 against 22/34 = 0.65; 32/11 = 2.91 against 44/11 = 4.00; 34/11 = 309 %, 44 · 34/(22 · 11) = 618 %.
    expect(rowOf(outcome, '32T')).toEqual(['32T (check)', '0.94 (+45 %)', '2.91 (−27 %)', '309 %']);
    expect(rowOf(outcome, 'Now')).toEqual(['Now 44/32/22', '0.65', '4.00', '618 %']);
    expect(textOf(outcome.words.blocks)).toContain('22T ring: every sprocket of 24 teeth or more');
  });

  it('say spun out for a road compact on 28-622 tyres', () => {
    const outcome = answered({
      rings: [50, 34],
      cassette: { smallestTeeth: 11, largestTeeth: 32 },
      ringTeeth: 42,
      wheel: { kind: 'tyre', beadSeatMm: 622, widthMm: 28 },
    });
    // π · 678 = 2130.0 mm; 42/11 · 2.13 · 5.4 = 43.9 km/h, 50/11 gives 52.3 km/h; 42/32 = 1.31, 34/32 = 1.06.
    expect(outcome.words.lines.join()).toContain('42T spins out at 43.9 km/h (27.3 mph) instead of 52.3 km/h');
    expect(rowOf(outcome, '42T')?.[1]).toBe('1.31 (+24 %)');
  });

  it('refuse an odd wish and show both even sizes beside it', () => {
    const outcome = answered({ ...HILL_HARDTAIL, ringTeeth: 33 });
    expect(outcome.words.answer).toMatch(/^33T is odd/);
    expect(rowOf(outcome, '32T')).toBeDefined();
    expect(rowOf(outcome, '34T')).toBeDefined();
    expect(rowOf(outcome, '33T')?.[0]).toBe('33T (no)');
    expect(textOf(outcome.words.blocks)).toContain('33T: plain rings of this size exist');
    expect(outcome.answer.speaksOf?.because).toBe('wanted-cannot-fit');
  });

  it('take the printed chart for a 16-inch folder, and know a larger ring is faster', () => {
    const outcome = answered({
      rings: [52, 39],
      cassette: { smallestTeeth: 11, largestTeeth: 32 },
      ringTeeth: 60,
      wheel: { kind: 'tyre', beadSeatMm: 305, widthMm: 47 },
    });
    // 60/32 = 1.875 against 39/32 (+54 %); 60/11 · 1.195 · 5.4 = 35.2 km/h, 52/11 gives 30.5 km/h.
    expect(rowOf(outcome, '60T')?.slice(1, 3)).toEqual(['1.88 (+54 %)', '5.45 (+15 %)']);
    expect(outcome.words.lines.join()).toContain('60T spins out at 35.2 km/h (21.9 mph) instead of 30.5 km/h');
  });

  it('compare the old cassette with the new one', () => {
    const outcome = answered({
      rings: [36, 26],
      cassette: { smallestTeeth: 11, largestTeeth: 36 },
      newCassette: { smallestTeeth: 10, largestTeeth: 52 },
      ringTeeth: 34,
    });
    // 34/52 = 0.654 and 34/10 = 3.4 against 26/36 = 0.722 and 36/11 = 3.273: nothing is lost.
    expect(outcome.answer.now?.lowestRatio).toBeCloseTo(26 / 36, 12);
    const option = outcome.answer.rings?.find((ring) => ring.teeth === 34);
    expect(option?.lowestRatio).toBeCloseTo(34 / 52, 12);
    expect(option?.cost).toBe(0);
    expect(outcome.answer.trial?.avoid).toEqual([]);
    expect(textOf(outcome.words.blocks)).toContain('Rings from 33T to 37T keep both');
  });

  it('give the steepest slope only when a power and a wheel are told, with what it assumes', () => {
    expect(answered(HILL_HARDTAIL).answer.climb).toBeUndefined();
    const outcome = answered({ ...HILL_HARDTAIL, ringTeeth: 32, powerW: 200 });
    const climb = outcome.answer.climb;
    expect(climb?.gradePct).toBeLessThan(climb?.gradeNowPct ?? 0);
    const fields = outcome.assumed.map((assumption) => assumption.field);
    for (const field of ['rider', 'bikeweight', 'ground', 'bar']) expect(fields).toContain(field);
    expect(textOf(outcome.words.blocks)).toContain('not on climbs');
  });

  it('print gear inches, and the gain ratio once the crank is told', () => {
    expect(textOf(answered(HILL_HARDTAIL).words.blocks)).not.toContain('Gain ratio');
    // Radius 2312.2/2π = 368 mm; 32/36 · 368/175 = 1.87; 32/11 · 368/175 = 6.12.
    const text = textOf(answered({ ...HILL_HARDTAIL, ringTeeth: 32, crankMm: 175 }).words.blocks);
    expect(text).toContain('Gain ratio 0.89 and 2.91 × 368 mm ÷ 175 mm 1.87 and 6.12');
    expect(text).toContain('Gear inches');
  });
});

describe('gears without what they need', () => {
  it('ask for rings and cassette', () => {
    const outcome = gears.answer(settle({}).bike);
    expect(outcome.kind).toBe('asks');
    expect(outcome.kind === 'asks' && outcome.asks.map((question) => question.field)).toEqual(['rings', 'cassette']);
  });

  it('leave speeds out, and ask for the wheel, when it is unknown', () => {
    const outcome = answered({ rings: [36, 22], cassette: { smallestTeeth: 11, largestTeeth: 36 } });
    expect(outcome.answer.now?.highestSpeedKmh).toBeNull();
    expect(outcome.asks.map((question) => question.field)).toEqual(['wheel']);
    expect(textOf(outcome.words.blocks)).not.toContain('km/h');
  });

  it('give no speed for a rim whose tyre nobody can guess', () => {
    const outcome = answered({ ...HILL_HARDTAIL, wheel: { kind: 'rim', beadSeatMm: 540 } });
    expect(outcome.answer.now?.highestSpeedKmh).toBeNull();
    expect(outcome.asks[0]?.question).toContain('540 mm rim');
  });

  it('state the tyre they assume for a rim alone', () => {
    const outcome = answered({ ...HILL_HARDTAIL, wheel: { kind: 'rim', beadSeatMm: 622 } });
    expect(outcome.assumed.find((assumption) => assumption.field === 'wheel')?.value).toBe('57-622');
    const road = answered({ ...HILL_HARDTAIL, rings: [50, 34], wheel: { kind: 'rim', beadSeatMm: 622 } });
    expect(road.assumed.find((assumption) => assumption.field === 'wheel')?.value).toBe('32-622');
  });
});

describe('the gears of a plan', () => {
  const part = (ringTeeth: number | undefined, fitOf: Parameters<typeof gearsPart>[1]) => {
    const bike: Bike = ringTeeth === undefined ? HILL_HARDTAIL : { ...HILL_HARDTAIL, ringTeeth };
    const found = gearsPart(settle(bike).bike, fitOf);
    if (found.kind === 'cannot') throw new Error('no gears');
    return found;
  };
  const from32 = (teeth: number) =>
    teeth >= 32 ? { fit: 'fits' as const, reasons: [] } : { fit: 'no' as const, reasons: ['below the bolt circle'] };

  it('speak of the recommended ring when none is wanted', () => {
    expect(part(undefined, from32).speaksOf).toEqual({ teeth: 32, because: 'recommended' });
  });

  it('speak of the recommended ring when the wanted one cannot fit', () => {
    const { speaksOf, facts } = part(26, from32);
    expect(speaksOf).toEqual({ teeth: 32, because: 'wanted-cannot-fit' });
    expect(facts.shown.map((option) => option.teeth)).toEqual([26, 32, 34, 36]);
  });

  it('speak of the wanted ring still when nothing fits at all, and of none when nothing was wanted', () => {
    const never = () => ({ fit: 'no' as const, reasons: ['riveted'] });
    expect(part(32, never).speaksOf).toEqual({ teeth: 32, because: 'wanted-cannot-fit' });
    expect(part(undefined, never).speaksOf).toBeNull();
    expect(part(undefined, never).trial).toBeNull();
  });
});

describe('the words of gears', () => {
  const bike: fc.Arbitrary<Bike> = fc
    .record({
      rings: fc.uniqueArray(fc.integer({ min: 18, max: 70 }), { minLength: 1, maxLength: 3 }),
      ends: fc.tuple(fc.integer({ min: 9, max: 14 }), fc.integer({ min: 21, max: 60 })),
      speeds: fc.option(fc.integer({ min: 5, max: 13 })),
      ring: fc.option(fc.integer({ min: 18, max: 70 })),
      width: fc.option(fc.integer({ min: 20, max: 120 })),
      power: fc.option(fc.integer({ min: 30, max: 1000 })),
      cadenceRpm: fc.integer({ min: 30, max: 150 }),
    })
    .map(({ rings, ends: [smallestTeeth, largestTeeth], speeds, ring, width, power, cadenceRpm }) => ({
      rings: rings.sort((a, b) => b - a),
      cassette: { smallestTeeth, largestTeeth },
      cadenceRpm,
      ...(speeds === null ? {} : { speeds }),
      ...(ring === null ? {} : { ringTeeth: ring }),
      ...(width === null ? {} : { wheel: { kind: 'tyre' as const, beadSeatMm: 622, widthMm: width } }),
      ...(power === null ? {} : { powerW: power }),
    }));

  it('keep their limits for any bicycle: answer, lines, cells, and no number that is none', () => {
    fc.assert(
      fc.property(bike, (one) => {
        const { words } = answered(one);
        expect(words.answer.length).toBeLessThanOrEqual(120);
        expect(words.lines.length).toBeLessThanOrEqual(5);
        for (const block of words.blocks) {
          if (block.kind !== 'table') continue;
          expect(block.columns.length).toBeLessThanOrEqual(5);
          for (const cell of [...block.columns, ...block.rows.flat()]) expect(cell.length).toBeLessThan(14);
        }
        const all = [words.answer, ...words.lines, textOf(words.blocks)].join('\n');
        expect(all).not.toMatch(/NaN|Infinity|undefined|null|\blinks?\b/);
      }),
    );
  });

  it('are the same for the same bicycle', () => {
    fc.assert(
      fc.property(bike, (one) => {
        expect(JSON.stringify(answered(one))).toBe(JSON.stringify(answered(structuredClone(one))));
      }),
      { numRuns: 30 },
    );
  });
});
