import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { chainAngleDeg, hubLines, lineVerdict, sprocketLinesMm, sprocketSpacing } from '../../src/solve/chainline.ts';

describe('the angle of the chain', () => {
  // atan(21.75/410) = 3.037°, atan(10/410) = 1.397°, atan(25/410) = 3.489°, atan(3/462) = 0.372°.
  it.each([
    [21.75, 410, 3.04],
    [10, 410, 1.4],
    [25, 410, 3.49],
    [3, 462, 0.37],
  ])('%f mm over %i mm is %f°', (offsetMm, stayMm, deg) => {
    expect(Math.abs(chainAngleDeg(offsetMm, stayMm) - deg)).toBeLessThanOrEqual(0.005);
    expect(chainAngleDeg(-offsetMm, stayMm)).toBe(chainAngleDeg(offsetMm, stayMm));
  });

  it('shrinks with longer stays and grows with the offset', () => {
    const offset = fc.double({ min: 0.1, max: 60, noNaN: true });
    const stay = fc.double({ min: 300, max: 800, noNaN: true });
    fc.assert(
      fc.property(offset, stay, (offsetMm, stayMm) => {
        expect(chainAngleDeg(offsetMm, stayMm + 1)).toBeLessThan(chainAngleDeg(offsetMm, stayMm));
        expect(chainAngleDeg(offsetMm + 1, stayMm)).toBeGreaterThan(chainAngleDeg(offsetMm, stayMm));
      }),
    );
  });
});

describe('the lines of the sprockets', () => {
  it('lie around the middle for every count', () => {
    for (let speeds = 5; speeds <= 13; speeds += 1) {
      const spacing = sprocketSpacing(speeds);
      const lines = sprocketLinesMm(43, speeds, spacing?.spacingMm ?? 0);
      expect(lines).toHaveLength(speeds);
      expect(lines.reduce((sum, line) => sum + line, 0) / speeds).toBeCloseTo(43, 9);
      expect((lines[0] ?? 0) - (lines[speeds - 1] ?? 0)).toBeLessThan(spacing?.stackMm ?? 0);
    }
  });

  it('are not made up for a count or a hub that is not in a table', () => {
    expect(sprocketSpacing(4)).toBeNull();
    expect(sprocketSpacing(14)).toBeNull();
    expect(hubLines(126)).toBeNull();
  });
});

describe('the verdict on a chainline', () => {
  it.each([
    ['straight and flat', 1, 2.4, 'good'],
    ['straight, with a wide cassette', 2, 3.0, 'good'],
    ['inside, and flat', 5, 2.5, 'good'],
    ['inside, less flat', 5, 2.6, 'acceptable'],
    ['the usual 49 on 142', 6, 3.1, 'acceptable'],
    ['past the comfort limit', 1, 3.6, 'poor'],
  ])('%s', (_name, offsetMm, worstDeg, verdict) => {
    expect(lineVerdict({ offsetMm, worstDeg, onMadeLine: true })).toBe(verdict);
  });

  it('without an angle accepts a line the hub is made for', () => {
    expect(lineVerdict({ offsetMm: 6, worstDeg: null, onMadeLine: true })).toBe('acceptable');
    expect(lineVerdict({ offsetMm: 6, worstDeg: null, onMadeLine: false })).toBe('poor');
  });
});
