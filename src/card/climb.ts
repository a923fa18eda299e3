import { ROAD_POWER } from '../tables/climbing.ts';
import { SOURCES } from '../tables/sources.ts';
import type { WorkingStep } from './card.ts';
import type { ClimbFacts } from './gears-facts.ts';
import { plain, speed } from './measures.ts';

/** Above this a tyre loses its grip or the front wheel lifts before the legs give out (common practice). */
const STEEP_PCT = 30;

/** How steep the rider can climb in the lowest gear, with the ring in question and today. */
export function climbLines(climb: ClimbFacts, ringTeeth: number, cadenceRpm: number): string[] {
  const lines = [
    `With ${plain(climb.powerW, 0)} W at ${plain(cadenceRpm, 1)} rpm, ${climb.riders === 2 ? 'both riders' : 'rider'} and bicycle ${plain(climb.massKg, 0)} kg, no wind:`,
    `${ringTeeth}T: ${slopeWords(climb.gradePct)} at ${speed(climb.speedKmh)}.`,
    `Today: ${slopeWords(climb.gradeNowPct)} at ${speed(climb.speedNowKmh)}.`,
  ];
  if ((climb.gradePct ?? 0) > STEEP_PCT || (climb.gradeNowPct ?? 0) > STEEP_PCT) {
    lines.push(`Above ${STEEP_PCT} % grip and balance give out before the gear does.`);
  }
  if (climb.assisted) lines.push('The assist is not counted: these are the legs alone, and a motor takes it further.');
  if (climb.riders === 2) lines.push('Power and weight are of both riders; the drag is reckoned as of one.');
  if (climb.lightForTwo) lines.push('Is that the weight of one rider only? Tell both together: rider=150kg.');
  lines.push('A guide: the formula was checked near the level at 25 to 43 km/h, not on climbs.');
  return lines;
}

function slopeWords(gradePct: number | null): string {
  if (gradePct === null) return 'no slope answers to that power; check power and cadence';
  if (gradePct < 0) return `falls short on the level, holds only a descent of ${plain(-gradePct, 1)} %`;
  return `up to ${plain(gradePct, 1)} %`;
}

/** The slope worked out, and where the power goes on it. */
export function climbWorking(climb: ClimbFacts): WorkingStep[] {
  const { terms } = climb;
  if (terms === null || climb.gradePct === null) return [];
  const rolling = `rolling resistance ${plain(climb.rollingCoefficient, 3)}`;
  return [
    {
      quantity: 'Steepest slope in the lowest gear',
      formula: 'sin θ + Crr cos θ = (P · Ec ÷ v − air − bearings) ÷ (m · g)',
      numbers: `${plain(climb.powerW, 0)} W, ${plain(climb.massKg, 0)} kg, ${speed(climb.speedKmh)}, ${rolling}, drag area ${plain(climb.dragAreaM2, 2)} m²`,
      result: `${plain(climb.gradePct, 1)} %`,
      source: SOURCES.Martin1998,
    },
    {
      quantity: 'Where the power goes',
      formula: 'P = (air + rolling + bearings + gravity) ÷ Ec',
      numbers: `(${plain(terms.airW, 1)} + ${plain(terms.rollingW, 1)} + ${plain(terms.bearingsW, 1)} + ${plain(terms.gravityW, 1)}) W ÷ ${ROAD_POWER.efficiency.value}`,
      result: `${plain(terms.riderW, 0)} W`,
      source: SOURCES.Martin1998,
    },
  ];
}
