import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { ChainLength, ChainQuestion } from '../../src/solve/chain-length.ts';
import {
  axleDistance,
  chainLength,
  chainTargetPitches,
  freedByFewerTeeth,
  growthPitches,
  justFitsPitches,
  pitchesFromEven,
} from '../../src/solve/chain-length.ts';
import { centreMmForWrap, wrapPitches } from '../../src/solve/chain-wrap.ts';

const HARDTAIL: ChainQuestion = {
  ringTeeth: 32,
  sprocketTeeth: 36,
  stayMm: 440,
  longestMm: null,
  suspension: 'none',
  allowancePitches: 2,
  presentPitches: null,
};

type Found = Extract<ChainLength, { kind: 'found' }>;

function found(change: Partial<ChainQuestion> = {}): Found {
  const result = chainLength({ ...HARDTAIL, ...change });
  if (result.kind !== 'found') throw new Error(`no length: ${result.reason}`);
  return result;
}

const ring = fc.integer({ min: 18, max: 70 });
const sprocket = fc.integer({ min: 9, max: 60 });
const centreMm = fc.double({ min: 300, max: 850, noNaN: true });
const allowance = fc.constantFrom(2, 4, 6);

describe('the target', () => {
  // bare wrap + allowance, then up to even
  it.each([
    { ringTeeth: 32, sprocketTeeth: 36, stayMm: 440, wrap: 103.303, target: 106 },
    { ringTeeth: 32, sprocketTeeth: 46, stayMm: 440, wrap: 108.435, target: 112 },
    { ringTeeth: 36, sprocketTeeth: 36, stayMm: 440, wrap: 105.291, target: 108 },
    { ringTeeth: 42, sprocketTeeth: 32, stayMm: 410, wrap: 101.645, target: 104 },
    { ringTeeth: 34, sprocketTeeth: 51, stayMm: 440, wrap: 112.003, target: 116 },
    { ringTeeth: 60, sprocketTeeth: 32, stayMm: 400, wrap: 109.624, target: 112 },
    { ringTeeth: 52, sprocketTeeth: 32, stayMm: 400, wrap: 105.314, target: 108 },
  ])('is $target for $ringTeeth × $sprocketTeeth at $stayMm mm', ({ wrap, target, ...wheels }) => {
    const result = found(wheels);
    expect(Math.abs(result.wrapPitches - wrap)).toBeLessThanOrEqual(0.0005);
    expect(result.targetPitches).toBe(target);
    expect(result.targetPairs).toBe(target / 2);
    // 12.7 mm a pitch, to the tenth
    expect(result.targetMm).toBe((target * 127) / 10);
  });

  it('is even, and at least the wrap and the allowance, and less than a pair above them', () => {
    fc.assert(
      fc.property(ring, sprocket, centreMm, allowance, (ringTeeth, sprocketTeeth, stayMm, allowancePitches) => {
        const result = found({ ringTeeth, sprocketTeeth, stayMm, allowancePitches });
        const sum = wrapPitches(ringTeeth, sprocketTeeth, stayMm) + allowancePitches;
        expect(result.targetPitches % 2).toBe(0);
        expect(result.targetPitches).toBeGreaterThanOrEqual(sum - 1e-9);
        expect(result.targetPitches).toBeLessThan(sum + 2);
      }),
    );
  });

  it('is never shorter with two more teeth, front or rear', () => {
    fc.assert(
      fc.property(ring, sprocket, centreMm, allowance, (ringTeeth, sprocketTeeth, stayMm, allowancePitches) => {
        const wheels = { ringTeeth, sprocketTeeth, stayMm, allowancePitches };
        const target = found(wheels).targetPitches;
        expect(found({ ...wheels, ringTeeth: ringTeeth + 2 }).targetPitches).toBeGreaterThanOrEqual(target);
        expect(found({ ...wheels, sprocketTeeth: sprocketTeeth + 2 }).targetPitches).toBeGreaterThanOrEqual(target);
      }),
    );
  });

  it('takes a sum within 1e-9 above an even number for that number, and not one further above', () => {
    // Equal wheels: the wrap is exactly 2C + N, so C = 35 pitches gives 106 and the sum 108.
    const target = (pastPitches: number): number =>
      chainTargetPitches({
        ringTeeth: 36,
        sprocketTeeth: 36,
        centreMm: (35 + pastPitches / 2) * 12.7,
        allowancePitches: 2,
      });
    expect(target(0)).toBe(108);
    expect(target(0.5e-9)).toBe(108);
    expect(target(1e-7)).toBe(110);
  });

  it('is given for every allowance a printed rule asks for', () => {
    // 103.303 + 2, 4, 6
    expect(found().byAllowance).toEqual([
      { allowancePitches: 2, targetPitches: 106 },
      { allowancePitches: 4, targetPitches: 108 },
      { allowancePitches: 6, targetPitches: 110 },
    ]);
  });
});

