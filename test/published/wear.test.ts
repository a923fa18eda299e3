import { describe, expect, it } from 'vitest';
import { chainWear, elongationMm, wearPctOfLength } from '../../src/solve/chain-wear.ts';

const off = (ours: number, printed: number): number => Math.abs(ours - printed);

describe('WearPages: elongation over 24 pitches', () => {
  it.each([
    { pct: 0.5, printedMm: 1.5, within: 0.05 },
    { pct: 0.75, printedMm: 2.3, within: 0.05 },
    { pct: 1, printedMm: 3.05, within: 0.005 },
  ])('prints $printedMm mm for $pct %', ({ pct, printedMm, within }) => {
    expect(off(elongationMm(pct), printedMm)).toBeLessThanOrEqual(within);
  });

  it('prints 0.52 % for 12 1/16 in', () => {
    expect(off(wearPctOfLength((12 + 1 / 16) * 25.4), 0.52)).toBeLessThanOrEqual(0.005);
  });
});

describe('WearPages: when to replace', () => {
  it('says 0.75 % up to 10 speed', () => {
    for (const speeds of [5, 6, 7, 8, 9, 10]) {
      expect(chainWear({ wearPct: 0.74, speeds })).toMatchObject({ verdict: 'ride-on', replaceAtPct: 0.75 });
      expect(chainWear({ wearPct: 0.75, speeds })).toMatchObject({ verdict: 'replace-chain' });
    }
  });

  it('says 0.5 % for 11 and 12 speed', () => {
    for (const speeds of [11, 12]) {
      expect(chainWear({ wearPct: 0.49, speeds })).toMatchObject({ verdict: 'ride-on', replaceAtPct: 0.5 });
      expect(chainWear({ wearPct: 0.5, speeds })).toMatchObject({ verdict: 'replace-chain' });
    }
  });

  it('suspects cassette and rings over 1 %', () => {
    expect(chainWear({ wearPct: 1.01, speeds: 9 })).toMatchObject({ verdict: 'replace-chain-check-cassette' });
    expect(chainWear({ wearPct: 1, speeds: 9 })).toMatchObject({ verdict: 'replace-chain' });
  });
});
