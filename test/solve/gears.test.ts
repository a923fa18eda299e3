import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { roadPower, steepestGrade } from '../../src/solve/climb.ts';
import { gearInches, gearRange, stepsPct } from '../../src/solve/gears.ts';
import { lostGears } from '../../src/solve/lost-gears.ts';
import { sprocketList } from '../../src/solve/sprocket-list.ts';
import { wheelCircumference } from '../../src/solve/wheel-circumference.ts';
import { largestSprocketToKeep, widerCassettes } from '../../src/solve/wider-cassette.ts';

describe('gear range', () => {
  // Derived by hand: lowest = smallest ring / largest sprocket, highest = largest ring / smallest sprocket,
  // range = 100 · (largest ring · largest sprocket) / (smallest ring · smallest sprocket).
  it.each([
    { bike: '36/22 11-36', rings: [36, 22], ends: [11, 36], lowest: 22 / 36, highest: 36 / 11, rangePct: 129600 / 242 },
    { bike: '38/24 11-36', rings: [38, 24], ends: [11, 36], lowest: 24 / 36, highest: 38 / 11, rangePct: 136800 / 264 },
    { bike: '36/26 11-42', rings: [36, 26], ends: [11, 42], lowest: 26 / 42, highest: 36 / 11, rangePct: 151200 / 286 },
    { bike: '44/32/22 11-34', rings: [44, 22], ends: [11, 34], lowest: 22 / 34, highest: 4, rangePct: 149600 / 242 },
    {
      bike: '42/32/24 11-32',
      rings: [42, 24],
      ends: [11, 32],
      lowest: 24 / 32,
      highest: 42 / 11,
      rangePct: 134400 / 264,
    },
    { bike: '48/38/28 14-28', rings: [48, 28], ends: [14, 28], lowest: 1, highest: 48 / 14, rangePct: 134400 / 392 },
    { bike: '50/34 11-32', rings: [50, 34], ends: [11, 32], lowest: 34 / 32, highest: 50 / 11, rangePct: 160000 / 374 },
    { bike: '46/30 11-34', rings: [46, 30], ends: [11, 34], lowest: 30 / 34, highest: 46 / 11, rangePct: 156400 / 330 },
    { bike: '52/36 11-28', rings: [52, 36], ends: [11, 28], lowest: 36 / 28, highest: 52 / 11, rangePct: 145600 / 396 },
    { bike: '53/39 12-25', rings: [53, 39], ends: [12, 25], lowest: 39 / 25, highest: 53 / 12, rangePct: 132500 / 468 },
    { bike: '52/39 11-32', rings: [52, 39], ends: [11, 32], lowest: 39 / 32, highest: 52 / 11, rangePct: 166400 / 429 },
    { bike: '32 10-52', rings: [32, 32], ends: [10, 52], lowest: 32 / 52, highest: 3.2, rangePct: 166400 / 320 },
  ])('of $bike', ({ rings: [large, small], ends: [smallest, largest], lowest, highest, rangePct }) => {
    const range = gearRange({
      largestRingTeeth: Number(large),
      smallestRingTeeth: Number(small),
      smallestSprocketTeeth: Number(smallest),
      largestSprocketTeeth: Number(largest),
      circumferenceMm: 2000,
      cadenceRpm: 100,
    });
    expect(range.lowestRatio).toBeCloseTo(lowest, 12);
    expect(range.highestRatio).toBeCloseTo(highest, 12);
    expect(range.rangePct).toBeCloseTo(rangePct, 9);
    // 2 m a wheel turn; 2 m · 100/min · 0.06 = 12 km/h for a ratio of one.
    expect(range.lowestDevelopmentM).toBeCloseTo(2 * lowest, 12);
    expect(range.highestSpeedKmh).toBeCloseTo(12 * highest, 12);
  });

  it('gives gear inches as the diameter of the wheel for a ratio of one', () => {
    expect(gearInches(1, Math.PI * 25.4 * 28)).toBeCloseTo(28, 12);
  });
});

describe('steps between sprockets', () => {
  it('are one fewer than the sprockets and multiply up to the whole cassette', () => {
    const sprockets = [11, 13, 15, 17, 19, 21, 24, 28, 32, 36];
    const steps = stepsPct(sprockets);
    expect(steps).toHaveLength(9);
    expect(steps.reduce((product, pct) => product * (1 + pct / 100), 1)).toBeCloseTo(36 / 11, 12);
  });

  it('are none for one sprocket', () => {
    expect(stepsPct([18])).toEqual([]);
  });
});

