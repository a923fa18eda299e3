import { polygonHull, polygonLength } from 'd3-polygon';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { approximateWrapPitches, centreMmForWrap, wrapPitches } from '../../src/solve/chain-wrap.ts';

const P = 12.7;
const ring = fc.integer({ min: 18, max: 70 });
const sprocket = fc.integer({ min: 9, max: 60 });
const centreMm = fc.double({ min: 320, max: 850, noNaN: true });

/** A point generator that needs no seed: the golden ratio spreads its multiples evenly over [0, 1). */
const spread = (index: number, salt: number): number => (index * (Math.sqrt(5) / 2 - 0.5) + salt) % 1;

describe('the bare wrap', () => {
  // 34.645669 × 2 + (N + n)/2 where N = n: straight runs of C each way and half of each wheel
  it('is twice the centre distance and the teeth of one wheel where both are equal', () => {
    expect(wrapPitches(36, 36, 440)).toBeCloseTo((2 * 440) / P + 36, 10);
    expect(approximateWrapPitches(36, 36, 440)).toBeCloseTo((2 * 440) / P + 36, 10);
  });

  // R, r = 1/(2 sin(π/N)); α = asin((R − r)/C); L = 2√(C² − (R − r)²) + N(½ + α/π) + n(½ − α/π), by hand to 0.001
  it.each([
    [32, 51, 440, 111.055],
    [38, 51, 440, 113.915],
    [38, 42, 440, 109.303],
    [32, 36, 420, 100.154],
    [32, 42, 425, 104.005],
    [30, 42, 430, 103.824],
    [34, 51, 440, 112.003],
    [50, 28, 16.1875 * 25.4, 104.129],
    [46, 36, 415, 106.432],
  ])('of %i × %i at %f mm is %f pitches', (ringTeeth, sprocketTeeth, centre, expected) => {
    expect(Math.abs(wrapPitches(ringTeeth, sprocketTeeth, centre) - expected)).toBeLessThanOrEqual(0.0005);
  });

  it('does not care which wheel is in front', () => {
    fc.assert(
      fc.property(ring, sprocket, centreMm, (N, n, C) => {
        expect(wrapPitches(n, N, C)).toBeCloseTo(wrapPitches(N, n, C), 9);
      }),
    );
  });

  it('never shortens with two more teeth, nor with longer stays', () => {
    fc.assert(
      fc.property(ring, sprocket, centreMm, (N, n, C) => {
        expect(wrapPitches(N + 2, n, C)).toBeGreaterThan(wrapPitches(N, n, C));
        expect(wrapPitches(N, n + 2, C)).toBeGreaterThan(wrapPitches(N, n, C));
        expect(wrapPitches(N, n, C + 1)).toBeGreaterThan(wrapPitches(N, n, C));
      }),
    );
  });

  it('is met by the textbook approximation to 0.03 pitch from 380 mm', () => {
    fc.assert(
      fc.property(ring, sprocket, fc.double({ min: 380, max: 850, noNaN: true }), (N, n, C) => {
        expect(Math.abs(approximateWrapPitches(N, n, C) - wrapPitches(N, n, C))).toBeLessThanOrEqual(0.03);
      }),
    );
  });
});

describe('the centre distance for a wrap', () => {
  it('undoes the wrap, both ways, to 1e-9', () => {
    fc.assert(
      fc.property(ring, sprocket, centreMm, (N, n, C) => {
        const wrap = wrapPitches(N, n, C);
        const back = centreMmForWrap(N, n, wrap);
        expect(back).not.toBeNull();
        expect(Math.abs(Number(back) - C)).toBeLessThanOrEqual(1e-9);
        expect(Math.abs(wrapPitches(N, n, Number(back)) - wrap)).toBeLessThanOrEqual(1e-9);
      }),
    );
  });

  it('is unknown for a chain too short for the two wheels to stand clear', () => {
    // Touching wheels, C = R + r: 32 and 36 teeth, (5.101 + 5.737) × 2 + 34 is about 55.7 pitches
    expect(centreMmForWrap(32, 36, 55)).toBeNull();
    expect(centreMmForWrap(32, 36, 57)).not.toBeNull();
    expect(centreMmForWrap(70, 9, 30)).toBeNull();
    expect(centreMmForWrap(32, 36, 0)).toBeNull();
  });
});

describe('an independent geometry library', () => {
  const POINTS = 720;
  const PAIRS = 3200;

  type Point = [number, number];

  function circle(radius: number, x: number): Point[] {
    return Array.from({ length: POINTS }, (_, index) => {
      const angle = (2 * Math.PI * index) / POINTS;
      return [x + radius * Math.cos(angle), radius * Math.sin(angle)];
    });
  }

  /**
   * A string pulled tight round both pitch circles is their convex hull. Its straight parts are the chain's. On a wheel
   * the string lies along the circle, radius × angle, where the chain lies from tooth to tooth, one pitch a tooth: an
   * angle θ of N teeth is N·θ/2π pitches, a little less than R·θ, because chords are shorter than arcs. So the chain is
   * the hull's perimeter with (N/2π − R)·θ put in for each wheel. The angles are read off the hull itself (how many
   * sampled points of each wheel are on it), so neither our arcsine nor our square root takes part.
   */
  function wrapByHull(N: number, n: number, centre: number): number {
    const R = 0.5 / Math.sin(Math.PI / N);
    const r = 0.5 / Math.sin(Math.PI / n);
    const front = circle(R, 0);
    const rear = circle(r, centre);
    const hull = polygonHull([...front, ...rear]);
    if (hull === null) throw new Error('two circles have a hull');
    const frontPoints = new Set<Point>(front);
    const onFront = hull.filter((point) => frontPoints.has(point)).length;
    const step = (2 * Math.PI) / POINTS;
    // k points in a row span k − 1 steps; the tangent point lies on average half a step further at either end.
    const frontAngle = onFront * step;
    const rearAngle = (hull.length - onFront) * step;
    return polygonLength(hull) + (N / (2 * Math.PI) - R) * frontAngle + (n / (2 * Math.PI) - r) * rearAngle;
  }

  it(`finds the same bare wrap for ${PAIRS} pairs of wheels, to a thousandth of a pitch`, () => {
    let worst = 0;
    let checked = 0;
    for (let index = 0; index < PAIRS; index += 1) {
      const N = 18 + Math.floor(53 * spread(index, 0.11));
      const n = 9 + Math.floor(52 * spread(index * 7, 0.37));
      const centre = (320 + 530 * spread(index * 13, 0.73)) / P;
      worst = Math.max(worst, Math.abs(wrapByHull(N, n, centre) - wrapPitches(N, n, centre * P)));
      checked += 1;
    }
    expect(checked).toBe(PAIRS);
    // Sampling: chords for arcs lose 2πR·(2π/720)²/24, 2e-4 pitch on the largest wheels, and the ends a step's worth of
    // (R − N/2π) < 0.03 × 0.0087 = 3e-4 each. A wrong sign of α would be off by whole pitches.
    expect(worst).toBeLessThanOrEqual(0.001);
    expect(worst).toBeGreaterThan(0);
  });
});
