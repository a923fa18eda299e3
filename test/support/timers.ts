import type { Timer } from '../../src/patience.ts';

/** Patience without an end: what takes long is waited for. */
export const neverRings: Timer = () => () => undefined;

/** No patience at all: whatever does not come at once takes too long. */
export const ringsAtOnce: Timer = (_, ring) => {
  queueMicrotask(ring);
  return () => undefined;
};
