import { describe, expect, it } from 'vitest';
import { chain } from '../../src/commands/chain.ts';
import { chainline } from '../../src/commands/chainline.ts';
import { mount } from '../../src/commands/mount.ts';
import { torque } from '../../src/commands/torque.ts';
import { freedByFewerTeeth } from '../../src/solve/chain-length.ts';
import { answered, bike, torqueOf, wordsOf } from '../support/outcomes.ts';

const ENDS_11_36 = { smallestTeeth: 11, largestTeeth: 36 };

/** Facts of the trade that nobody in particular published. */
describe('Common practice: torque', () => {
  const rows = torqueOf(torque.answer(bike({ crankType: 'pinch' })));

  it('pinch bolts of a two-piece crank at 13–15 N·m lie inside what is printed for them', () => {
    const pinch = rows.find((row) => row.fastener.includes('pinch'));
    expect(pinch?.lowNm).toBeLessThanOrEqual(13);
    expect(pinch?.highNm).toBeGreaterThanOrEqual(15);
  });

  it('the bearing is preloaded before the pinch bolts are tightened', () => {
    const fasteners = rows.map((row) => row.fastener);
    expect(fasteners.indexOf('Crank preload cap')).toBeGreaterThan(-1);
    expect(fasteners.indexOf('Crank preload cap')).toBeLessThan(fasteners.indexOf('Crank pinch bolts (two)'));
  });
});

describe('Common practice: chain', () => {
  it('six teeth fewer on the same cassette free one inner-and-outer pair', () => {
    expect(freedByFewerTeeth(6).outPitches).toBe(2);
    // The same on the stand, 38 to 32 teeth on 11-36: at every chainstay one pair, or on the other side of an even two.
    const removed = new Set<number | null | undefined>();
    for (let stayMm = 400; stayMm <= 460; stayMm += 1) {
      const told = bike({ rings: [38, 24], cassette: ENDS_11_36, ringTeeth: 32, stayMm });
      const part = answered(chain.answer(told)).answer.chain;
      removed.add(Number(part?.oldTargetPitches) - Number(part?.targetPitches));
    }
    expect([...removed].sort()).toEqual([2, 4]);
  });

  it.each([10, 11])('joining links of %i speed are single-use', (speeds) => {
    const told = bike({ rings: [36, 22], cassette: ENDS_11_36, ringTeeth: 32, stayMm: 440, speeds });
    expect(wordsOf(chain.answer(told))).toMatch(new RegExp(`${speeds}-speed joining links single-use`));
  });

  it('those of 9 speed are not called so', () => {
    const told = bike({ rings: [36, 22], cassette: ENDS_11_36, ringTeeth: 32, stayMm: 440, speeds: 9 });
    expect(wordsOf(chain.answer(told))).not.toMatch(/single-use/);
  });
});

describe('Common practice: ring bolts', () => {
  const adviceFor = (rings: readonly number[]) =>
    answered(mount.answer(bike({ rings: [...rings], bcdMm: 104, bolts: 4 }))).answer.mount?.boltAdvice;

  it('of a double whose small ring has its own circle can be used again', () => {
    expect(adviceFor([36, 22])).toBe('reuse');
  });

  it('of a triple are too long for one ring', () => {
    expect(adviceFor([44, 32, 22])).toBe('shorter-or-spacer');
  });
});

describe('Common practice: chainline', () => {
  const sprockets = [11, 13, 15, 17, 19, 21, 24, 28, 32, 36];
  const middle = (sprockets.length - 1) / 2;

  // The usual 49 on these hubs lies outside the cassette's middle, 6 mm of 3.95 mm sprockets: one and a half.
  it.each([135, 142])('the chain runs straight near the middle of the cassette on a %i mm hub', (hubMm) => {
    const told = bike({ chainlineMm: 49, hubMm, stayMm: 440, cassette: { ...ENDS_11_36, sprockets } });
    const part = answered(chainline.answer(told)).answer.chainline;
    const offsets = part?.sprockets.map((each) => Math.abs(each.offsetMm)) ?? [];
    expect(offsets).toHaveLength(sprockets.length);
    const straightest = offsets.indexOf(Math.min(...offsets));
    expect(Math.abs(straightest - middle)).toBeLessThanOrEqual(2);
    expect(part?.verdict).not.toBe('poor');
  });
});
