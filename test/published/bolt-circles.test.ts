import { describe, expect, it } from 'vitest';
import {
  boltCirclesFromGap,
  circleOfSpacingMm,
  holeSpacingMm,
  listedBolts,
  nextButOneSpacingMm,
} from '../../src/solve/bolt-circle.ts';
import { boltMarginMm, headReachMm, ringSeat, smallestRing } from '../../src/solve/smallest-ring.ts';
import { BOLT_CIRCLES, UNEVEN_PATTERNS } from '../../src/tables/bolt-circles.ts';

const HALF_DIGIT = 0.05;

/** Brown and Allen, bolt-circle crib sheet, as printed: bolts, circle, smallest ring, neighbours, next but one. */
// biome-ignore format: aligned columns read as a table
const CRIB: readonly [number, number, number | null, number, number | null][] = [
  //   [mm] [T]   [mm]   [mm]
  [5, 151, 44,   88.8,  143.6],
  [5, 144, 41,   84.6,  137.0],
  [5, 135, 39,   79.4,  128.4],
  [5, 130, 38,   76.4,  123.6],
  [5, 128, 38,   75.2,  121.7],
  [5, 122, 38,   71.7,  116.0],
  [5, 118, 36,   69.4,  112.2],
  [5, 116, 35,   68.2,  null],
  [5, 110, 34,   64.7,  104.6],
  [5, 94,  29,   55.4,  89.4],
  [5, 86,  28,   50.5,  null],
  [5, 74,  24,   43.5,  null],
  [5, 58,  20,   34.3,  null],
  [5, 56,  20,   32.9,  null],
  [4, 146, 44,   103.2, null],
  [4, 120, null, 84.9,  null],
  [4, 112, 34,   79.2,  null],
  [4, 104, 32,   73.6,  null],
  [4, 102, null, 72.1,  null],
  [4, 88,  null, 62.2,  null],
  [4, 80,  null, 56.6,  null],
  [4, 68,  22,   48.1,  null],
  [4, 64,  22,   45.3,  null],
  [3, 86,  null, 74.5,  null],
];

/** Rows whose printed spacing is farther from geometry than half a digit, by how much, all still within a tape's reach. */
const LOOSE: Readonly<Record<number, number>> = { 104: 0.07, 94: 0.16, 58: 0.22 };

describe('Brown and Allen, bolt-circle crib sheet', () => {
  it('has 24 rows here', () => expect(CRIB).toHaveLength(24));

  it.each(CRIB)('%i holes on %i mm: smallest %s, spacing %f', (bolts, bcdMm, smallest, spacingMm, nextMm) => {
    const within = LOOSE[bcdMm] ?? HALF_DIGIT;
    expect(Math.abs(holeSpacingMm(bcdMm, bolts) - spacingMm)).toBeLessThanOrEqual(within);
    if (nextMm !== null) expect(Math.abs(nextButOneSpacingMm(bcdMm, bolts) - nextMm)).toBeLessThanOrEqual(HALF_DIGIT);
    expect(listedBolts(bcdMm)).toContain(bolts);
    if (smallest !== null) expect(smallestRing({ bcdMm, bolts })).toMatchObject({ teeth: smallest, from: 'table' });
  });

  it.each(CRIB)('%i holes on %i mm are read back from the printed spacing', (bolts, bcdMm, _smallest, spacingMm) => {
    const reading = boltCirclesFromGap({ gapsMm: [spacingMm], bolts });
    expect(reading).toMatchObject({ kind: 'found', near: false });
    if (reading.kind === 'found') expect(reading.circles).toContainEqual({ bcdMm, bolts });
  });

  // 92 · sin 36° = 54.08; the sheet prints 53.3, which would be a circle of 90.7 mm.
  it('misprints the spacing of 92 mm as 53.3', () => {
    expect(holeSpacingMm(92, 5)).toBeCloseTo(54.08, 2);
    expect(Math.abs(holeSpacingMm(92, 5) - 53.3)).toBeGreaterThan(0.7);
  });

  it.each([
    [3, 1.1547],
    // biome-ignore lint/suspicious/noApproximativeNumericConstant: the figure as printed
    [4, 1.4142],
    [5, 1.7013],
    [6, 2.0],
  ])('prints the factor for %i holes as %f', (bolts, factor) => {
    expect(Math.abs(circleOfSpacingMm(1, bolts) - factor)).toBeLessThanOrEqual(0.00005);
  });

  // The geometry rule is asked for a circle a hair wider, which the table does not list.
  it('prints smallest rings that geometry gives to one tooth, and to two on 122 and 146', () => {
    const printed = CRIB.filter((row) => row[2] !== null);
    expect(printed).toHaveLength(19);
    for (const [bolts, bcdMm, smallest] of printed) {
      const byGeometry = smallestRing({ bcdMm: bcdMm + 1e-6, bolts });
      expect(byGeometry.from).toBe('geometry');
      const within = bcdMm === 122 || bcdMm === 146 ? 2 : 1;
      expect(Math.abs(byGeometry.teeth - (smallest ?? 0)), `${bcdMm}`).toBeLessThanOrEqual(within);
    }
  });

  it('names uneven patterns under 96, 104 and 110 mm', () => {
    expect(UNEVEN_PATTERNS.map((row) => row.bcdMm)).toEqual([96, 104, 110]);
  });
});

describe('a bicycle maker on its cranks: smallest rings', () => {
  it.each([
    [144, 41],
    [130, 38],
    [110, 34],
    [74, 24],
    [58, 20],
  ])('%i mm takes %iT', (bcdMm, teeth) => {
    expect(smallestRing({ bcdMm, bolts: 5 }).teeth).toBe(teeth);
  });

  // CranksPage prints 96:28. Geometry leaves 105.67 − 96 = 9.7 mm, so here that is a special ring, not an ordinary one.
  it('takes 28T on 96 mm, here only as a special ring', () => {
    const circle = { bcdMm: 96, bolts: 4 };
    expect(ringSeat(28, 96, smallestRing(circle).teeth)).toBe('special');
  });
});

describe('a magazine on 36 teeth on a 130 circle', () => {
  it('measures 137 mm from valley to valley', () => {
    // Printed in whole millimetres, cut rather than rounded: geometry gives 137.97.
    expect(Math.abs(boltMarginMm(36, 0) - 137)).toBeLessThan(1);
  });

  it('reaches 141 mm over the bolt heads, so 36T cannot be and 38T is the least', () => {
    expect(headReachMm(130)).toBe(141);
    expect(ringSeat(36, 130, 38)).toBe('impossible');
    expect(smallestRing({ bcdMm: 130, bolts: 5 }).evenTeeth).toBe(38);
  });
});

describe('a home mechanic on 30 teeth on 104', () => {
  it('needs a special ring', () => {
    expect(smallestRing({ bcdMm: 104, bolts: 4 }).specialEvenTeeth).toBe(30);
  });
});

it('lists no circle twice', () => {
  const names = BOLT_CIRCLES.map((row) => `${row.bolts}/${row.bcdMm}`);
  expect(new Set(names).size).toBe(names.length);
});
