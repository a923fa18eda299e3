import type { Question } from '../bike/reading.ts';
import type { AssistPart } from '../commands/answer.ts';
import type { Block, CautionBlock } from './card.ts';

const BATTERY = 'Before any work: assist off and battery out. A turned crank or wheel can wake the motor.';

const LAW =
  "Law and the maker's limits: another ring changes the gear the motor works in. Ask the maker of the system, and mind the rules for assisted bicycles where you ride.";

const AT_THE_CRANKS: readonly string[] = [
  "Motor at the cranks: ring, spider, bolts and crank arms are its maker's own, and a ring may sit on the motor's splines. Only parts it lists, and only its torque.",
  'Never open the drive unit or pull at its cables: what will not come off with a plain ring tool is for its dealer.',
  'Rider and motor pull on one ring and one chain: both wear faster, and the cassette too. Measure the chain more often.',
];

const IN_A_HUB: readonly string[] = [
  "Motor in a hub: it drives the wheel, not the chain. Its cable, washers and axle nuts are the maker's business if that wheel comes out.",
];

/** Everything somebody at work on a bike with a motor has to know, the battery first. */
export function assistCautions(where: AssistPart['where']): readonly string[] {
  switch (where) {
    case 'mid-drive':
      return [BATTERY, ...AT_THE_CRANKS, LAW];
    case 'hub':
      return [BATTERY, ...IN_A_HUB, LAW];
    case null:
      // Where it sits is not told, so both stand; each begins with the motor it speaks of.
      return [BATTERY, ...AT_THE_CRANKS, ...IN_A_HUB, LAW];
  }
}

/** The cautions of a bike with a motor, for every card that leads to work on it. */
export function assistBlocks(part: AssistPart | null): readonly Block[] {
  return (part?.cautions ?? []).map(
    (text, at): CautionBlock => ({ kind: 'caution', section: 'summary', level: at === 0 ? 'stop' : 'care', text }),
  );
}

/** Asks where the motor sits, because everything about ring and bolts hangs on it. */
export function motorQuestion(): Question {
  return {
    field: 'assist',
    question: 'Where does the motor sit? A hub as thick as a fist is one; a housing round the crank axle is the other.',
    choices: [
      { label: 'In a hub', setup: 'assist=hub' },
      { label: 'At the cranks', setup: 'assist=mid-drive' },
      { label: 'There is none', setup: 'assist=none!' },
    ],
  };
}

/** Asks how a motor holds its ring; nothing is taken for granted there. */
export function driveUnitQuestion(): Question {
  return {
    field: 'mount',
    question: "How does the motor hold its ring? Its maker's manual says; look for ring bolts on a spider.",
    choices: [
      { label: 'Bolts on a spider', setup: 'mount=bolted' },
      { label: 'On splines, no bolts', setup: 'mount=direct' },
    ],
  };
}
