/** One line of the table of all benchmarks. Ratios are what is judged; the two figures say what they were made of. */
export type Row = {
  readonly what: string;
  /** With its unit, as it is shown. */
  readonly measured: string;
  readonly baseline: string;
  readonly ratio: number;
  /** Where the middle half of the ratios of all rounds lies. */
  readonly spread?: readonly [number, number];
  /** The ratio may be at most this; null for a row that only explains another. */
  readonly goal: number | null;
  /** Where more is better, the ratio must be at least the goal. */
  readonly better?: 'more';
  /** What the time or memory goes into, and so what it would take to have less of it. */
  readonly limitedBy: string;
};

export function median(values: readonly number[]): number {
  return percentile(values, 0.5);
}

/** The value that this share of all values is at most (nearest rank). */
export function percentile(values: readonly number[], share: number): number {
  const sorted = values.toSorted((one, other) => one - other);
  return sorted[Math.max(0, Math.ceil(sorted.length * share) - 1)] ?? Number.NaN;
}
