import { NUT_FACTORS, PROOF_LOADS, type ThreadName } from '../tables/bolt-strength.ts';

const DRY = NUT_FACTORS.dry.factor;
const LUBRICATED = NUT_FACTORS.lubricated.factor;

const LOAD_OF: ReadonlyMap<ThreadName, (typeof PROOF_LOADS)[number]> = new Map(
  PROOF_LOADS.map((row) => [row.thread, row]),
);

export type PropertyClass = '8.8' | '10.9' | '12.9';

/** How much of its proof load a bolt of one class carries: from the low torque dry to the high torque lubricated. */
export type ProofShare = { readonly propertyClass: PropertyClass; readonly lowPct: number; readonly highPct: number };

export type Preload =
  | {
      readonly kind: 'found';
      readonly lowN: number;
      readonly highN: number;
      readonly diameterMm: number;
      readonly shares: readonly ProofShare[];
    }
  | { readonly kind: 'cannot'; readonly reason: 'outside-the-standard' };

/**
 * The pull a torque puts into a bolt.
 *
 * F = T/(K·d)
 *
 * Valid for coarse metric threads; K is 0.20 dry and 0.15 lubricated, and a real joint lies about there, not on it.
 * Agrees with the printed torques at 75 % of the proof load to 1.3 %, one printed slip apart.
 *
 * @param torqueNm torque [N·m], 0 and over
 * @param diameterMm nominal thread diameter [mm], over 0
 * @param nutFactor K [1], 0.15 lubricated to 0.20 dry
 * @returns preload [N]
 * @example preloadN(12, 6, 0.2) // 10000
 * @see FastenerTable, note under the torque table
 */
export function preloadN(torqueNm: number, diameterMm: number, nutFactor: number): number {
  return torqueNm / (nutFactor * (diameterMm / 1000));
}

/**
 * The range of pull in a bolt tightened within a range of torque, and how much of its proof load that is.
 *
 * T = K·d·F
 *
 * Valid for solid steel bolts with the coarse threads M4 to M8; for aluminium, hollow or fine-threaded bolts the
 * standard says nothing and the answer is `cannot`. The low end is the low torque on dry threads, the high end the high
 * torque on lubricated ones. Agrees with the printed torques at 75 % of the proof load to 1.3 %, one printed slip apart.
 *
 * @param input `lowNm` [N·m], `highNm` [N·m], `thread` [—], null where the standard does not cover the bolt
 * @returns `lowN` [N], `highN` [N], `diameterMm` [mm], `shares` per property class with `lowPct` [%] and `highPct` [%]
 * @example boltPreload({ lowNm: 12, highNm: 15, thread: 'M6' }).lowN // 10000
 * @example boltPreload({ lowNm: 8, highNm: 9, thread: null }).kind // "cannot"
 * @see ISO898-1, proof loads
 */
export function boltPreload(input: {
  readonly lowNm: number;
  readonly highNm: number;
  readonly thread: ThreadName | null;
}): Preload {
  const row = input.thread === null ? undefined : LOAD_OF.get(input.thread);
  if (row === undefined) return { kind: 'cannot', reason: 'outside-the-standard' };
  const lowN = preloadN(input.lowNm, row.diameterMm, DRY);
  const highN = preloadN(input.highNm, row.diameterMm, LUBRICATED);
  const share = (propertyClass: PropertyClass, proofN: number): ProofShare => ({
    propertyClass,
    lowPct: (100 * lowN) / proofN,
    highPct: (100 * highN) / proofN,
  });
  return {
    kind: 'found',
    lowN,
    highN,
    diameterMm: row.diameterMm,
    shares: [share('8.8', row.class88N), share('10.9', row.class109N), share('12.9', row.class129N)],
  };
}
