import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { wrenchFactor } from '../../src/solve/wrench-extension.ts';

const length = fc.double({ min: 80, max: 1000, noNaN: true });

function factor(wrenchMm: number, extensionMm: number, angleDeg: number): number {
  const found = wrenchFactor({ wrenchMm, extensionMm, angleDeg });
  if (found.kind === 'cannot') throw new Error(found.reason);
  return found.factor;
}

describe('wrenchFactor', () => {
  it('is 1 without an extension, at any angle', () => {
    fc.assert(
      fc.property(length, fc.double({ min: 0, max: 180, noNaN: true }), (wrenchMm, angleDeg) => {
        expect(factor(wrenchMm, 0, angleDeg)).toBe(1);
      }),
    );
  });

  it('is 1 at a right angle: cos 90° = 0', () => {
    expect(factor(300, 40, 90)).toBeCloseTo(1, 12);
  });

  it('is 300/(300 + 40) = 0.88235 in line and 300/(300 − 40) = 1.15385 folded back', () => {
    expect(factor(300, 40, 0)).toBeCloseTo(0.88235, 5);
    expect(factor(300, 40, 180)).toBeCloseTo(1.15385, 5);
  });

  it('gives back the torque: setting · (L + E·cosφ)/L', () => {
    fc.assert(
      fc.property(
        length,
        fc.double({ min: 0, max: 79, noNaN: true }),
        fc.integer({ min: 0, max: 180 }),
        (l, e, deg) => {
          const atBolt = (10 * factor(l, e, deg) * (l + e * Math.cos((deg * Math.PI) / 180))) / l;
          expect(atBolt).toBeCloseTo(10, 9);
        },
      ),
    );
  });

  it('cannot say where no lever is left', () => {
    expect(wrenchFactor({ wrenchMm: 300, extensionMm: 300, angleDeg: 180 }).kind).toBe('cannot');
    expect(wrenchFactor({ wrenchMm: 100, extensionMm: 400, angleDeg: 120 }).kind).toBe('cannot');
  });
});
