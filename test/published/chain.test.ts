import { describe, expect, it } from 'vitest';
import { chainLength, chainTargetPitches, freedByFewerTeeth } from '../../src/solve/chain-length.ts';
import { approximateWrapPitches, centreMmForWrap, wrapPitches } from '../../src/solve/chain-wrap.ts';

const off = (ours: number, printed: number): number => Math.abs(ours - printed);

describe('MechJournalChain: worked example, 63 and 20 teeth', () => {
  // Printed: chain length 114.8 pitches; centre distance 35.6 pitches for a 114-pitch chain. C = 36 pitches is the
  // distance that reproduces both.
  it('gives the printed 114.8 pitches by the tangent model and by the approximation', () => {
    expect(off(wrapPitches(63, 20, 36 * 12.7), 114.8)).toBeLessThanOrEqual(0.05);
    expect(off(approximateWrapPitches(63, 20, 36 * 12.7), 114.8)).toBeLessThanOrEqual(0.05);
  });

  it('gives the printed centre distance of 35.6 pitches for 114', () => {
    const centreMm = centreMmForWrap(63, 20, 114);
    expect(centreMm).not.toBeNull();
    expect(off(Number(centreMm) / 12.7, 35.6)).toBeLessThanOrEqual(0.05);
  });

  it('prints an "exact" 114.305 that lies half a pitch off the tangent model', () => {
    expect(off(wrapPitches(63, 20, 36 * 12.7), 114.305)).toBeGreaterThan(0.45);
  });
});

describe('WorkshopInchRule: L(in) = 2C + F/4 + R/4 + 1', () => {
  // The rule leaves out the difference term (F − R)²/(4π²C) of the approximation: 0.379 and 0.078 pitch here, half as
  // many inches. Its "+ 1 in" is our allowance of 2 pitches. `within` is that term in inches and half a last digit; the
  // second figure is cut, not rounded (54.177), so a whole last digit there.
  it.each([
    { ring: 50, sprocket: 28, centreMm: 16.1875 * 25.4, printedIn: 52.875, within: 0.379 / 2 + 0.0005 },
    { ring: 46, sprocket: 36, centreMm: 415, printedIn: 54.17, within: 0.078 / 2 + 0.01 },
  ])('prints $printedIn in for $ring × $sprocket', ({ ring, sprocket, centreMm, printedIn, within }) => {
    const oursIn = (wrapPitches(ring, sprocket, centreMm) + 2) / 2;
    expect(oursIn).toBeGreaterThanOrEqual(printedIn);
    expect(off(oursIn, printedIn)).toBeLessThanOrEqual(within);
  });
});

describe('CyclingUKForum2023: half the tooth change', () => {
  it('takes 120 pitches on 11-51 to 116 on 11-42', () => {
    expect(120 - freedByFewerTeeth(51 - 42).outPitches).toBe(116);
  });
});

describe('CyclingUK2012: the next even count above what just fits', () => {
  const ruleFor = (justFits: number): number | null => {
    // A bare wrap half a pitch below the count makes that count the one that just fits.
    const centreMm = centreMmForWrap(32, 36, justFits - 0.5);
    const found = chainLength({
      ringTeeth: 32,
      sprocketTeeth: 36,
      stayMm: centreMm,
      longestMm: null,
      suspension: 'none',
      allowancePitches: 2,
      presentPitches: null,
    });
    return found.kind === 'found' ? found.alternativeRulePitches : null;
  };

  it('makes 110 of 108 and of 109', () => {
    expect(ruleFor(108)).toBe(110);
    expect(ruleFor(109)).toBe(110);
  });
});

describe('CyclistsGlossary: largest ring and sprocket, plus one pair', () => {
  it('asks for the first even count at least two pitches over the bare wrap', () => {
    for (let sprocketTeeth = 28; sprocketTeeth <= 52; sprocketTeeth += 1) {
      const bare = wrapPitches(32, sprocketTeeth, 440);
      const target = chainTargetPitches({ ringTeeth: 32, sprocketTeeth, centreMm: 440, allowancePitches: 2 });
      expect(target % 2).toBe(0);
      expect(target - bare).toBeGreaterThanOrEqual(2);
      expect(target - bare).toBeLessThan(4);
    }
  });
});
