import type { Privacy, Swept } from '../../src/records/privacy.ts';

/** Retention is told in days, so that once a day is often enough. */
const DAY_MS = 86_400_000;

/** What to do with a sweep that went through, and with one that could not (storage away): the next day tries again. */
export type Told = { readonly swept: (swept: Swept) => void; readonly fault: (error: unknown) => void };

/** Sweeps now and once a day, for a program that runs for long; gives the function that stops it. Holds no process up. */
export function keepSwept(
  privacy: Pick<Privacy, 'sweep'>,
  nowMs: () => number,
  told: Told,
  everyMs: number = DAY_MS,
): () => void {
  const sweep = () => privacy.sweep(nowMs()).then(told.swept, told.fault);
  void sweep();
  const timer = setInterval(sweep, everyMs);
  timer.unref();
  return () => clearInterval(timer);
}
