import { describe, expect, it } from 'vitest';
import { cageCapacity, capacityNeeded, derailleurVerdict } from '../../src/solve/derailleur.ts';

describe('capacity examples in print', () => {
  it.each([
    [[42, 32, 22], 12, 34, 42],
    [[44, 32, 22], 11, 32, 43],
    [[52, 30], 11, 34, 45],
    [[52, 39, 30], 11, 27, 38],
    [[50, 34], 12, 25, 29],
    [[32], 10, 52, 42],
  ])('%j with %i-%i needs %i', (rings, smallest, largest, needed) => {
    expect(capacityNeeded(rings, smallest, largest)).toBe(needed);
  });
});

describe('a table of the 8 to 10-speed era, largest sprocket and capacity by cage', () => {
  it.each([
    ['short', 32],
    ['short', 29],
    ['medium', 37],
    ['medium', 33],
    ['long', 45],
  ] as const)('%s: %i lies inside the typical range', (cage, capacity) => {
    const { lowTeeth, highTeeth } = cageCapacity(cage);
    expect(capacity).toBeGreaterThanOrEqual(lowTeeth);
    expect(capacity).toBeLessThanOrEqual(highTeeth);
  });
});

describe('a crank maker on one 12-speed derailleur: largest sprocket 51 at most, 51 at least', () => {
  const limits = { capacityTeeth: null, maxSprocketTeeth: 51, minSprocketTeeth: 51, cage: null };
  it.each([
    [50, false],
    [51, true],
    [52, false],
  ])('%iT: %s', (largestTeeth, fits) => {
    expect(derailleurVerdict({ smallestTeeth: 10, largestTeeth }, limits).largestFits).toBe(fits);
  });
});
