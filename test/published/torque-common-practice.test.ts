import { describe, expect, it } from 'vitest';
import { torque } from '../../src/commands/torque.ts';
import { bike, torqueOf } from '../support/outcomes.ts';

/** Facts of the trade that nobody in particular published. */
describe('Common practice', () => {
  it('pinch bolts of a two-piece crank at 13–15 N·m lie inside what is printed for them', () => {
    const pinch = torqueOf(torque.answer(bike({ crankType: 'pinch' }))).find((row) => row.fastener.includes('pinch'));
    expect(pinch?.lowNm).toBeLessThanOrEqual(13);
    expect(pinch?.highNm).toBeGreaterThanOrEqual(15);
  });

  it('the bearing is preloaded before the pinch bolts are tightened', () => {
    const rows = torqueOf(torque.answer(bike({ crankType: 'pinch' }))).map((row) => row.fastener);
    expect(rows.indexOf('Crank preload cap')).toBeGreaterThan(-1);
    expect(rows.indexOf('Crank preload cap')).toBeLessThan(rows.indexOf('Crank pinch bolts (two)'));
  });
});
