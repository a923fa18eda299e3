import type { Bike } from '../bike/bike.ts';
import { hasRoadRings } from '../solve/road-rings.ts';

/** The handlebar of a bike of which nobody told it: a drop bar goes with the rings of a road bike. */
export function likelyBar({ rings = [], wheel }: Bike): 'flat' | 'drop' {
  const beadSeatMm = wheel === undefined || wheel.kind === 'rollout' ? null : wheel.beadSeatMm;
  return hasRoadRings(rings, beadSeatMm) === true ? 'drop' : 'flat';
}
