import { describe, expect, it } from 'vitest';
import { objections } from '../../src/solve/objections.ts';

const NOTHING_TOLD = {
  mount: null,
  midDrive: false,
  sprocketCount: null,
  hilly: false,
  tandem: false,
  maxRingTeeth: null,
  smallestRingTeeth: null,
  beadSeatMm: null,
};

describe('objections', () => {
  it('raises none from what is not known', () => {
    expect(objections(NOTHING_TOLD)).toEqual([]);
  });

  it('leaves the rings at a motor to its maker', () => {
    expect(objections({ ...NOTHING_TOLD, midDrive: true })).toEqual(['drive-unit']);
  });

  it('puts riveted rings first', () => {
    expect(objections({ ...NOTHING_TOLD, mount: 'riveted', beadSeatMm: 349 })).toEqual(['riveted', 'small-wheel']);
  });

  it('minds nine sprockets in hills, not ten, and not on the flat', () => {
    expect(objections({ ...NOTHING_TOLD, sprocketCount: 9, hilly: true })).toEqual(['few-sprockets-in-hills']);
    expect(objections({ ...NOTHING_TOLD, sprocketCount: 10, hilly: true })).toEqual([]);
    expect(objections({ ...NOTHING_TOLD, sprocketCount: 9 })).toEqual([]);
  });

  it('minds hills on a tandem until more sprockets or no hills are told', () => {
    const tandem = { ...NOTHING_TOLD, tandem: true };
    expect(objections({ ...tandem, hilly: true })).toEqual(['few-sprockets-in-hills']);
    expect(objections({ ...tandem, hilly: null, sprocketCount: 9 })).toEqual(['few-sprockets-in-hills']);
    expect(objections({ ...tandem, hilly: true, sprocketCount: 10 })).toEqual([]);
    expect(objections({ ...tandem, hilly: false, sprocketCount: 9 })).toEqual([]);
    expect(objections({ ...NOTHING_TOLD, hilly: null, sprocketCount: 9 })).toEqual([]);
  });

  it('minds a frame that takes less than the crank asks for', () => {
    expect(objections({ ...NOTHING_TOLD, maxRingTeeth: 30, smallestRingTeeth: 32 })).toEqual(['no-room']);
    expect(objections({ ...NOTHING_TOLD, maxRingTeeth: 32, smallestRingTeeth: 32 })).toEqual([]);
  });

  it('minds wheels up to the larger 16 in bead seat', () => {
    expect(objections({ ...NOTHING_TOLD, beadSeatMm: 349 })).toEqual(['small-wheel']);
    expect(objections({ ...NOTHING_TOLD, beadSeatMm: 406 })).toEqual([]);
  });
});
