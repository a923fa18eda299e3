import { describe, expect, it } from 'vitest';
import { torqueInLbf } from '../../src/solve/torque.ts';
import { TORQUES } from '../../src/tables/torques.ts';

/** As printed: N·m low and high, lbf·in low and high. */
type Printed = readonly [key: string, lowNm: number, highNm: number, lowInLbf: number, highInLbf: number];

/**
 * Both units stand in print side by side. The N·m ends are compared exactly; the lbf·in ends are whole numbers that some
 * printers cut instead of rounding, and the N·m are cut to a tenth or a whole: one pound-force inch covers that.
 */
const WITHIN_INLBF = 1;

const DEALER: readonly Printed[] = [
  ['ring-bolts-aluminium', 8, 9, 71, 79],
  ['ring-bolts-steel', 12, 14, 106, 124],
  ['crank-pinch-bolts', 12, 15, 106, 132],
  ['front-derailleur-band', 2.8, 4, 25, 35],
  ['front-derailleur-braze-on', 4.9, 6.8, 44, 60],
  ['rear-derailleur-fixing', 7.9, 9.6, 70, 85],
];

const CARGO: readonly Printed[] = [
  ['ring-bolts-aluminium', 5, 9.9, 44, 88],
  ['ring-bolts-steel', 7.9, 10.7, 70, 95],
  ['crank-bolt-taper', 34.5, 44.2, 305, 391],
];

const HOME_MAIN: readonly Printed[] = [['bottom-bracket-cups', 34.5, 49.1, 305, 435]];

function rowOf(key: string) {
  const row = TORQUES.find((each) => each.key === key);
  if (row === undefined) throw new Error(`no row ${key}`);
  return row;
}

function near(torqueNm: number, inLbf: number) {
  expect(Math.abs(torqueInLbf(torqueNm) - inLbf)).toBeLessThanOrEqual(WITHIN_INLBF);
}

describe("DealerTorque, a bicycle maker's dealer torque table", () => {
  it.each(DEALER)('%s: %d–%d N·m, %d–%d lbf·in', (key, lowNm, highNm, lowInLbf, highInLbf) => {
    expect(rowOf(key)).toMatchObject({ lowNm, highNm, cite: { source: 'DealerTorque' } });
    near(lowNm, lowInLbf);
    near(highNm, highInLbf);
  });

  it('cassette lockring: 30–50 N·m; the 434 lbf·in beside the 50 are 49 N·m', () => {
    expect(rowOf('cassette-lockring')).toMatchObject({ lowNm: 30, highNm: 50, cite: { source: 'DealerTorque' } });
    expect(torqueInLbf(50)).toBeGreaterThan(434 + WITHIN_INLBF);
    near(49, 434);
  });

  it('cable clamp bolt: 35–52 lbf·in are the row’s 4–6 N·m to the whole', () => {
    const { lowNm, highNm } = rowOf('rear-cable-anchor');
    expect([Math.round(35 * 0.1129848), Math.round(52 * 0.1129848)]).toEqual([lowNm, highNm]);
  });

  it('bottom-bracket cups: the row beside ours starts at 33.9, not at the printed 32.9', () => {
    const other = rowOf('bottom-bracket-cups').elsewhere.find((each) => each.basis === 'calculated');
    expect(other?.lowNm).toBeCloseTo(300 * 0.1129848, 1);
    expect(other?.highNm).toBeCloseTo(360 * 0.1129848, 1);
  });
});

describe("CargoManual, a cargo-bike maker's manual, p. 77", () => {
  it.each(CARGO)('%s: %d–%d N·m, %d–%d lbf·in, kept beside our row', (key, lowNm, highNm, lowInLbf, highInLbf) => {
    const other = rowOf(key).elsewhere.find((each) => each.basis === 'published' && each.cite.source === 'CargoManual');
    expect(other).toMatchObject({ lowNm, highNm });
    near(lowNm, lowInLbf);
    near(highNm, highInLbf);
  });
});

describe('HomeTorque, torque table', () => {
  it.each(HOME_MAIN)('%s: %d–%d N·m, %d–%d lbf·in', (key, lowNm, highNm, lowInLbf, highInLbf) => {
    expect(rowOf(key)).toMatchObject({ lowNm, highNm, cite: { source: 'HomeTorque' } });
    near(lowNm, lowInLbf);
    near(highNm, highInLbf);
  });

  it('crank bolts 34–44 N·m beside 305–391 lbf·in: its low end in N·m is cut by half a unit', () => {
    const { lowNm, highNm } = rowOf('crank-bolt-taper');
    expect(rowOf('crank-bolt-taper')).toMatchObject({ lowNm: 34, highNm: 44, cite: { source: 'HomeTorque' } });
    expect([Math.floor(305 * 0.1129848), Math.floor(391 * 0.1129848)]).toEqual([lowNm, highNm]);
  });

  it('pinch screws 9.9–14.9 N·m, 88–132 lbf·in, kept beside our row', () => {
    const others = rowOf('crank-pinch-bolts').elsewhere;
    expect(others.find((each) => each.lowNm === 9.9)).toMatchObject({ highNm: 14.9, basis: 'published' });
    near(9.9, 88);
    near(14.9, 132);
  });

  it('splined single bolts lie inside our row: 38–42, 40.3–49 and 43–47 N·m', () => {
    const { lowNm, highNm } = rowOf('crank-bolt-splined');
    expect([Math.min(38, 40.3, 43), Math.max(42, 49, 47)]).toEqual([lowNm, highNm]);
  });

  it('preload cap 0.4–0.7 N·m', () => {
    expect(rowOf('crank-preload-cap')).toMatchObject({ lowNm: 0.4, highNm: 0.7, cite: { source: 'HomeTorque' } });
  });
});
