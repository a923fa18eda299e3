import { describe, expect, it } from 'vitest';
import { developmentM, gainRatio, gearRange, gearRatio, speedKmh } from '../../src/solve/gears.ts';
import { ringOptions, ringsThatKeep } from '../../src/solve/ring-options.ts';
import { widerCassettes } from '../../src/solve/wider-cassette.ts';

const off = (ours: number, printed: number): number => Math.abs(ours - printed);
const HALF_OF_HUNDREDTH = 0.005 + 1e-9;
const KMH_AT_3_MPH = 3 * 1.609344;

const rangeOf = (rings: readonly [number, number], smallestSprocketTeeth: number, largestSprocketTeeth: number) =>
  gearRange({
    largestRingTeeth: rings[0],
    smallestRingTeeth: rings[1],
    smallestSprocketTeeth,
    largestSprocketTeeth,
    circumferenceMm: null,
    cadenceRpm: 90,
  });

describe('BrownGain: the same gear on two bicycles', () => {
  it.each([
    [39, 14],
    [53, 19],
  ])('prints 2.79 for %i/%i', (ring, sprocket) => {
    expect(off(gearRatio(ring, sprocket), 2.79)).toBeLessThanOrEqual(HALF_OF_HUNDREDTH);
  });
});

describe('EngineeringClicks: gain ratio and cadence at 3 mph', () => {
  // The second gain ratio is cut, not rounded (1.3447), so a whole last digit is allowed there.
  const gears = [
    { radiusMm: 330.2, crankMm: 175, ring: 22, sprocket: 34, gain: 1.22, gainWithin: 0.005, rpm: 60, rpmWithin: 0.5 },
    {
      radiusMm: 323.85,
      crankMm: 170,
      ring: 24,
      sprocket: 34,
      gain: 1.344,
      gainWithin: 0.001,
      rpm: 56,
      rpmWithin: 0.05,
    },
  ];

  it.each(gears)('prints $gain for $ring/$sprocket', ({ radiusMm, crankMm, ring, sprocket, gain, gainWithin }) => {
    expect(off(gainRatio(gearRatio(ring, sprocket), radiusMm, crankMm), gain)).toBeLessThanOrEqual(gainWithin);
  });

  it.each(gears)('prints $rpm rpm at 3 mph for $ring/$sprocket', ({ radiusMm, ring, sprocket, rpm, rpmWithin }) => {
    const kmhAt1Rpm = speedKmh(developmentM(gearRatio(ring, sprocket), 2 * Math.PI * radiusMm), 1);
    expect(off(KMH_AT_3_MPH / kmhAt1Rpm, rpm)).toBeLessThanOrEqual(rpmWithin);
  });
});

describe('GravelArticle2016: ranges', () => {
  it.each([
    [11, 36, 3.27],
    [11, 40, 3.64],
    [11, 42, 3.82],
    [11, 46, 4.18],
    [10, 42, 4.2],
    [9, 44, 4.89],
    [10, 50, 5.0],
  ])('prints the range of %i–%i as %f', (smallest, largest, printed) => {
    expect(off(rangeOf([40, 40], smallest, largest).rangePct / 100, printed)).toBeLessThanOrEqual(HALF_OF_HUNDREDTH);
  });

  it('prints 3.47 for 53/39 with 11–28, because it rounds both ratios before dividing; exact is 3.459', () => {
    const range = rangeOf([53, 39], 11, 28);
    const rounded = Number(range.highestRatio.toFixed(2)) / Number(range.lowestRatio.toFixed(2));
    expect(off(rounded, 3.47)).toBeLessThanOrEqual(HALF_OF_HUNDREDTH);
    expect(off(range.rangePct / 100, 3.47)).toBeGreaterThan(0.01);
    expect(off(range.rangePct / 100, 3.459)).toBeLessThanOrEqual(0.0005);
  });
});

describe('QA: what riders were told', () => {
  const optionsFor = (
    rings: readonly number[],
    now: readonly [number, number],
    after: readonly [number, number],
    terrain: 'hills' | 'rolling' | 'flat',
  ) =>
    ringOptions({
      rings,
      now: { smallestTeeth: now[0], largestTeeth: now[1] },
      after: { smallestTeeth: after[0], largestTeeth: after[1] },
      wantedTeeth: null,
      terrain,
      circumferenceMm: null,
      cadenceRpm: 90,
      fitOf: () => ({ fit: 'fits', reasons: [] }),
    });

  it('26/36, 11–36 to 10–42: 30T keeps the lowest, 33 the highest, 32 is the compromise', () => {
    const now = rangeOf([36, 26], 11, 36);
    expect(ringsThatKeep(now, { smallestTeeth: 10, largestTeeth: 42 })).toEqual({ lowestTeeth: 30, highestTeeth: 33 });
    expect(optionsFor([36, 26], [11, 36], [10, 42], 'rolling').recommended).toBe(32);
  });

  it('53/39 with 11–28: 53T needs 11–40', () => {
    const wider = widerCassettes({
      ringTeeth: 53,
      nowLowestRatio: 39 / 28,
      smallestTeeth: 11,
      largestTeeth: 28,
      speeds: 11,
      capacityTeeth: null,
      maxSprocketTeeth: null,
      minSprocketTeeth: null,
    });
    const keeping = wider.find((cassette) => cassette.lowestRatio <= 39 / 28);
    expect(keeping).toMatchObject({ smallestTeeth: 11, largestTeeth: 40 });
  });

  it('36/26, 11–36 to 11–42: 32 if you miss the lowest, 34 if the highest', () => {
    const cost = (terrain: 'hills' | 'flat', teeth: number) =>
      optionsFor([36, 26], [11, 36], [11, 42], terrain).options.find((option) => option.teeth === teeth)?.cost;
    expect(cost('hills', 32)).toBeLessThan(cost('hills', 34) ?? 0);
    expect(cost('flat', 34)).toBeLessThan(cost('flat', 32) ?? 0);
  });
});
