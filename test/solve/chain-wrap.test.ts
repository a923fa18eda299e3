import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { approximateWrapPitches, centreMmForWrap, wrapPitches } from '../../src/solve/chain-wrap.ts';

const P = 12.7;
const ring = fc.integer({ min: 18, max: 70 });
const sprocket = fc.integer({ min: 9, max: 60 });
const centreMm = fc.double({ min: 320, max: 850, noNaN: true });

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
