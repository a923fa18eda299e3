import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { boltPreload, preloadN } from '../../src/solve/bolt-preload.ts';

describe('boltPreload', () => {
  it('two pinch bolts at 12–15 N·m as M6', () => {
    const found = boltPreload({ lowNm: 12, highNm: 15, thread: 'M6' });
    if (found.kind !== 'found') throw new Error(found.reason);
    // 12/(0.20 · 0.006) = 10000; 15/(0.15 · 0.006) = 16666.7
    expect(found.lowN).toBeCloseTo(10000, 6);
    expect(found.highN).toBeCloseTo(16666.667, 2);
    // 10000/11600 = 86.2 %, 16666.7/11600 = 143.7 %; 16666.7/16700 = 99.8 %; 16666.7/19500 = 85.5 %
    expect(found.shares.map((share) => share.highPct.toFixed(1))).toEqual(['143.7', '99.8', '85.5']);
    expect(found.shares[0]?.lowPct).toBeCloseTo(86.2, 1);
  });

  it('says nothing of bolts outside the standard', () => {
    expect(boltPreload({ lowNm: 8, highNm: 9, thread: null })).toEqual({
      kind: 'cannot',
      reason: 'outside-the-standard',
    });
  });

  it('pulls a third harder lubricated than dry: 0.20/0.15', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 60, noNaN: true }),
        fc.constantFrom(4, 5, 6, 8),
        (torqueNm, diameterMm) => {
          const ratio = preloadN(torqueNm, diameterMm, 0.15) / preloadN(torqueNm, diameterMm, 0.2);
          expect(ratio).toBeCloseTo(4 / 3, 9);
        },
      ),
    );
  });

  it('takes a smaller share in a stronger class', () => {
    fc.assert(
      fc.property(
        fc.constantFrom('M4', 'M5', 'M6', 'M8'),
        fc.double({ min: 0.5, max: 50, noNaN: true }),
        (thread, at) => {
          const found = boltPreload({ lowNm: at, highNm: at * 1.2, thread });
          if (found.kind !== 'found') throw new Error(found.reason);
          const shares = found.shares.map((share) => share.highPct);
          expect([...shares].sort((one, other) => other - one)).toEqual(shares);
        },
      ),
    );
  });
});
