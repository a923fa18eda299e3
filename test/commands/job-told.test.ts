import { describe, expect, it } from 'vitest';
import { isTorqueUnit, meantNm, readDueDay, readTorque } from '../../src/commands/job-told.ts';

const UNSIGNED = { lowNm: null, highNm: null, ticks: [] };

/** What is recorded for a value on a row without a range. */
function nm(text: string): number | null {
  const told = readTorque(text);
  return told === null ? null : meantNm(told, UNSIGNED);
}

describe('a value set on a wrench', () => {
  it.each([
    ['13.5', 13.5],
    ['13,5', 13.5],
    ['13.5Nm', 13.5],
    ['13,5 N·m', 13.5],
    ['40 N-m', 40],
    // 119 × 0.1129848 = 13.4452
    ['119lbf·in', 13.45],
    ['119 inlb', 13.45],
    ['119 in-lbs', 13.45],
    ['119 LBF IN', 13.45],
    // 30 × 12 × 0.1129848 = 40.6745
    ['30 ft-lb', 40.67],
    ['30lbf·ft', 40.67],
  ])('%s is %f N·m', (text, expected) => {
    expect(nm(text)).toBe(expected);
  });

  it.each(['', 'tight', 'NaN', '-13', '1e3', '0x20', '13.5 mm', '12-15', '13.5.1', '99999'])('%j is none', (text) => {
    expect(nm(text)).toBeNull();
  });

  it('in lbf·in is the end of the range where it is that end as printed', () => {
    const pinch = { lowNm: 12, highNm: 15, ticks: [] };
    // 133 lbf·in is 15.027 N·m and 106 lbf·in 11.976 N·m: cards print 12–15 N·m as 106–133 lbf·in.
    expect(meantNm(readTorque('133lbf·in') ?? fail(), pinch)).toBe(15);
    expect(meantNm(readTorque('106lbf·in') ?? fail(), pinch)).toBe(12);
    // 134 lbf·in is 15.140 N·m, and more than half an lbf·in (0.056 N·m) beyond.
    expect(meantNm(readTorque('134lbf·in') ?? fail(), pinch)).toBe(15.14);
    // Half a digit is smaller when a decimal was told: 133.0 lbf·in is 15.027 N·m, 0.0056 N·m would be forgiven.
    expect(meantNm(readTorque('133.0lbf·in') ?? fail(), pinch)).toBe(15.03);
    expect(meantNm(readTorque('15.03') ?? fail(), pinch)).toBe(15.03);
  });

  it('in lbf·in is what the first person set where it rounds to the same', () => {
    // 13.5 N·m is 119.49 lbf·in.
    const signed = { lowNm: 12, highNm: 15, ticks: [{ setNm: 13.5 }] };
    expect(meantNm(readTorque('119lbf·in') ?? fail(), signed)).toBe(13.5);
    expect(meantNm(readTorque('121lbf·in') ?? fail(), signed)).toBe(13.67);
  });
});

function fail(): never {
  throw new Error('not read');
}

describe('a unit that got parted from its value', () => {
  it('is no wrench', () => {
    expect(['N·m', 'lbf·in', 'Nm', 'ft-lb'].map(isTorqueUnit)).toEqual([true, true, true, true]);
    expect(['A1', '', 'bench wrench', '7'].map(isTorqueUnit)).toEqual([false, false, false, false]);
  });
});

describe('a calibration date', () => {
  it('lasts to the end of its day', () => {
    expect(readDueDay('2027-03-01')).toBe(Date.UTC(2027, 2, 2) - 1);
    expect(readDueDay('2028-02-29')).toBe(Date.UTC(2028, 2, 1) - 1);
  });

  it.each(['', '2027-02-29', '2027-13-01', '2027-3-1', '01.03.2027', 'tomorrow', '0000-00-00', '9999-99-99'])(
    '%j is none',
    (text) => {
      expect(readDueDay(text)).toBeNull();
    },
  );
});
