import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { capacityNeeded, derailleurVerdict } from '../../src/solve/derailleur.ts';

const open = { capacityTeeth: null, maxSprocketTeeth: null, minSprocketTeeth: null, cage: null };
const wide = { smallestTeeth: 11, largestTeeth: 46 };

describe('a rear derailleur behind one ring', () => {
  it('that nobody told of is not judged', () => {
    expect(derailleurVerdict(wide, open)).toEqual({ needed: 35, capacityFits: null, largestFits: null, problems: [] });
  });

  // 11-46: 46 > 36, and 46 − 11 = 35 > 32, the most a short cage typically has.
  it('with 36 at most and a short cage fails 11-46 twice', () => {
    const verdict = derailleurVerdict(wide, { ...open, maxSprocketTeeth: 36, cage: 'short' });
    expect(verdict).toMatchObject({ needed: 35, capacityFits: false, largestFits: false });
    expect(verdict.problems.map((each) => each.kind)).toEqual(['largest-over', 'cage-over']);
  });

  // Long: 36 to 45. 35 is under all of it, 41 inside, 46 over all of it.
  it.each([
    [46, true],
    [52, null],
    [57, false],
  ])('with a long cage and 11-%i is judged only where the whole range agrees', (largestTeeth, fits) => {
    expect(derailleurVerdict({ smallestTeeth: 11, largestTeeth }, { ...open, cage: 'long' }).capacityFits).toBe(fits);
  });

  it('goes by the stated capacity before the word for the cage', () => {
    const verdict = derailleurVerdict(wide, { ...open, capacityTeeth: 35, cage: 'short' });
    expect(verdict).toMatchObject({ capacityFits: true, problems: [] });
  });

  it('with only a least largest sprocket told is not passed', () => {
    expect(derailleurVerdict(wide, { ...open, minSprocketTeeth: 40 }).largestFits).toBeNull();
    expect(derailleurVerdict(wide, { ...open, minSprocketTeeth: 50 }).largestFits).toBe(false);
  });

  it('never has more to take up than with the rings of before', () => {
    const teeth = fc.integer({ min: 18, max: 60 });
    fc.assert(
      fc.property(fc.array(teeth, { minLength: 1, maxLength: 3 }), (rings) => {
        expect(capacityNeeded(rings, 11, 36)).toBeGreaterThanOrEqual(25);
        expect(capacityNeeded([...rings].reverse(), 11, 36)).toBe(capacityNeeded(rings, 11, 36));
      }),
    );
  });
});