describe('sprocket list', () => {
  it('rises strictly, keeps both ends and has the count asked for', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 9, max: 18 }),
        fc.integer({ min: 19, max: 60 }),
        fc.integer({ min: 5, max: 13 }),
        (smallestTeeth, largestTeeth, speeds) => {
          const list = sprocketList({ smallestTeeth, largestTeeth, speeds, sprockets: null });
          if (largestTeeth - smallestTeeth < speeds - 1) {
            expect(list).toEqual({ kind: 'cannot', reason: 'too-many-sprockets' });
            return;
          }
          if (list.kind !== 'found') throw new Error(list.reason);
          expect(list.sprockets).toHaveLength(speeds);
          expect(list.sprockets[0]).toBe(smallestTeeth);
          expect(list.sprockets.at(-1)).toBe(largestTeeth);
          expect(stepsPct(list.sprockets).every((pct) => pct > 0)).toBe(true);
        },
      ),
    );
  });

  it('keeps a told list as told', () => {
    const sprockets = [11, 13, 16, 20, 25];
    expect(sprocketList({ smallestTeeth: 11, largestTeeth: 25, speeds: 5, sprockets })).toEqual({
      kind: 'found',
      sprockets,
      from: 'told',
    });
  });

  it('takes the only listed cassette when the count is unknown, and none when there are several', () => {
    // 10-52 is listed with 12 sprockets only; 11-36 with 10 and with 11.
    const ends = (smallestTeeth: number, largestTeeth: number) =>
      sprocketList({ smallestTeeth, largestTeeth, speeds: null, sprockets: null });
    expect(ends(10, 52)).toMatchObject({ kind: 'found', from: 'published' });
    expect(ends(11, 36)).toEqual({ kind: 'cannot', reason: 'speeds-unknown' });
    expect(ends(13, 29)).toEqual({ kind: 'cannot', reason: 'speeds-unknown' });
  });

  it('says where a list is only usual or only plausible', () => {
    const from = (smallestTeeth: number, largestTeeth: number, speeds: number) =>
      sprocketList({ smallestTeeth, largestTeeth, speeds, sprockets: null });
    expect(from(11, 34, 9)).toMatchObject({ from: 'memory' });
    expect(from(11, 46, 10)).toMatchObject({ from: 'plausible' });
  });
});

describe('lost gears', () => {
  it('are exactly those outside the new ends, and the spans say the same', () => {
    const sprockets = fc
      .uniqueArray(fc.integer({ min: 9, max: 52 }), { minLength: 5, maxLength: 13 })
      .map((list) => list.sort((a, b) => a - b));
    fc.assert(
      fc.property(
        fc.uniqueArray(fc.integer({ min: 18, max: 60 }), { minLength: 1, maxLength: 3 }),
        sprockets,
        fc.integer({ min: 18, max: 60 }),
        fc.integer({ min: 9, max: 14 }),
        fc.integer({ min: 20, max: 52 }),
        (rings, list, ring, smallest, largest) => {
          const { avoid, spans } = lostGears({
            rings,
            sprockets: list,
            smallestTeeth: Math.min(...list),
            largestTeeth: Math.max(...list),
            newLowestRatio: ring / largest,
            newHighestRatio: ring / smallest,
          });
          for (const ringTeeth of rings) {
            const span = spans.find((one) => one.ringTeeth === ringTeeth);
            for (const sprocketTeeth of list) {
              const gear = avoid.find((one) => one.ringTeeth === ringTeeth && one.sprocketTeeth === sprocketTeeth);
              // N/n < ring/largest and N/n > ring/smallest, in whole numbers.
              const low = ringTeeth * largest < ring * sprocketTeeth;
              const high = ringTeeth * smallest > ring * sprocketTeeth;
              expect(gear?.end).toBe(low ? 'low' : high ? 'high' : undefined);
              const inSpan =
                (span?.fromTeeth != null && sprocketTeeth >= span.fromTeeth) ||
                (span?.toTeeth != null && sprocketTeeth <= span.toTeeth);
              expect(inSpan).toBe(low || high);
            }
          }
        },
      ),
    );
  });

  it('are told by the ends when the sprockets are unknown', () => {
    // 22/34 = 0.647 and 44/11 = 4 lie outside 32/34 = 0.941 to 32/11 = 2.909; 32/34 and 32/11 are the ends themselves.
    const { avoid, spans } = lostGears({
      rings: [44, 32, 22],
      sprockets: null,
      smallestTeeth: 11,
      largestTeeth: 34,
      newLowestRatio: 32 / 34,
      newHighestRatio: 32 / 11,
    });
    expect(avoid.map(({ ringTeeth, sprocketTeeth, end }) => [ringTeeth, sprocketTeeth, end])).toEqual([
      [22, 34, 'low'],
      [44, 11, 'high'],
    ]);
    // 22/s < 32/34 from s = 24 on (22 · 34/32 = 23.4); 44/s > 32/11 up to s = 15 (44 · 11/32 = 15.1).
    expect(spans).toEqual([
      { ringTeeth: 22, fromTeeth: 24, toTeeth: null },
      { ringTeeth: 44, fromTeeth: null, toTeeth: 15 },
    ]);
  });
});

