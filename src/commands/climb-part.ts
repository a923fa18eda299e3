import type { Assumption, Question } from '../bike/reading.ts';
import type { SettledBike } from '../bike/settled.ts';
import type { ClimbFacts } from '../card/gears-facts.ts';
import { roadPower, steepestGrade } from '../solve/climb.ts';
import type { GearRange } from '../solve/gears.ts';
import type { RingOption } from '../solve/ring-options.ts';
import { CLIMBING_MASSES, DRAG_AREAS, ROLLING_COEFFICIENTS } from '../tables/climbing.ts';
import type { ClimbPart } from './answer.ts';
import { likelyBar } from './handlebar.ts';

const KMH_PER_MS = 3.6;

/** The steepest slope in the lowest gear, now and with one ring; null unless a power and a wheel are told. */
export function climbOf(
  bike: SettledBike,
  ring: RingOption,
  now: GearRange,
): { readonly part: ClimbPart | null; readonly facts: ClimbFacts; readonly assumed: readonly Assumption[] } | null {
  const { powerW } = bike;
  const speedKmh = ring.lowestSpeedKmh;
  const speedNowKmh = now.lowestSpeedKmh;
  if (powerW === undefined || speedKmh === null || speedNowKmh === null) return null;
  const onTandem = bike.tandem === true;
  // No usual weight of two riders is known here, and half of one would be a steeper hill than they can climb.
  if (onTandem && (bike.riderKg === undefined || bike.bikeKg === undefined)) return null;
  const assisted = bike.assist !== undefined && bike.assist !== 'none';
  const ground = bike.ground ?? 'mixed';
  const bar = bike.bar ?? likelyBar(bike);
  const massKg = (bike.riderKg ?? CLIMBING_MASSES.rider.typical) + (bike.bikeKg ?? bicycleMass(assisted).typical);
  const rollingCoefficient = ROLLING_COEFFICIENTS[ground].typical;
  const dragAreaM2 = DRAG_AREAS[bar].typical;
  const ride = { massKg, dragAreaM2, rollingCoefficient };
  const then = steepestGrade({ ...ride, powerW, speedMs: speedKmh / KMH_PER_MS });
  const before = steepestGrade({ ...ride, powerW, speedMs: speedNowKmh / KMH_PER_MS });
  const gradePct = then.kind === 'found' ? then.gradePct : null;
  const gradeNowPct = before.kind === 'found' ? before.gradePct : null;
  const speedMs = speedKmh / KMH_PER_MS;
  const riders = onTandem ? 2 : 1;
  const lightForTwo = onTandem && (bike.riderKg ?? 0) < 2 * CLIMBING_MASSES.rider.low;
  const terms = gradePct === null ? null : roadPower({ ...ride, speedMs, airSpeedMs: speedMs, gradePct, change: null });
  return {
    part:
      gradePct === null || gradeNowPct === null
        ? null
        : {
            ringTeeth: ring.teeth,
            ratio: ring.lowestRatio,
            speedKmh,
            gradePct,
            gradeNowPct,
            assistCounted: false,
            riders,
          },
    facts: { powerW, ...ride, speedKmh, gradePct, speedNowKmh, gradeNowPct, terms, assisted, riders, lightForTwo },
    assumed: assumptions(bike, ground, bar),
  };
}

/** With battery and motor a bicycle weighs half as much again and more. */
function bicycleMass(assisted: boolean) {
  return assisted ? CLIMBING_MASSES.assistedBike : CLIMBING_MASSES.bike;
}

function assumptions(bike: SettledBike, ground: 'smooth' | 'mixed' | 'rough', bar: 'flat' | 'drop'): Assumption[] {
  const { rider } = CLIMBING_MASSES;
  const bicycle = bicycleMass(bike.assist !== undefined && bike.assist !== 'none');
  const assumed: Assumption[] = [];
  if (bike.riderKg === undefined) {
    assumed.push({
      field: 'rider',
      value: rider.typical,
      basis: `memory: kg with clothes and pack, ${rider.low} to ${rider.high}`,
    });
  }
  if (bike.bikeKg === undefined) {
    assumed.push({
      field: 'bikeweight',
      value: bicycle.typical,
      basis: `memory: kg, ${bicycle.low} to ${bicycle.high}`,
    });
  }
  const { low, typical, high } = ROLLING_COEFFICIENTS[ground];
  const grip = `rolling resistance ${typical} (${low} to ${high}, memory)`;
  assumed.push({ field: 'ground', value: ground, basis: bike.ground === undefined ? `default: ${grip}` : grip });
  const drag = DRAG_AREAS[bar];
  const barGround = bar === 'drop' ? 'not said, but the rings are those of a road bike' : 'default';
  const area = `drag area ${drag.typical} m² (${drag.low} to ${drag.high}, memory)`;
  assumed.push({ field: 'bar', value: bar, basis: bike.bar === undefined ? `${barGround}: ${area}` : area });
  return assumed;
}

/** A climb on a tandem needs both riders and the tandem itself; nothing usual stands in for them. */
export function climbAsks({ tandem, powerW, riderKg, bikeKg }: SettledBike): readonly Question[] {
  if (tandem !== true || powerW === undefined) return [];
  const asks: Question[] = [];
  if (riderKg === undefined) {
    const question = 'What do both riders weigh together, with clothes and packs, as in rider=150kg?';
    asks.push({ field: 'rider', question, choices: [] });
  }
  if (bikeKg === undefined) {
    asks.push({ field: 'bikeweight', question: 'What does the tandem weigh, as in bikeweight=20kg?', choices: [] });
  }
  return asks;
}
