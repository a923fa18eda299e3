import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type RingFit,
  ringOptions,
  ringsAlike,
  ringsByCost,
  ringsThatKeep,
  shownRings,
} from '../../src/solve/ring-options.ts';

const cassette = fc
  .tuple(fc.integer({ min: 9, max: 14 }), fc.integer({ min: 21, max: 55 }))
  .map(([smallestTeeth, largestTeeth]) => ({ smallestTeeth, largestTeeth }));
const fits: fc.Arbitrary<(teeth: number) => RingFit> = fc.func(
  fc.record({ fit: fc.constantFrom('fits' as const, 'check' as const, 'no' as const), reasons: fc.constant([]) }),
);
const question = fc.record({
  rings: fc.array(fc.integer({ min: 18, max: 70 }), { minLength: 1, maxLength: 3 }),
  now: cassette,
  after: cassette,
  wantedTeeth: fc.option(fc.integer({ min: 18, max: 70 })),
  terrain: fc.constantFrom('hills' as const, 'rolling' as const, 'flat' as const),
  circumferenceMm: fc.option(fc.integer({ min: 900, max: 2600 })),
  cadenceRpm: fc.integer({ min: 30, max: 150 }),
  fitOf: fits,
});

type Question = Parameters<typeof ringOptions>[0];

/** A double that keeps its cassette, where every ring fits. */
const double = (rings: readonly number[], largestTeeth: number): Question => ({
  rings,
  now: { smallestTeeth: 11, largestTeeth },
  after: { smallestTeeth: 11, largestTeeth },
  wantedTeeth: null,
  terrain: 'rolling',
  circumferenceMm: null,
  cadenceRpm: 90,
  fitOf: () => ({ fit: 'fits', reasons: [] }),
});
const HARDTAIL = double([36, 22], 36);
const ROAD = double([50, 34], 32);

describe('ring options', () => {
  it('cost exactly zero when nothing is lost, and only then', () => {
    fc.assert(
      fc.property(question, (input) => {
        for (const option of ringOptions(input).options) {
          // In whole numbers, so that no rounding decides: N/L ≤ r/l and N/s ≥ R/S multiplied out.
          const keepsLow = option.teeth * input.now.largestTeeth <= Math.min(...input.rings) * input.after.largestTeeth;
          const keepsHigh =
            option.teeth * input.now.smallestTeeth >= Math.max(...input.rings) * input.after.smallestTeeth;
          expect(option.cost === 0).toBe(keepsLow && keepsHigh);
          expect(option.cost).toBeGreaterThanOrEqual(0);
        }
      }),
    );
  });

  it('hold every even count from 20 to 60 and the wanted ring, rising', () => {
    fc.assert(
      fc.property(question, (input) => {
        const teeth = ringOptions(input).options.map((option) => option.teeth);
        const expected = new Set(Array.from({ length: 21 }, (_, index) => 20 + 2 * index));
        if (input.wantedTeeth !== null) expected.add(input.wantedTeeth);
        expect(teeth).toEqual([...expected].sort((a, b) => a - b));
      }),
    );
  });

  it('recommend the first of the rings by cost that fits', () => {
    fc.assert(
      fc.property(question, (input) => {
        const first = ringsByCost(input).find((teeth) => input.fitOf(teeth).fit === 'fits');
        expect(first ?? null).toBe(ringOptions({ ...input, wantedTeeth: null }).recommended);
      }),
    );
  });

  it('never let an odd ring fit, whatever the crank takes', () => {
    fc.assert(
      fc.property(question, (input) => {
        for (const option of ringOptions(input).options) {
          if (option.teeth % 2 === 0) continue;
          expect(option.fit).toBe('no');
          expect(option.reasons.length).toBeGreaterThan(0);
        }
      }),
    );
  });

  it('recommend the smallest of the cheapest rings that fit, and mark it once', () => {
    fc.assert(
      fc.property(question, (input) => {
        const { options, recommended, provisional } = ringOptions(input);
        const fitting = options.filter((option) => option.fit === 'fits');
        const least = Math.min(...fitting.map((option) => option.cost));
        const cheapest = fitting.find((option) => option.cost === least);
        expect(recommended).toBe(cheapest?.teeth ?? null);
        expect(options.filter((option) => option.recommended).map((option) => option.teeth)).toEqual(
          recommended === null ? [] : [recommended],
        );
        if (recommended !== null) expect(provisional).toBeNull();
        else if (provisional !== null) {
          expect(options.find((option) => option.teeth === provisional)?.fit).toBe('check');
        }
      }),
    );
  });

  // 36/22 with 11-36, low and high end counted alike: every ring from 22 to 36 gives up 36/22 in all, ln(36/22).
  it('that cost the same cost the same to the last bit, so that the smaller one is taken', () => {
    const { options, recommended } = ringOptions({
      ...HARDTAIL,
      fitOf: (teeth) => ({ fit: teeth >= 32 ? 'fits' : 'no', reasons: [] }),
    });
    const between = options.filter((option) => option.teeth >= 22 && option.teeth <= 36);
    expect(new Set(between.map((option) => option.cost)).size).toBe(1);
    expect(between[0]?.cost).toBeCloseTo(Math.log(36 / 22), 12);
    expect(recommended).toBe(32);
  });

  it('leave speeds and developments unknown without a wheel', () => {
    const { options } = ringOptions(HARDTAIL);
    for (const option of options) {
      expect(option.lowestSpeedKmh).toBeNull();
      expect(option.highestDevelopmentM).toBeNull();
    }
  });

  it('weigh the low end twice in hills and the high end twice on the flat', () => {
    const costOn = (terrain: Question['terrain']) =>
      ringOptions({ ...HARDTAIL, terrain }).options.find((option) => option.teeth === 32)?.cost;
    // Low end lost: (32/36)/(22/36) = 32/22. High end lost: (36/11)/(32/11) = 36/32.
    const low = Math.log(32 / 22);
    const high = Math.log(36 / 32);
    expect(costOn('hills')).toBeCloseTo(2 * low + high, 12);
    expect(costOn('rolling')).toBeCloseTo(low + high, 12);
    expect(costOn('flat')).toBeCloseTo(low + 2 * high, 12);
  });

  it('where no ring is sure to fit, share the loss between both ends', () => {
    const { recommended, provisional } = ringOptions({
      ...ROAD,
      fitOf: () => ({ fit: 'check', reasons: ['bolt circle unknown'] }),
    });
    expect(recommended).toBeNull();
    // √(34 · 50) = 41.2; in logarithms 42 lies nearer to it than 40: ln(42/41.2) = 0.018, ln(41.2/40) = 0.030.
    expect(provisional).toBe(42);
  });
});

