import type { Bike } from '../../src/bike/bike.ts';
import { type SettledBike, settle } from '../../src/bike/settled.ts';
import type { TorqueRow, WeightPart } from '../../src/commands/answer.ts';
import type { Outcome } from '../../src/commands/command.ts';

/** A bike with the stated defaults filled in, as the desk hands it to a command. */
export function bike(told: Bike): SettledBike {
  return settle(told).bike;
}

/** An answer, or the test ends here saying what came instead. */
export function answered(outcome: Outcome): Extract<Outcome, { kind: 'answered' }> {
  if (outcome.kind !== 'answered') throw new Error(`answered with ${outcome.kind}`);
  return outcome;
}

export function torqueOf(outcome: Outcome): readonly TorqueRow[] {
  return answered(outcome).answer.torque ?? [];
}

export function weightOf(outcome: Outcome): WeightPart {
  const { weight } = answered(outcome).answer;
  if (weight === undefined) throw new Error('no weight in the answer');
  return weight;
}

/** Every word of an outcome a reader sees, in one string. */
export function wordsOf(outcome: Outcome): string {
  return outcome.kind === 'refused' ? JSON.stringify(outcome.refusal) : JSON.stringify(outcome.words);
}
