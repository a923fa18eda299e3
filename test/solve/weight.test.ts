import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { newRingMass, ringMass, type WeightInput, weightSaved } from '../../src/solve/weight.ts';

const DOUBLE: WeightInput = {
  oldRings: [36, 22],
  ringTeeth: 32,
  direct: false,
  ringBolts: true,
  sharingRings: 2,
  separateShifter: true,
  chainRemovedPitches: 2,
  speeds: 10,
};

const conversion: fc.Arbitrary<WeightInput> = fc.record({
  oldRings: fc.array(fc.integer({ min: 18, max: 70 }), { minLength: 1, maxLength: 3 }),
  ringTeeth: fc.option(fc.integer({ min: 18, max: 70 })),
  direct: fc.boolean(),
  ringBolts: fc.boolean(),
  sharingRings: fc.option(fc.integer({ min: 1, max: 3 })),
  separateShifter: fc.boolean(),
  chainRemovedPitches: fc.option(fc.integer({ min: -10, max: 20 })),
  speeds: fc.option(fc.integer({ min: 5, max: 13 })),
});

describe('weightSaved', () => {
  it('adds up a double by hand', () => {
    const sum = weightSaved(DOUBLE);
    // Off, low: 120 + 100 + 35 + 45 (36T: 35 + 25·0.4) + 25 + 15 + 4.5 (2 · 2.24) = 344.5; on, high: 60 + 30 = 90
    expect(sum.savedLowG).toBe(254.5);
    // Off, high: 190 + 130 + 75 + 65 + 40 + 44 + 4.9 (2 · 2.43) = 548.9; on, low: 35 + 15 = 50
    expect(sum.savedHighG).toBe(498.9);
  });

  it('leaves the bolts at a motor out on both sides', () => {
    const sum = weightSaved({ ...DOUBLE, ringBolts: false });
    expect([...sum.removed, ...sum.added].filter((each) => each.part.endsWith('bolts'))).toEqual([]);
    // Against the double above: 344.5 − 15 of old bolts, 90 − 30 of new ones.
    expect(sum.savedLowG).toBe(269.5);
  });

  it('is the sum of its items, and low never passes typical, nor typical high', () => {
    fc.assert(
      fc.property(conversion, (input) => {
        const sum = weightSaved(input);
        const total = (parts: typeof sum.removed, end: 'lowG' | 'typicalG' | 'highG') =>
          parts.reduce((grams, part) => grams + part[end], 0);
        expect(sum.savedLowG).toBeCloseTo(total(sum.removed, 'lowG') - total(sum.added, 'highG'), 6);
        expect(sum.savedTypicalG).toBeCloseTo(total(sum.removed, 'typicalG') - total(sum.added, 'typicalG'), 6);
        expect(sum.savedHighG).toBeCloseTo(total(sum.removed, 'highG') - total(sum.added, 'lowG'), 6);
        for (const part of [...sum.removed, ...sum.added]) {
          expect(part.lowG).toBeGreaterThan(0);
          expect(part.typicalG).toBeGreaterThanOrEqual(part.lowG);
          expect(part.highG).toBeGreaterThanOrEqual(part.typicalG);
        }
      }),
    );
  });

  it('takes no front derailleur off a bike with one ring', () => {
    const parts = weightSaved({ ...DOUBLE, oldRings: [32] }).removed.map((each) => each.part);
    expect(parts).toEqual(['old-ring', 'old-bolts', 'chain']);
  });

  it('buys no bolts where the big ring stands alone on its circle', () => {
    expect(weightSaved({ ...DOUBLE, sharingRings: 1 }).added.map((each) => each.part)).toEqual(['new-ring']);
  });

  it('leaves the shifter on where it is part of the brake lever', () => {
    const parts = weightSaved({ ...DOUBLE, separateShifter: false }).removed.map((each) => each.part);
    expect(parts).not.toContain('shifter-pod');
    expect(parts).toContain('cable-and-housing');
  });

  it('counts the chain on the side it is on, and not at all while its length is open', () => {
    const sides = (chainRemovedPitches: number | null) => {
      const { removed, added } = weightSaved({ ...DOUBLE, chainRemovedPitches });
      return [removed, added].map((parts) => parts.some((each) => each.part === 'chain'));
    };
    expect(sides(2)).toEqual([true, false]);
    expect(sides(-2)).toEqual([false, true]);
    expect(sides(null)).toEqual([false, false]);
    expect(sides(0)).toEqual([false, false]);
  });
});

describe('ringMass', () => {
  it('runs in a straight line between rows: 27T is half way from 22 to 32', () => {
    // (25 + 35)/2 = 30, (40 + 45)/2 = 42.5
    expect(ringMass(27)).toMatchObject({ lowG: 30, highG: 42.5, basis: 'memory' });
  });

  it('gives each row back', () => {
    expect(ringMass(22)).toMatchObject({ lowG: 25, highG: 40 });
    expect(ringMass(32)).toMatchObject({ lowG: 35, highG: 45 });
    expect(ringMass(42)).toMatchObject({ lowG: 60, highG: 95 });
  });

  it('follows the last line beyond the table: 53T is 149 + 3 · (149 − 134)/2', () => {
    expect(ringMass(53).highG).toBe(171.5);
    // 25 − 4 · (35 − 25)/10 = 21
    expect(ringMass(18).lowG).toBe(21);
  });

  it('never weighs a bigger ring less', () => {
    for (let teeth = 18; teeth < 70; teeth += 1) {
      expect(ringMass(teeth + 1).lowG).toBeGreaterThanOrEqual(ringMass(teeth).lowG);
      expect(ringMass(teeth + 1).highG).toBeGreaterThanOrEqual(ringMass(teeth).highG);
    }
  });
});

describe('newRingMass', () => {
  it('has one range for 30 to 38 teeth and for a size still open', () => {
    expect(newRingMass(30, false)).toEqual(newRingMass(38, false));
    expect(newRingMass(null, false)).toEqual(newRingMass(34, false));
  });

  it('scales a direct-mount ring with its teeth: 61 · 36/30 = 73.2', () => {
    expect(newRingMass(36, true).typicalG).toBe(73.2);
  });
});
