import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  boltCirclesFromGap,
  holeSpacingMm,
  innerCirclesMm,
  otherGapMm,
  outerCirclesMm,
} from '../../src/solve/bolt-circle.ts';
import { crankCircle } from '../../src/solve/crank-circle.ts';
import { usualCircles } from '../../src/solve/usual-circles.ts';
import { BOLT_CIRCLES } from '../../src/tables/bolt-circles.ts';

const nothing = {
  bcdMm: null,
  innerMm: null,
  bolts: null,
  gapsMm: [],
  pattern: null,
  largestRingTeeth: null,
  outerLeastTeeth: null,
};

describe('a measured gap', () => {
  // 102 · sin 45° = 72.12, 104 · sin 45° = 73.54: 72.5 is 0.38 from the first and 1.04 from the second.
  it('of 72.5 mm on four holes is 102 and not 104', () => {
    const reading = boltCirclesFromGap({ gapsMm: [72.5], bolts: 4 });
    expect(reading).toMatchObject({ kind: 'found', near: true, circles: [{ bcdMm: 102, bolts: 4 }] });
  });

  it('of 73.5 mm on four holes is 104', () => {
    const reading = boltCirclesFromGap({ gapsMm: [73.5], bolts: 4 });
    expect(reading).toMatchObject({ kind: 'found', near: false, circles: [{ bcdMm: 104, bolts: 4 }] });
  });

  // Half-way: (72.12 + 73.54)/2 = 72.83, and (54.08 + 55.25)/2 = 54.67.
  it.each([
    [72.83, 4, [102, 104]],
    [54.67, 5, [92, 94]],
  ])('of %f mm half-way between two circles names both', (gapMm, bolts, both) => {
    const reading = boltCirclesFromGap({ gapsMm: [gapMm], bolts });
    const found = reading.kind === 'found' ? reading.circles.map((each) => each.bcdMm).sort((a, b) => a - b) : [];
    expect(found).toEqual(both);
  });

  // 50 / sin 45° = 70.71, and the nearest listed are 68 and 76.
  it('that no circle has is computed and named as such', () => {
    const reading = boltCirclesFromGap({ gapsMm: [50], bolts: 4 });
    expect(reading).toMatchObject({ kind: 'cannot', reason: 'no-listed-circle' });
    if (reading.kind === 'cannot' && reading.reason === 'no-listed-circle') {
      expect(reading.computed).toHaveLength(1);
      expect(reading.computed[0]?.bcdMm).toBeCloseTo(70.71, 2);
    }
  });

  it('twice with more than 0.6 mm between them is an uneven pattern', () => {
    expect(boltCirclesFromGap({ gapsMm: [73.2, 73.8], bolts: 4 }).kind).toBe('found');
    expect(boltCirclesFromGap({ gapsMm: [73.2, 73.9], bolts: 4 })).toMatchObject({ reason: 'uneven-pattern' });
  });

  // 70² + 77² = 10829 = 104.06².
  it('twice on an uneven pattern names the label by its opposite holes', () => {
    const reading = boltCirclesFromGap({ gapsMm: [70, 77], bolts: null });
    expect(reading).toMatchObject({ reason: 'uneven-pattern', circles: [{ bcdMm: 104, bolts: 4 }] });
  });

  it('within 0.3 mm of a listed circle always names that circle', () => {
    const rows = fc.constantFrom(...BOLT_CIRCLES);
    fc.assert(
      fc.property(rows, fc.double({ min: -0.299, max: 0.299, noNaN: true }), fc.boolean(), (row, error, counted) => {
        const gapMm = holeSpacingMm(row.bcdMm, row.bolts) + error;
        const reading = boltCirclesFromGap({ gapsMm: [gapMm], bolts: counted ? row.bolts : null });
        expect(reading.kind).toBe('found');
        if (reading.kind === 'found') expect(reading.circles).toContainEqual({ bcdMm: row.bcdMm, bolts: row.bolts });
      }),
    );
  });
});

