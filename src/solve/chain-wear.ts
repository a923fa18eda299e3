import { SPROCKET_GEOMETRY } from '../tables/sprocket-geometry.ts';
import { WEAR_LIMITS, WEAR_MARKS } from '../tables/wear-limits.ts';

/** Length of the measured stretch of a new chain: 24 pitches, 12 inches. */
const NEW_LENGTH_MM = WEAR_MARKS.measuredOver.value * SPROCKET_GEOMETRY.pitch.value;
const CASSETTE_TOO_PCT = WEAR_MARKS.cassetteToo.value;

export type WearVerdict = 'ride-on' | 'replace-chain' | 'replace-chain-check-cassette';

export type ChainWear =
  | {
      readonly kind: 'found';
      readonly verdict: WearVerdict;
      /** Null where the speeds are unknown and every limit gives the same verdict. */
      readonly replaceAtPct: number | null;
    }
  | { readonly kind: 'cannot'; readonly reason: 'wear-unknown'; readonly replaceAtPct: number | null }
  | { readonly kind: 'cannot'; readonly reason: 'speeds-unknown'; readonly replaceAtPct: null };

function replaceAtPct(speeds: number): number | null {
  return WEAR_LIMITS.find((row) => speeds >= row.lowSpeeds && speeds <= row.highSpeeds)?.replaceAtPct ?? null;
}

/**
 * How much longer 24 pitches of a worn chain are than those of a new one.
 *
 * e = 24p · wear/100
 *
 * Valid for any wear a chain can have, 0 to 5 %. Agrees with the printed 1.5, 2.3 and 3.05 mm to half a unit of their
 * last digit.
 *
 * @param wearPct elongation [%], 0 to 5
 * @returns lengthening over 24 pitches [mm]
 * @example elongationMm(0.75) // 2.29
 * @see WearPages, elongation over 24 pitches (12 in)
 */
export function elongationMm(wearPct: number): number {
  return (NEW_LENGTH_MM * wearPct) / 100;
}

/**
 * Wear of a chain from the length of 24 of its pitches, pin to pin.
 *
 * wear = 100 (length − 24p)/24p
 *
 * Valid for lengths a ruler can show, 304.8 to 320 mm; shorter gives a negative number, which is a misreading. Agrees
 * with the printed 0.52 % for 12 1/16 in.
 *
 * @param lengthMm length of 24 pitches under tension [mm], 304 to 320
 * @returns elongation [%]
 * @example wearPctOfLength(306.3875) // 0.52
 * @see WearPages, 12 1/16 in
 */
export function wearPctOfLength(lengthMm: number): number {
  return (100 * (lengthMm - NEW_LENGTH_MM)) / NEW_LENGTH_MM;
}

/** A reading exactly at the limit counts as due. */
function wearVerdict(wearPct: number, limitPct: number): WearVerdict {
  if (wearPct > CASSETTE_TOO_PCT) return 'replace-chain-check-cassette';
  return wearPct >= limitPct ? 'replace-chain' : 'ride-on';
}

/**
 * Whether a chain is due, as far as wear and speeds tell.
 *
 * due from 0.75 % up to 10 sprockets, from 0.5 % above; over 1 % cassette and rings too
 *
 * Valid for 5 to 13 sprockets; for 13 the stricter limit is taken from memory. Without speeds the verdict is the one on
 * which all limits agree; a wear between 0.5 and 0.75 % is due on some chains and not on others, so there is no verdict.
 * Agrees with the printed limits.
 *
 * @param input `wearPct` [%], 0 to 5, or null, `speeds` [1], 5 to 13, or null
 * @returns [—] the verdict with its limit [%], or which of the two is missing
 * @example chainWear({ wearPct: 0.75, speeds: 10 }).verdict // "replace-chain"
 * @see WearPages, replace at 0.75 % up to 10 speed
 */
export function chainWear(input: { readonly wearPct: number | null; readonly speeds: number | null }): ChainWear {
  const limit = input.speeds === null ? null : replaceAtPct(input.speeds);
  if (input.wearPct === null) return { kind: 'cannot', reason: 'wear-unknown', replaceAtPct: limit };
  if (limit !== null) return { kind: 'found', verdict: wearVerdict(input.wearPct, limit), replaceAtPct: limit };
  let agreed: WearVerdict | null = null;
  for (const row of WEAR_LIMITS) {
    const verdict = wearVerdict(input.wearPct, row.replaceAtPct);
    if (agreed !== null && agreed !== verdict) return { kind: 'cannot', reason: 'speeds-unknown', replaceAtPct: null };
    agreed = verdict;
  }
  if (agreed === null) return { kind: 'cannot', reason: 'speeds-unknown', replaceAtPct: null };
  return { kind: 'found', verdict: agreed, replaceAtPct: null };
}
