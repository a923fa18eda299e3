import type { Privacy, Swept } from '../../src/records/privacy.ts';

/** Retention is told in days, so that once a day is often enough. */
const DAY_MS = 86_400_000;

/** Soon enough that people's data is not kept for a day longer because the tables were made a moment too late. */
const AGAIN_MS = 600_000;

/** What to do with a sweep that went through, and with one that could not: storage is away, or has no tables yet. */
export type Told = { readonly swept: (swept: Swept) => void; readonly fault: (error: unknown) => void };

/**
 * Sweeps now and once a day, for a program that runs for long, and sooner after a sweep that could not be done; gives
 * the function that stops it. Holds no process up.
 */
export function keepSwept(
  privacy: Pick<Privacy, 'sweep'>,
  nowMs: () => number,
  told: Told,
  { everyMs, againMs }: { readonly everyMs: number; readonly againMs: number } = { everyMs: DAY_MS, againMs: AGAIN_MS },
): () => void {
  let stopped = false;
  let timer: ReturnType<typeof setTimeout> | undefined;
  const next = (ms: number) => {
    if (!stopped) timer = setTimeout(sweep, ms).unref();
  };
  const sweep = () =>
    void privacy.sweep(nowMs()).then(
      (swept) => {
        told.swept(swept);
        next(everyMs);
      },
      (error: unknown) => {
        told.fault(error);
        next(againMs);
      },
    );
  sweep();
  return () => {
    stopped = true;
    clearTimeout(timer);
  };
}