describe('the circle of a crank', () => {
  it('with its bolts uncounted takes the only listed count', () => {
    expect(crankCircle({ ...nothing, bcdMm: 104 })).toMatchObject({ bcdMm: 104, bolts: 4, boltsFrom: 'listed' });
  });

  it('leaves the bolts open where two counts are listed', () => {
    const circle = crankCircle({ ...nothing, bcdMm: 110 });
    expect(circle).toMatchObject({ kind: 'found', bolts: null, boltsFrom: null });
    expect(circle.circles).toHaveLength(2);
  });

  it('takes the bolts from the gap', () => {
    expect(crankCircle({ ...nothing, bcdMm: 110, gapsMm: [64.7] })).toMatchObject({ bolts: 5, boltsFrom: 'gap' });
    expect(crankCircle({ ...nothing, gapsMm: [73.5] })).toMatchObject({ bcdMm: 104, bolts: 4, from: 'gap' });
  });

  // 50 / sin 36° = 85.06: 0.55 mm in spacing from the listed 86, and nobody counted the bolts.
  it('is not taken from a near miss while the bolts are uncounted', () => {
    expect(crankCircle({ ...nothing, gapsMm: [50] })).toMatchObject({ reason: 'several', circles: [{ bcdMm: 86 }] });
    expect(crankCircle({ ...nothing, bolts: 5, gapsMm: [50] })).toMatchObject({ bcdMm: 86, near: true });
  });

  it('does not choose between a told circle and a gap that disagree', () => {
    const circle = crankCircle({ ...nothing, bcdMm: 104, bolts: 4, gapsMm: [67.9] });
    expect(circle).toMatchObject({ kind: 'cannot', reason: 'told-and-gap-disagree' });
    expect(circle.circles).toEqual([
      { bcdMm: 104, bolts: 4 },
      { bcdMm: 96, bolts: 4 },
    ]);
  });

  it('keeps the label of an uneven pattern whose opposite holes agree, and says so', () => {
    expect(crankCircle({ ...nothing, bcdMm: 104, gapsMm: [70, 77] })).toMatchObject({ kind: 'found', uneven: true });
    expect(crankCircle({ ...nothing, bcdMm: 96, gapsMm: [70, 77] })).toMatchObject({ reason: 'uneven-pattern' });
  });

  const uneven = { ...nothing, pattern: 'uneven' as const };

  it('with uneven holes is not taken from one gap, which would be one of two', () => {
    // Evenly spaced on four holes 73.5 mm are 104 mm; unevenly they are nothing.
    expect(crankCircle({ ...nothing, bolts: 4, gapsMm: [73.5] })).toMatchObject({ kind: 'found', bcdMm: 104 });
    for (const gapsMm of [[], [73.5], [73.5, 73.5]]) {
      const circle = crankCircle({ ...uneven, bolts: 4, gapsMm });
      expect(circle).toEqual({ kind: 'cannot', reason: 'uneven-label-unknown', circles: [], computed: [] });
    }
  });

  it('with uneven holes is what is told of it, one gap or none, on four arms where nobody counted', () => {
    expect(crankCircle({ ...uneven, bcdMm: 110 })).toMatchObject({ uneven: true, bolts: 4, boltsFrom: 'pattern' });
    expect(crankCircle({ ...uneven, bcdMm: 104, bolts: 4, gapsMm: [70] })).toMatchObject({
      kind: 'found',
      uneven: true,
      boltsFrom: 'told',
    });
    // Two gaps speak for themselves, told or not.
    expect(crankCircle({ ...uneven, bolts: 4, gapsMm: [70, 77] })).toMatchObject({ reason: 'uneven-pattern' });
  });

  it('may be those that go round a told inner one', () => {
    const around = (innerMm: number, bolts: number | null) =>
      crankCircle({ ...nothing, innerMm, bolts }).circles.map((each) => each.bcdMm);
    expect(around(64, null)).toEqual([104, 96]);
    expect(around(74, 5)).toEqual([110, 130]);
    expect(around(80, 4)).toEqual([120]);
    // No pair has it inside: then it is as open as without.
    expect(around(60, 4)).toEqual(crankCircle({ ...nothing, bolts: 4 }).circles.map((each) => each.bcdMm));
  });

  // √(104² − 70²) = √5916 = 76.92; both ends of the range give back a right angle.
  it('and one gap of four give the other, whichever of the two is measured', () => {
    expect(otherGapMm(104, 70)).toBeCloseTo(76.92, 2);
    fc.assert(
      fc.property(
        fc.constantFrom(...BOLT_CIRCLES),
        fc.double({ min: 0.05, max: 0.95, noNaN: true }),
        ({ bcdMm }, share) => {
          const other = otherGapMm(bcdMm, share * bcdMm) ?? 0;
          expect(otherGapMm(bcdMm, other)).toBeCloseTo(share * bcdMm, 6);
          expect(Math.hypot(other, share * bcdMm)).toBeCloseTo(bcdMm, 6);
        },
      ),
    );
    expect(otherGapMm(104, 110)).toBeNull();
  });

  it('unmeasured may be any usual one that carries the largest ring of today', () => {
    const names = (teeth: number, bolts: number | null) =>
      usualCircles({ largestRingTeeth: teeth, outerLeastTeeth: null, bolts }).map((each) => each.bcdMm);
    expect(names(53, 5)).toEqual([130, 110]);
    expect(names(36, 4)).toEqual([120, 110, 104, 96]);
    expect(names(34, 5)).not.toContain(130);
  });

  it('of a triple carries its middle ring too', () => {
    // 120 and 110 on four bolts take 36T and 34T at least, so a 44/32/22 has neither.
    expect(usualCircles({ largestRingTeeth: 44, outerLeastTeeth: 32, bolts: 4 })).toEqual([{ bcdMm: 104, bolts: 4 }]);
  });

  it('told as a figure that only a gap has is taken for no circle', () => {
    // 110 · sin 36° = 64.66: five bolts 64.7 mm apart.
    expect(crankCircle({ ...nothing, bcdMm: 64.7, bolts: 5 })).toMatchObject({
      reason: 'told-is-a-gap',
      circles: [{ bcdMm: 110, bolts: 5 }],
    });
    expect(crankCircle({ ...nothing, bcdMm: 64, bolts: 4 })).toMatchObject({ kind: 'found', bcdMm: 64 });
  });

  it('knows the pairs of circles on one crank', () => {
    expect(outerCirclesMm({ bcdMm: 64, bolts: 4 })).toEqual([104, 96]);
    expect(innerCirclesMm({ bcdMm: 130, bolts: 5 })).toEqual([74]);
    expect(outerCirclesMm({ bcdMm: 104, bolts: 4 })).toEqual([]);
  });
});
