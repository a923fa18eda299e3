/** How long lines took, in steps fine enough for a percentile; small enough to be handed from one thread to another. */
export type Times = readonly number[];

const STEPS_A_MS = 10;
const MOST_MS = 2000;

export function noTimes(): number[] {
  return new Array<number>(STEPS_A_MS * MOST_MS + 1).fill(0);
}

export function note(times: number[], ms: number): void {
  const step = Math.min(times.length - 1, Math.floor(ms * STEPS_A_MS));
  times[step] = (times[step] ?? 0) + 1;
}

export function together(one: Times, other: Times): Times {
  return one.map((count, step) => count + (other[step] ?? 0));
}

/** The time that this share of all lines kept, rounded up to a tenth of a millisecond. */
export function percentileMs(times: Times, share: number): number {
  const all = times.reduce((sum, count) => sum + count, 0);
  let counted = 0;
  for (const [step, count] of times.entries()) {
    counted += count;
    if (counted >= all * share) return (step + 1) / STEPS_A_MS;
  }
  return MOST_MS;
}
