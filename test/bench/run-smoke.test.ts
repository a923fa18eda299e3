import { describe, expect, it } from 'vitest';
import { measureLoad } from './load.ts';
import { measureMemory } from './memory.ts';
import { measureStarts } from './start.ts';

/** A machine that does much else starts a program within seconds. */
const LONG_MS = 300_000;

describe('the benchmarks of running', () => {
  it(
    'start every program on every way to its platform, until each says that it answers',
    async () => {
      const rows = await measureStarts(1);
      expect(rows.map(({ what }) => what)).toEqual([
        'Discord over the gateway, connected',
        'Discord over the gateway, connected, nothing compiled before',
        'Discord over HTTP, listening',
        'Discord over HTTP, listening, nothing compiled before',
        'Slack over a socket, connected',
        'Slack over a socket, connected, nothing compiled before',
        'Slack over HTTP, listening',
        'Slack over HTTP, listening, nothing compiled before',
      ]);
      expect(rows.every(({ ratio }) => ratio > 0)).toBe(true);
    },
    LONG_MS,
  );

  it(
    'have every question answered at a steady rate, and see every picture that was pressed for',
    async () => {
      const rows = await measureLoad({ seconds: 2, perSecond: 20, warmUp: 24 });
      expect(rows.length).toBe(8);
      for (const { asked, answered, picturesAsked, pictures } of rows) {
        expect(asked).toBe(40);
        expect(answered).toBe(asked);
        // One in four; the first press needs a card that was answered before.
        expect(picturesAsked).toBe(10);
        expect(pictures).toBe(picturesAsked);
      }
    },
    LONG_MS,
  );

  it(
    'have every question answered while memory is measured, with pictures among them',
    async () => {
      const rows = await measureMemory({ few: 30, many: 100, looks: 1 });
      expect(rows.length).toBe(3);
      for (const { asked, answered, pictures, ratio } of rows) {
        // 100, and those between the last looks.
        expect(asked).toBe(140);
        expect(answered).toBe(asked);
        expect(pictures).toBeGreaterThanOrEqual(11);
        expect(ratio).toBeGreaterThan(0);
      }
    },
    LONG_MS,
  );
});