describe('the second printed rule', () => {
  it('is the same or one pair less than an allowance of 2', () => {
    const seen = new Set<number>();
    for (let stayMm = 400; stayMm < 480; stayMm += 0.5) {
      const result = found({ stayMm });
      seen.add(result.targetPitches - result.alternativeRulePitches);
    }
    expect([...seen].sort()).toEqual([0, 2]);
  });

  it('starts from the whole pitches that just reach round', () => {
    expect(justFitsPitches(103.303)).toBe(104);
    expect(justFitsPitches(104)).toBe(104);
    expect(justFitsPitches(104 + 0.5e-9)).toBe(104);
    // 104 just fits → 106; 105 just fits → 106
    expect(found().alternativeRulePitches).toBe(106);
  });
});

describe('what comes out or goes in', () => {
  it('is the difference to the target, under one name only', () => {
    expect(found({ presentPitches: 108 })).toMatchObject({ removePitches: 2, addPitches: null });
    expect(found({ presentPitches: 102 })).toMatchObject({ removePitches: null, addPitches: 4 });
    expect(found({ presentPitches: 106 })).toMatchObject({ removePitches: 0, addPitches: 0 });
  });

  it('is unknown for an unknown count', () => {
    expect(found()).toMatchObject({ removePitches: null, addPitches: null });
  });

  it('is unknown for an odd count, which is no loop', () => {
    expect(found({ presentPitches: 113 })).toMatchObject({ removePitches: null, addPitches: null, targetPitches: 106 });
  });

  it('adds on a folder whose ring grows to 60 teeth', () => {
    expect(found({ ringTeeth: 60, sprocketTeeth: 32, stayMm: 400, presentPitches: 108 })).toMatchObject({
      targetPitches: 112,
      removePitches: null,
      addPitches: 4,
    });
  });
});

describe('rear suspension', () => {
  const sprung = { sprocketTeeth: 42, stayMm: 435, suspension: 'rear' } as const;

  it('is sized at its longest: 112 at 452 mm, where the stays at rest would say 108', () => {
    const result = found({ ...sprung, longestMm: 452 });
    expect(result.centreMm).toBe(452);
    expect(result.targetPitches).toBe(112);
    expect(found({ ...sprung, suspension: 'none' }).targetPitches).toBe(108);
  });

  it('tells its growth where the distance at rest is known', () => {
    // 452 − 435 = 17 mm; 2 × 17/12.7 = 2.677
    const result = found({ ...sprung, longestMm: 452 });
    expect(result.growthMm).toBe(17);
    expect(result.growthPitches).toBeCloseTo(2.677, 3);
    expect(found({ ...sprung, stayMm: null, longestMm: 452 }).growthMm).toBeNull();
  });

  it('grows by 2g/12.7: 5, 10, 15, 20 mm are 0.79, 1.57, 2.36, 3.15 pitches', () => {
    expect([5, 10, 15, 20].map((mm) => growthPitches(mm).toFixed(2))).toEqual(['0.79', '1.57', '2.36', '3.15']);
  });

  it('differs from the exact growth by less than 0.03 pitch up to 20 mm on wheels within 25 teeth', () => {
    fc.assert(
      fc.property(
        ring,
        fc.integer({ min: -25, max: 25 }),
        fc.double({ min: 0, max: 20, noNaN: true }),
        fc.double({ min: 400, max: 480, noNaN: true }),
        (ringTeeth, difference, growth, stayMm) => {
          const sprocketTeeth = Math.max(9, ringTeeth + difference);
          const exact =
            wrapPitches(ringTeeth, sprocketTeeth, stayMm + growth) - wrapPitches(ringTeeth, sprocketTeeth, stayMm);
          expect(Math.abs(exact - growthPitches(growth))).toBeLessThan(0.03);
        },
      ),
    );
  });

  it('gives no length at all without the longest, whatever else is known', () => {
    fc.assert(
      fc.property(
        ring,
        sprocket,
        allowance,
        fc.option(centreMm),
        fc.option(fc.integer({ min: 60, max: 260 })),
        (ringTeeth, sprocketTeeth, allowancePitches, stayMm, presentPitches) => {
          const result = chainLength({
            ringTeeth,
            sprocketTeeth,
            allowancePitches,
            stayMm,
            presentPitches,
            longestMm: null,
            suspension: 'rear',
          });
          expect(result).toEqual({ kind: 'cannot', reason: 'longest-unknown' });
        },
      ),
    );
  });
});

