import { describe, expect, it } from 'vitest';
import { boltStack, ringsSharing, threadEngagement } from '../../src/solve/ring-bolts.ts';

const on = (bcdMm: number, bolts: number) => ({ bcdMm, bolts });
const unsaid = { sharingRings: null, isInner: false };

describe('rings that share the bolts (common practice)', () => {
  it.each([
    ['a double whose small ring has its own circle', [36, 22], on(104, 4), 1],
    ['a mountain triple', [44, 32, 22], on(104, 4), 2],
    ['a road double', [50, 34], on(110, 5), 2],
    ['a road triple', [52, 39, 30], on(130, 5), 2],
  ])('%s', (_name, rings, circle, shared) => {
    expect(ringsSharing({ ...unsaid, rings, circle })).toEqual({ kind: 'found', rings: shared, from: 'geometry' });
  });

  it('are as told before anything else', () => {
    const told = ringsSharing({ sharingRings: 2, isInner: false, rings: [36, 22], circle: on(104, 4) });
    expect(told).toEqual({ kind: 'found', rings: 2, from: 'told' });
  });

  it('cannot be more than are fitted', () => {
    const told = ringsSharing({ sharingRings: 3, isInner: false, rings: [36, 22], circle: null });
    expect(told).toEqual({ kind: 'cannot', reason: 'more-than-fitted' });
  });

  it('are one where one ring is fitted', () => {
    expect(ringsSharing({ ...unsaid, rings: [32], circle: null })).toMatchObject({ rings: 1, from: 'one-ring' });
  });

  // 30T on 104: a margin of 9.7 mm, a special ring or one with a circle of its own.
  it('are not guessed without a circle, on an inner one, or with a ring that may sit either way', () => {
    expect(ringsSharing({ ...unsaid, rings: [36, 22], circle: null }).kind).toBe('cannot');
    expect(ringsSharing({ sharingRings: null, isInner: true, rings: [44, 32, 22], circle: on(64, 4) }).kind).toBe(
      'cannot',
    );
    expect(ringsSharing({ ...unsaid, rings: [42, 30], circle: on(104, 4) }).kind).toBe('cannot');
    expect(ringsSharing({ ...unsaid, rings: [26, 22], circle: on(104, 4) }).kind).toBe('cannot');
  });
});

describe('the stack under a ring bolt', () => {
  // 3.5 + 4 = 7.5 grip; 7.5 − 6.5 = 1.0, 7.5 − 7.2 = 0.3, 7.5 − 7.3 = 0.2.
  it.each([
    [6.5, 'holds'],
    [7.2, 'holds'],
    [7.3, 'bottoms'],
    [null, 'unknown'],
  ])('with a sleeve of %f mm in a grip of 7.5 %s', (sleeveMm, verdict) => {
    const stack = boltStack({ ringTabMm: 3.5, spiderTabMm: 4, sleeveMm, material: null });
    expect(stack).toMatchObject({ gripMm: 7.5, verdict });
  });

  // No more thread can hold than the sleeve is long: 3 mm in steel, 3.75 mm in aluminium (below).
  it.each([
    [2.9, 'steel', 'short'],
    [3, 'steel', 'holds'],
    [3.7, 'aluminium', 'short'],
    [3.75, 'aluminium', 'holds'],
    [2.9, null, 'short'],
    [3, null, 'holds'],
  ] as const)('with a sleeve of %f mm and bolts of %s is %s', (sleeveMm, material, verdict) => {
    expect(boltStack({ ringTabMm: 3.5, spiderTabMm: 4, sleeveMm, material }).verdict).toBe(verdict);
  });
});

// 4 · 0.75 = 3.0; 5 · 0.75 = 3.75; 6 · 0.75 = 4.5.
it('asks for 3 mm of thread in steel and 3.75 to 4.5 in aluminium', () => {
  expect(threadEngagement('steel')).toEqual({ lowMm: 3, highMm: 3 });
  expect(threadEngagement('aluminium')).toEqual({ lowMm: 3.75, highMm: 4.5 });
});
