import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { outsideDiameterMm, pitchDiameterMm, rootDiameterMm } from '../../src/solve/sprocket-diameters.ts';

const teeth = fc.integer({ min: 9, max: 70 });

describe('the diameters of a sprocket', () => {
  it('are those of a hexagon where there are six teeth', () => {
    // A hexagon's corners lie one side from its middle: 2 × 12.7. cot 30° = √3.
    expect(pitchDiameterMm(6)).toBeCloseTo(25.4, 10);
    expect(outsideDiameterMm(6)).toBeCloseTo(12.7 * (0.6 + Math.sqrt(3)), 10);
  });

  it('lie inside one another', () => {
    fc.assert(
      fc.property(teeth, (n) => {
        expect(rootDiameterMm(n)).toBeLessThan(pitchDiameterMm(n));
        expect(pitchDiameterMm(n)).toBeLessThan(outsideDiameterMm(n));
      }),
    );
  });

  it('grow with every tooth by about 12.7/π', () => {
    fc.assert(
      fc.property(teeth, (n) => {
        const step = pitchDiameterMm(n + 1) - pitchDiameterMm(n);
        // The polygon's corners stand out less and less: 4.04 mm a tooth in the limit, a little less below.
        expect(step).toBeGreaterThan(3.9);
        expect(step).toBeLessThan(12.7 / Math.PI);
      }),
    );
  });

  it('leave one roller between pitch circle and valleys', () => {
    // 105.362 − 7.75 = 97.612: the 26T ring that cannot go on a 104 mm circle
    expect(rootDiameterMm(26)).toBeCloseTo(97.612, 3);
  });

  it('show why the circumference N·p/π will not do: 1.4 % short at 11 teeth, 0.13 % at 36', () => {
    const shortBy = (n: number) => 1 - (n * 12.7) / Math.PI / pitchDiameterMm(n);
    expect(shortBy(11)).toBeCloseTo(0.0135, 3);
    expect(shortBy(36)).toBeCloseTo(0.0013, 4);
  });
});
