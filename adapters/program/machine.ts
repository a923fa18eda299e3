import { randomUUID } from 'node:crypto';
import { setTimeout as wait } from 'node:timers/promises';
import type { Timer } from '../../src/patience.ts';

/** Clock, patience and chance as programs hand them to what they run. */

export const nowMs = (): number => Date.now();

/** Settles after so many milliseconds, and keeps no program from ending. */
export const pause = (ms: number): Promise<void> => wait(ms, undefined, { ref: false });

/** Rings after so many milliseconds, and keeps no program from ending. */
export const timer: Timer = (ms, ring) => {
  const running = setTimeout(ring, ms).unref();
  return () => clearTimeout(running);
};

/**
 * Eight letters: among a million lines about payloads of one day they are nearly always alone. The beginning of a random
 * UUID is as random as any other eight, and the runtime makes those many at a time.
 */
export const logId = (): string => randomUUID().slice(0, 8);