describe('rings that cost the same', () => {
  const choice = (terrain: Question['terrain']) =>
    ringOptions({ ...ROAD, terrain, fitOf: (teeth) => ({ fit: teeth < 38 ? 'no' : 'fits', reasons: [] }) });

  // ln(N/34) + ln(50/N) = ln(50/34) for every N between.
  it('are all those between the old rings on rolling ground, as far as they fit', () => {
    const { options, recommended } = choice('rolling');
    expect(ringsAlike(options, recommended)).toEqual({ smallestTeeth: 38, largestTeeth: 50 });
  });

  it('are none where one end of the gears weighs more, and none where nothing is recommended', () => {
    const { options, recommended } = choice('hills');
    expect(ringsAlike(options, recommended)).toBeNull();
    expect(ringsAlike(options, null)).toBeNull();
  });
});

describe('the rings shown', () => {
  it('are two to four wherever two are usable, with the recommended and the wanted one, and no other that cannot fit', () => {
    fc.assert(
      fc.property(question, (input) => {
        const { options, recommended, provisional } = ringOptions(input);
        const centre = recommended ?? provisional;
        const shown = shownRings(options, centre, input.wantedTeeth);
        const usable = options.filter((option) => option.fit !== 'no');
        expect(shown.length).toBeLessThanOrEqual(4);
        if (usable.length >= 2) expect(shown.length).toBeGreaterThanOrEqual(2);
        const teeth = shown.map((option) => option.teeth);
        expect(teeth).toEqual([...teeth].sort((a, b) => a - b));
        if (centre !== null) expect(teeth).toContain(centre);
        if (input.wantedTeeth !== null) expect(teeth).toContain(input.wantedTeeth);
        for (const option of shown) if (option.fit === 'no') expect(option.teeth).toBe(input.wantedTeeth);
      }),
    );
  });

  it('are both even sizes beside an odd wish', () => {
    const options = [30, 32, 33, 34, 36, 38, 40].map((teeth) => ({
      teeth,
      fit: teeth === 33 ? ('no' as const) : ('fits' as const),
    }));
    expect(shownRings(options, 40, 33).map((option) => option.teeth)).toEqual([32, 33, 34, 40]);
  });
});

describe('the rings that keep an end', () => {
  it('are the last whole counts that do', () => {
    fc.assert(
      fc.property(question, ({ rings, now, after }) => {
        const small = Math.min(...rings);
        const large = Math.max(...rings);
        const keep = ringsThatKeep(
          { lowestRatio: small / now.largestTeeth, highestRatio: large / now.smallestTeeth },
          after,
        );
        expect(keep.lowestTeeth * now.largestTeeth).toBeLessThanOrEqual(small * after.largestTeeth);
        expect((keep.lowestTeeth + 1) * now.largestTeeth).toBeGreaterThan(small * after.largestTeeth);
        expect(keep.highestTeeth * now.smallestTeeth).toBeGreaterThanOrEqual(large * after.smallestTeeth);
        expect((keep.highestTeeth - 1) * now.smallestTeeth).toBeLessThan(large * after.smallestTeeth);
      }),
    );
  });
});
