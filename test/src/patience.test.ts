import { describe, expect, it } from 'vitest';
import { timer } from '../../adapters/program/machine.ts';
import { type Timer, within } from '../../src/patience.ts';
import { neverRings, ringsAtOnce } from '../support/timers.ts';

describe('patience with work', () => {
  it('gives what the work comes to, or its fault', async () => {
    await expect(within(Promise.resolve('done'), 10, neverRings)).resolves.toBe('done');
    await expect(within(Promise.reject(new Error('broken')), 10, neverRings)).rejects.toThrow('broken');
  });

  it('ends without it where the work takes too long, and hears of it no more', async () => {
    const work = Promise.withResolvers<string>();
    await expect(within(work.promise, 10, ringsAtOnce)).resolves.toBeNull();
    work.reject(new Error('broken, and nobody asks'));
  });

  it.each([
    ['done', () => Promise.resolve('done')],
    ['broken', () => Promise.reject(new Error('broken'))],
  ])('stops its timer when the work is %s', async (_, work) => {
    let running = 0;
    const counted: Timer = () => {
      running += 1;
      return () => {
        running -= 1;
      };
    };
    await within(work(), 10, counted).catch(() => null);
    expect(running).toBe(0);
  });

  it('is over after its time by the clock of the machine', async () => {
    await expect(within(new Promise<string>(() => undefined), 5, timer)).resolves.toBeNull();
  });
});
