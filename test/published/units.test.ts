import Qty from 'js-quantities';
import { describe, expect, it } from 'vitest';
import { torqueInLbf } from '../../src/solve/torque.ts';
import { UNIT_FACTORS } from '../../src/tables/unit-factors.ts';

/** The product's unit names in the spelling of the general-purpose unit library. */
const REFEREE_NAMES: Readonly<Record<string, string>> = {
  in: 'in',
  mm: 'mm',
  mi: 'mi',
  km: 'km',
  lbf·in: 'lbf*in',
  N·m: 'N*m',
  oz: 'oz',
  g: 'g',
  lb: 'lb',
  kg: 'kg',
};

describe('Unit factors against a general-purpose unit library', () => {
  it.each(Object.values(UNIT_FACTORS))('1 $from is $factor $to', ({ from, to, factor }) => {
    const referee = Qty(1, REFEREE_NAMES[from] ?? '').to(REFEREE_NAMES[to] ?? '').scalar;
    // The guide prints seven digits where the factor is not exact: half a unit of the seventh is at most 5e-7 of it.
    expect(Math.abs(factor / referee - 1)).toBeLessThan(5e-7);
  });

  it('torque in pound-force inches is the library’s, to the tenth it is rounded to', () => {
    for (let torqueNm = 0.1; torqueNm < 60; torqueNm += 0.1) {
      expect(Math.abs(torqueInLbf(torqueNm) - Qty(torqueNm, 'N*m').to('lbf*in').scalar)).toBeLessThanOrEqual(
        0.05 + 1e-4,
      );
    }
  });
});

describe('Conversions as printed in workshop torque tables', () => {
  // N·m as printed, lbf·in as printed, half a unit of the last printed digit
  it.each([
    [40, 354, 0.5],
    [12, 106, 0.5],
    [14, 124, 0.5],
    [5, 44.3, 0.05],
    [9, 79.7, 0.05],
    [0.7, 6.2, 0.05],
  ])('%d N·m is %d lbf·in', (torqueNm, inLbf, within) => {
    expect(Math.abs(torqueInLbf(torqueNm) - inLbf)).toBeLessThanOrEqual(within + 1e-9);
  });

  it('"32–53" lbf·in for 0.4–0.7 N·m is a slip: ten times too much and more', () => {
    expect(torqueInLbf(0.4)).toBe(3.5);
    expect(torqueInLbf(0.7)).toBe(6.2);
    expect(32 / torqueInLbf(0.4)).toBeGreaterThan(8);
    expect(53 / torqueInLbf(0.7)).toBeGreaterThan(8);
  });

  it('300 lbf·in is 33.9 N·m; the printed 32.9 is a slip of one', () => {
    const torqueNm = 300 * UNIT_FACTORS.nmPerInLbf.factor;
    expect(torqueNm).toBeCloseTo(33.9, 1);
    expect(Math.abs(torqueNm - 32.9)).toBeGreaterThan(0.9);
  });
});
