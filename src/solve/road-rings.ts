import { ROAD_RINGS, ROAD_WHEEL } from '../tables/chainlines.ts';

/**
 * Whether rings of these sizes are those of a road bike.
 *
 * largest ring ≥ 46 of two, ≥ 50 of three; never on a bead seat under 500 mm
 *
 * Valid as a likelihood to be said and overruled, not as a fact: what is told of the bike comes before it. Null where
 * the number of rings does not tell.
 *
 * @param rings today's rings, largest first [1]
 * @param beadSeatMm bead seat of the wheel [mm], or null
 * @returns true, false, or null where it cannot be told [—]
 * @example hasRoadRings([50, 34], 622) // true
 * @example hasRoadRings([52, 39], 406) // false
 * @see common practice
 */
export function hasRoadRings(rings: readonly number[], beadSeatMm: number | null): boolean | null {
  const from = ROAD_RINGS.find((row) => row.rings === rings.length)?.fromTeeth;
  const [largest] = rings;
  if (from === undefined || largest === undefined) return null;
  return largest >= from && (beadSeatMm === null || beadSeatMm >= ROAD_WHEEL.leastBeadSeatMm);
}
