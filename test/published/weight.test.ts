import { describe, expect, it } from 'vitest';
import { chainMass, newRingMass, ringMass, weightSaved } from '../../src/solve/weight.ts';
import { PART_MASSES, REPORTED_SAVINGS } from '../../src/tables/masses.ts';

/** A mountain double of the time, its sizes a bracket around what the page leaves unsaid. */
const DOUBLE = {
  oldRings: [36, 22],
  ringTeeth: 32,
  direct: false,
  ringBolts: true,
  sharingRings: null,
  separateShifter: true,
  chainRemovedPitches: null,
  speeds: 10,
};

describe('HomeMechanic2013, parts on the scale', () => {
  it('163 + 71 + 165 − 41 = 358 g', () => {
    expect(REPORTED_SAVINGS.weighed.lowG).toBe(163 + 71 + 165 - 41);
  });

  it('358 g lie between the least and the most of such a conversion', () => {
    const { savedLowG, savedHighG } = weightSaved(DOUBLE);
    expect(savedLowG).toBeLessThan(358);
    expect(savedHighG).toBeGreaterThan(358);
  });

  it('the front derailleur of 163 g lies in its range', () => {
    expect(PART_MASSES.frontDerailleur.lowG).toBeLessThan(163);
    expect(PART_MASSES.frontDerailleur.highG).toBeGreaterThan(163);
  });

  it('the shifter with cable and housing of 165 g lies in the sum of their ranges', () => {
    expect(PART_MASSES.shifterPod.lowG + PART_MASSES.cableAndHousing.lowG).toBeLessThan(165);
    expect(PART_MASSES.shifterPod.highG + PART_MASSES.cableAndHousing.highG).toBeGreaterThan(165);
  });
});

describe('ShopCatalogue, makers’ texts', () => {
  it.each([128, 140, 178, 188])('a front derailleur of %d g lies in the range', (grams) => {
    expect(PART_MASSES.frontDerailleur.lowG).toBeLessThan(grams);
    expect(PART_MASSES.frontDerailleur.highG).toBeGreaterThan(grams);
  });

  it.each([
    [42, 95],
    [44, 107],
    [46, 118],
    [48, 134],
    [50, 149],
  ])('a single ring of %d teeth weighs at most %d g', (teeth, grams) => {
    expect(ringMass(teeth).highG).toBe(grams);
  });

  it.each([
    [10, 2.24, 2.43],
    [11, 2.09, 2.25],
    [12, 2.16, 2.16],
    [null, 2.1, 2.6],
  ])('100 pitches for %s sprockets weigh a hundred times %d to %d g', (speeds, lowG, highG) => {
    const mass = chainMass(100, speeds);
    expect(mass.lowG).toBeCloseTo(100 * lowG, 6);
    expect(mass.highG).toBeCloseTo(100 * highG, 6);
    expect(mass.basis).toBe('published');
  });
});

describe('CrankChart, direct-mount ring', () => {
  it('30 teeth weigh about 61 g', () => {
    expect(newRingMass(30, true).typicalG).toBe(61);
  });
});

describe('Blog2021, 300–600 g typical', () => {
  it('the typical sum lies in it', () => {
    expect(weightSaved(DOUBLE).savedTypicalG).toBeGreaterThan(300);
    expect(weightSaved(DOUBLE).savedTypicalG).toBeLessThan(600);
  });
});

describe('CycleChat, 712 g', () => {
  it('lies above anything this sum can reach: most of it is a lighter crankset', () => {
    expect(weightSaved({ ...DOUBLE, oldRings: [44, 32, 22] }).savedHighG).toBeLessThan(712);
  });
});

describe('Common practice', () => {
  it('front mech, lever pod, cable, two rings and bolts of a mountain double weigh about 443 g together', () => {
    const { removed } = weightSaved(DOUBLE);
    expect(removed.reduce((sum, part) => sum + part.lowG, 0)).toBeLessThan(443);
    expect(removed.reduce((sum, part) => sum + part.highG, 0)).toBeGreaterThan(443);
  });
});