describe('wider cassettes', () => {
  const ask = (limits: { capacityTeeth?: number; maxSprocketTeeth?: number; minSprocketTeeth?: number }) =>
    widerCassettes({
      ringTeeth: 32,
      nowLowestRatio: 22 / 36,
      smallestTeeth: 11,
      largestTeeth: 36,
      speeds: 10,
      capacityTeeth: limits.capacityTeeth ?? null,
      maxSprocketTeeth: limits.maxSprocketTeeth ?? null,
      minSprocketTeeth: limits.minSprocketTeeth ?? null,
    });

  it('have a larger largest sprocket and no larger smallest one, narrowest first', () => {
    const wider = ask({});
    expect(wider.length).toBeGreaterThan(0);
    for (const cassette of wider) {
      expect(cassette.largestTeeth).toBeGreaterThan(36);
      expect(cassette.smallestTeeth).toBeLessThanOrEqual(11);
      expect(cassette.speeds).toBe(10);
      expect(cassette.capacityNeeded).toBe(cassette.largestTeeth - cassette.smallestTeeth);
    }
    const largest = wider.map((cassette) => cassette.largestTeeth);
    expect(largest).toEqual([...largest].sort((a, b) => a - b));
  });

  it('need both figures of the derailleur before it is said to take one', () => {
    const verdict = (limits: Parameters<typeof ask>[0]) =>
      ask(limits).find((cassette) => cassette.largestTeeth === 42)?.derailleurTakesIt;
    expect(verdict({})).toBeNull();
    expect(verdict({ capacityTeeth: 39 })).toBeNull();
    expect(verdict({ capacityTeeth: 39, maxSprocketTeeth: 42 })).toBe(true);
    expect(verdict({ maxSprocketTeeth: 40 })).toBe(false);
    expect(verdict({ capacityTeeth: 30 })).toBe(false);
    expect(verdict({ minSprocketTeeth: 46 })).toBe(false);
  });

  it('name the smallest largest sprocket that keeps the lowest gear', () => {
    // 32 / (22/36) = 52.36, so 53; 22 / (22/36) is 36 itself.
    expect(largestSprocketToKeep(32, 22 / 36)).toBe(53);
    expect(largestSprocketToKeep(22, 22 / 36)).toBe(36);
  });
});

describe('wheel circumference', () => {
  it('takes a measured roll-out as it is', () => {
    expect(wheelCircumference({ kind: 'rollout', circumferenceMm: 2280 })).toMatchObject({
      from: 'measured',
      circumferenceMm: 2280,
      widthAssumed: false,
    });
  });

  it('reckons a rim alone with its usual tyre and says so', () => {
    expect(wheelCircumference({ kind: 'rim', beadSeatMm: 622 })).toMatchObject({
      from: 'formula',
      widthAssumed: true,
      widthMm: 40,
      widthRangeMm: { low: 23, high: 60 },
    });
    expect(wheelCircumference({ kind: 'rim', beadSeatMm: 305 })).toMatchObject({
      from: 'chart',
      circumferenceMm: 1195,
    });
  });

  it('gives no figure for a rim it knows no tyre of', () => {
    expect(wheelCircumference({ kind: 'rim', beadSeatMm: 540 })).toEqual({
      kind: 'cannot',
      reason: 'no-usual-tyre',
      beadSeatMm: 540,
    });
  });

  it('finds the chart row of a small tyre told in inches', () => {
    // 20 × 1.75 in is 44.45 mm by arithmetic and marked 47-406.
    expect(wheelCircumference({ kind: 'tyre', beadSeatMm: 406, widthMm: 44.45 })).toMatchObject({
      from: 'chart',
      circumferenceMm: 1515,
    });
  });

  it('falls back on the formula for a small tyre without a row', () => {
    expect(wheelCircumference({ kind: 'tyre', beadSeatMm: 406, widthMm: 55 })).toMatchObject({
      from: 'formula',
      chartMm: null,
    });
  });
});

describe('steepest grade', () => {
  it('is the grade on which the power formula asks for that power', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 30, max: 400, noNaN: true }),
        fc.double({ min: 1.2, max: 6, noNaN: true }),
        fc.double({ min: 40, max: 150, noNaN: true }),
        (powerW, speedMs, massKg) => {
          const ride = { speedMs, massKg, dragAreaM2: 0.5, rollingCoefficient: 0.008 };
          const steepest = steepestGrade({ ...ride, powerW });
          if (steepest.kind === 'cannot') return;
          const { riderW } = roadPower({ ...ride, airSpeedMs: speedMs, gradePct: steepest.gradePct, change: null });
          expect(Math.abs(riderW - powerW)).toBeLessThanOrEqual(1e-9 * powerW);
        },
      ),
    );
  });

  it('lies below zero when the power does not reach for the level', () => {
    const steepest = steepestGrade({
      powerW: 50,
      speedMs: 9,
      massKg: 88,
      dragAreaM2: 0.5,
      rollingCoefficient: 0.008,
    });
    expect(steepest.kind === 'found' && steepest.gradePct < 0).toBe(true);
  });

  it('does not exist for a power beyond any slope', () => {
    // 1000 W at 0.5 m/s push with 1952 N; 60 kg weigh 589 N.
    const steepest = steepestGrade({
      powerW: 1000,
      speedMs: 0.5,
      massKg: 60,
      dragAreaM2: 0.5,
      rollingCoefficient: 0.008,
    });
    expect(steepest).toEqual({ kind: 'cannot', reason: 'no-such-slope' });
  });
});
