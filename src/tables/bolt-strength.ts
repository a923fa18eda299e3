import type { Row } from './row.ts';

/** Metric coarse threads the printed table covers that also occur on bicycles. */
export type ThreadName = 'M4' | 'M5' | 'M6' | 'M8';

type ProofLoad = {
  readonly thread: ThreadName;
  readonly diameterMm: number;
  /** Load a bolt of the class carries without a lasting stretch, by property class. */
  readonly class88N: number;
  readonly class109N: number;
  readonly class129N: number;
};

/**
 * Proof loads of steel bolts with metric coarse thread. Aluminium bolts, hollow bolts and fine threads are outside the
 * standard: there is no row for them, and nothing is worked out for them.
 */
// thread [—]   diameter [mm]   class 8.8 [N]   class 10.9 [N]   class 12.9 [N]
// biome-ignore format: aligned columns read as a table
export const PROOF_LOADS = [
  { thread: 'M4', diameterMm: 4, class88N:  5100, class109N:  7290, class129N:  8520, basis: 'published', cite: { source: 'ISO898-1', locator: 'proof loads, M4' } },
  { thread: 'M5', diameterMm: 5, class88N:  8230, class109N: 11800, class129N: 13800, basis: 'published', cite: { source: 'ISO898-1', locator: 'proof loads, M5' } },
  { thread: 'M6', diameterMm: 6, class88N: 11600, class109N: 16700, class129N: 19500, basis: 'published', cite: { source: 'ISO898-1', locator: 'proof loads, M6' } },
  { thread: 'M8', diameterMm: 8, class88N: 21200, class109N: 30400, class129N: 35500, basis: 'published', cite: { source: 'ISO898-1', locator: 'proof loads, M8' } },
] as const satisfies readonly Row<ProofLoad>[];

type NutFactor = { readonly factor: number };

/** The K of T = K·d·F: how much of a torque friction eats. A wet thread pulls a third harder at the same torque. */
export const NUT_FACTORS = {
  dry: { factor: 0.2, basis: 'published', cite: { source: 'FastenerTable', locator: 'note, dry' } },
  lubricated: { factor: 0.15, basis: 'published', cite: { source: 'FastenerTable', locator: 'note, lubricated' } },
} as const satisfies Record<string, Row<NutFactor>>;
