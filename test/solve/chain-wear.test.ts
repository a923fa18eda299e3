import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { chainWear, elongationMm, wearPctOfLength } from '../../src/solve/chain-wear.ts';

describe('the verdict on a worn chain', () => {
  it.each([
    { wearPct: 0.74, speeds: 10, verdict: 'ride-on', limit: 0.75 },
    { wearPct: 0.75, speeds: 10, verdict: 'replace-chain', limit: 0.75 },
    { wearPct: 0.49, speeds: 12, verdict: 'ride-on', limit: 0.5 },
    { wearPct: 0.5, speeds: 12, verdict: 'replace-chain', limit: 0.5 },
    { wearPct: 0.5, speeds: 13, verdict: 'replace-chain', limit: 0.5 },
    { wearPct: 1, speeds: 9, verdict: 'replace-chain', limit: 0.75 },
    { wearPct: 1.1, speeds: 9, verdict: 'replace-chain-check-cassette', limit: 0.75 },
  ])('of $wearPct % at $speeds speeds is $verdict', ({ wearPct, speeds, verdict, limit }) => {
    expect(chainWear({ wearPct, speeds })).toEqual({ kind: 'found', verdict, replaceAtPct: limit });
  });

  it('stands without speeds where every limit agrees', () => {
    expect(chainWear({ wearPct: 0.4, speeds: null })).toMatchObject({ verdict: 'ride-on', replaceAtPct: null });
    expect(chainWear({ wearPct: 0.75, speeds: null })).toMatchObject({ verdict: 'replace-chain' });
    expect(chainWear({ wearPct: 1.5, speeds: null })).toMatchObject({ verdict: 'replace-chain-check-cassette' });
  });

  it('needs the speeds from 0.5 % to under 0.75 %', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.5, max: 0.749, noNaN: true }), (wearPct) => {
        expect(chainWear({ wearPct, speeds: null })).toMatchObject({ kind: 'cannot', reason: 'speeds-unknown' });
      }),
    );
  });

  it('needs the wear, and still tells the limit', () => {
    expect(chainWear({ wearPct: null, speeds: 11 })).toEqual({
      kind: 'cannot',
      reason: 'wear-unknown',
      replaceAtPct: 0.5,
    });
  });

  it('never gets milder with more wear', () => {
    const order = ['ride-on', 'replace-chain', 'replace-chain-check-cassette'];
    const wear = fc.double({ min: 0, max: 5, noNaN: true });
    const rank = (wearPct: number, speeds: number): number => {
      const result = chainWear({ wearPct, speeds });
      return result.kind === 'found' ? order.indexOf(result.verdict) : -1;
    };
    fc.assert(
      fc.property(wear, wear, fc.integer({ min: 5, max: 13 }), (a, b, speeds) => {
        const milder = rank(Math.min(a, b), speeds);
        expect(milder).toBeGreaterThanOrEqual(0);
        expect(milder).toBeLessThanOrEqual(rank(Math.max(a, b), speeds));
      }),
    );
  });
});

describe('the limit', () => {
  it('is known from 5 to 13 sprockets and unknown outside', () => {
    const limitFor = (speeds: number) => chainWear({ wearPct: null, speeds }).replaceAtPct;
    for (let speeds = 5; speeds <= 13; speeds += 1) expect(limitFor(speeds)).not.toBeNull();
    expect(limitFor(4)).toBeNull();
    expect(limitFor(14)).toBeNull();
  });
});

describe('length and wear', () => {
  it('turn into each other', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 5, noNaN: true }), (wearPct) => {
        // 24 pitches of 12.7 mm are 304.8 mm
        expect(wearPctOfLength(304.8 + elongationMm(wearPct))).toBeCloseTo(wearPct, 9);
      }),
    );
  });
});
