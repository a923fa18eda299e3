import { polygonHull, polygonLength } from 'd3-polygon';
import { describe, expect, it } from 'vitest';
import { wrapPitches } from '../../src/solve/chain-wrap.ts';

const P = 12.7;

/** A point generator that needs no seed: the golden ratio spreads its multiples evenly over [0, 1). */
const spread = (index: number, salt: number): number => (index * (Math.sqrt(5) / 2 - 0.5) + salt) % 1;

describe('the hull of two pitch circles, by a general-purpose geometry library', () => {
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
    for (let index = 0; index < PAIRS; index += 1) {
      const N = 18 + Math.floor(53 * spread(index, 0.11));
      const n = 9 + Math.floor(52 * spread(index * 7, 0.37));
      const centre = (320 + 530 * spread(index * 13, 0.73)) / P;
      worst = Math.max(worst, Math.abs(wrapByHull(N, n, centre) - wrapPitches(N, n, centre * P)));
    }
    // Sampling: chords for arcs lose 2πR·(2π/720)²/24, 2e-4 pitch on the largest wheels, and the ends a step's worth of
    // (R − N/2π) < 0.03 × 0.0087 = 3e-4 each. A wrong sign of α would be off by whole pitches.
    expect(worst).toBeLessThanOrEqual(0.001);
    expect(worst).toBeGreaterThan(0);
  });
});
