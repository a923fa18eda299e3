import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { rangesMeet, type TouchedInput, torqueInLbf, touchedSteps } from '../../src/solve/torque.ts';

const NOTHING_TOLD: TouchedInput = {
  crankType: null,
  mount: null,
  boltMaterial: null,
  bar: null,
  newCassette: false,
  assist: null,
};

const certain = (input: Partial<TouchedInput>) =>
  touchedSteps({ ...NOTHING_TOLD, ...input })
    .filter((each) => each.certain)
    .map((each) => each.step);
const all = (input: Partial<TouchedInput>) => touchedSteps({ ...NOTHING_TOLD, ...input }).map((each) => each.step);

describe('touchedSteps', () => {
  it('lists every possibility as open when nothing is told', () => {
    expect(certain({})).toEqual([]);
    expect(all({})).toEqual([
      'ring-bolts-aluminium',
      'ring-bolts-steel',
      'direct-mount',
      'crank-pinch',
      'crank-taper',
      'crank-splined',
      'flat-bar',
      'drop-bar',
      'rear-derailleur',
    ]);
  });

  it('keeps exactly the step of what is told', () => {
    expect(certain({ crankType: 'pinch', mount: 'bolted', boltMaterial: 'steel', bar: 'flat' })).toEqual([
      'ring-bolts-steel',
      'crank-pinch',
      'flat-bar',
    ]);
    expect(all({ crankType: 'taper', mount: 'direct', bar: 'drop' })).toEqual([
      'direct-mount',
      'crank-taper',
      'drop-bar',
      'rear-derailleur',
    ]);
  });

  it('reads a named bolt material as bolted rings', () => {
    expect(all({ boltMaterial: 'steel' })).not.toContain('direct-mount');
  });

  it('has no ring bolts for riveted rings', () => {
    expect(all({ mount: 'riveted' }).filter((step) => step.startsWith('ring-bolts'))).toEqual([]);
  });

  it('has the lockring only with a new cassette', () => {
    expect(certain({ newCassette: true })).toContain('new-cassette');
    expect(all({})).not.toContain('new-cassette');
  });

  it('leaves every bolt of ring and crank at a motor to its maker, whatever else is told', () => {
    const ordinary = all({}).filter((step) => step.startsWith('ring-bolts') || step.startsWith('crank-'));
    expect(ordinary.length).toBe(5);
    const told = { assist: 'mid-drive', crankType: 'taper', mount: 'bolted', boltMaterial: 'steel' } as const;
    expect(all(told)).toEqual(['drive-unit', 'flat-bar', 'drop-bar', 'rear-derailleur']);
    expect(certain(told)).toEqual(['drive-unit']);
  });

  it('adds the axle of a hub motor only as a possibility, and both where nobody knows which motor it is', () => {
    expect(all({ assist: 'hub' })).toEqual([...all({}).slice(0, -1), 'hub-motor', 'rear-derailleur']);
    expect(certain({ assist: 'yes' })).toEqual([]);
    expect(all({ assist: 'yes' })).toEqual(expect.arrayContaining(['drive-unit', 'hub-motor', 'crank-pinch']));
    expect(all({ assist: 'none' })).toEqual(all({}));
  });

  it('never touches what only a way back or a slip of the hand would', () => {
    const input = fc.record({
      crankType: fc.constantFrom('pinch', 'taper', 'splined', null),
      mount: fc.constantFrom('bolted', 'direct', 'riveted', null),
      boltMaterial: fc.constantFrom('steel', 'aluminium', null),
      bar: fc.constantFrom('flat', 'drop', null),
      newCassette: fc.boolean(),
      assist: fc.constantFrom('none', 'hub', 'mid-drive', 'yes', null),
    });
    fc.assert(
      fc.property(input, (told) => {
        const steps = touchedSteps(told).map((each) => each.step);
        expect(steps).not.toContain('going-back');
        expect(steps).not.toContain('only-if-loosened');
        expect(new Set(steps).size).toBe(steps.length);
      }),
    );
  });
});

describe('rangesMeet', () => {
  it('does not ask which range comes first', () => {
    const range = fc
      .tuple(fc.double({ min: 0, max: 60, noNaN: true }), fc.double({ min: 0, max: 60, noNaN: true }))
      .map(([one, other]) => ({ lowNm: Math.min(one, other), highNm: Math.max(one, other) }));
    fc.assert(
      fc.property(range, range, (first, second) => {
        expect(rangesMeet(first, second)).toBe(rangesMeet(second, first));
        expect(rangesMeet(first, first)).toBe(true);
      }),
    );
  });

  it('counts a shared end as meeting', () => {
    expect(rangesMeet({ lowNm: 0.4, highNm: 0.7 }, { lowNm: 0.7, highNm: 1.5 })).toBe(true);
  });
});

describe('torqueInLbf', () => {
  it('is 1/0.1129848 of the torque to a tenth: 12/0.1129848 = 106.21', () => {
    expect(torqueInLbf(12)).toBe(106.2);
    expect(torqueInLbf(0)).toBe(0);
  });
});