describe('the axle distance', () => {
  it('is asked for where nothing is known', () => {
    expect(axleDistance({ stayMm: null, longestMm: null, suspension: 'none' })).toEqual({
      kind: 'cannot',
      reason: 'stay-unknown',
    });
  });

  it('is the stay on a frame that does not move, or its only figure', () => {
    expect(axleDistance({ stayMm: 440, longestMm: 452, suspension: 'none' })).toEqual({ kind: 'found', centreMm: 440 });
    expect(axleDistance({ stayMm: null, longestMm: 452, suspension: 'none' })).toEqual({
      kind: 'found',
      centreMm: 452,
    });
  });

  it.each(['none', 'rear'] as const)('cannot be longest at less than at rest (suspension %s)', (suspension) => {
    expect(axleDistance({ stayMm: 452, longestMm: 440, suspension })).toEqual({
      kind: 'cannot',
      reason: 'longest-under-stay',
    });
  });
});

describe('what would change the answer', () => {
  it('is a pair more just past the boundary, and the same just under it', () => {
    fc.assert(
      fc.property(
        ring,
        sprocket,
        fc.double({ min: 320, max: 800, noNaN: true }),
        (ringTeeth, sprocketTeeth, stayMm) => {
          const wheels = { ringTeeth, sprocketTeeth };
          const { targetPitches, boundaryStayMm } = found({ ...wheels, stayMm });
          expect(boundaryStayMm).not.toBeNull();
          const boundary = Number(boundaryStayMm);
          expect(found({ ...wheels, stayMm: boundary + 1e-6 }).targetPitches).toBe(targetPitches + 2);
          expect(found({ ...wheels, stayMm: boundary - 1e-6 }).targetPitches).toBe(targetPitches);
        },
      ),
    );
  });

  it('lies at 444.43 mm for 32 × 36, where the bare wrap is 104', () => {
    expect(found().boundaryStayMm).toBeCloseTo(Number(centreMmForWrap(32, 36, 104)), 9);
    expect(found().boundaryStayMm).toBeCloseTo(444.43, 2);
  });

  it('tells how near a sum lies to an even number', () => {
    expect(pitchesFromEven(114.003)).toBeCloseTo(0.003, 9);
    expect(pitchesFromEven(113.98)).toBeCloseTo(-0.02, 9);
    expect(pitchesFromEven(108)).toBe(0);
  });
});

describe('half the tooth change', () => {
  // ½ × 4 = 2, one pair; ½ × 6 = 3, of which one whole pair; ½ × 3 = 1.5, no pair; ½ × −6 = −3, two pairs in
  it.each([
    { fewer: 4, freed: 2, out: 2 },
    { fewer: 6, freed: 3, out: 2 },
    { fewer: 3, freed: 1.5, out: 0 },
    { fewer: -6, freed: -3, out: -4 },
  ])('of $fewer teeth frees $freed pitches, $out in whole pairs', ({ fewer, freed, out }) => {
    expect(freedByFewerTeeth(fewer)).toEqual({ freedPitches: freed, outPitches: out });
  });

  it('tells the true change to half a pitch for up to ten ring teeth', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 28, max: 50 }),
        fc.integer({ min: 28, max: 52 }),
        fc.integer({ min: 0, max: 10 }),
        fc.double({ min: 400, max: 480, noNaN: true }),
        (ringTeeth, sprocketTeeth, fewer, stayMm) => {
          const change =
            wrapPitches(ringTeeth, sprocketTeeth, stayMm) - wrapPitches(ringTeeth - fewer, sprocketTeeth, stayMm);
          expect(Math.abs(change - freedByFewerTeeth(fewer).freedPitches)).toBeLessThanOrEqual(0.5);
        },
      ),
    );
  });
});
