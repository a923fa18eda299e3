import type { SettledBike } from '../bike/settled.ts';
import type { ChainPart, SpeaksOf, WeightPart } from '../commands/answer.ts';
import type { RingOption } from '../solve/ring-options.ts';
import type { Block } from './card.ts';
import { highestWords } from './gears.ts';
import { endsText, type GearsFacts, lowestWords } from './gears-facts.ts';
import { pitches, plain, ratio } from './measures.ts';
import { weightWords } from './weight.ts';

/** The longest first line a card may have; it is the notification text too. */
const ANSWER_CHARACTERS = 120;

/** The most lines a card may have. */
const MOST_LINES = 5;

/** What the plan's first lines are made of. */
export type PlanFacts = {
  readonly gears: GearsFacts;
  readonly speaksOf: SpeaksOf | null;
  readonly ring: RingOption | null;
  readonly chain: ChainPart | null;
  readonly weight: WeightPart | null;
  /** Problems of the rear derailleur with the cassette, each a sentence. */
  readonly cassetteProblems: readonly string[];
  readonly topLine: string | null;
  /** Whether a motor at the cranks has the say on the ring: then it, and no bolt circle, must take it. */
  readonly driveUnit: 'certain' | 'possible' | null;
  readonly boltLine: string | null;
  /** That the chain is due, where it was told and is. */
  readonly wearLine: string | null;
  /** The answer of a crank that takes no ring at all; null where it takes some. */
  readonly mountAnswer: string | null;
  /** What to do about such a crank; empty where it takes rings. */
  readonly crankLines: readonly string[];
};

/** The plan in one line: which ring, what it costs in gears, what happens to the chain. */
export function planAnswer(facts: PlanFacts): string {
  const { gears, speaksOf, ring, chain, cassetteProblems, mountAnswer } = facts;
  const [problem] = cassetteProblems;
  if (problem !== undefined)
    return fitting([`Not with this rear derailleur: ${problem}.`, 'Not with this rear derailleur.']);
  if (ring === null || speaksOf === null) {
    return fitting([mountAnswer ?? 'No single ring fits this bike as told.', 'No single ring fits this bike as told.']);
  }
  if (speaksOf.because === 'wanted-cannot-fit' && speaksOf.teeth === gears.wantedTeeth) {
    return `${speaksOf.teeth}T cannot be fitted, nor any other single ring on this bike as told.`;
  }
  const [reason] = ring.reasons;
  if (ring.fit === 'no' && reason !== undefined) {
    const named = reason.startsWith(`${ring.teeth}T`) ? reason : `${ring.teeth}T cannot be fitted: ${reason}`;
    return fitting([`${named}.`, `${ring.teeth}T cannot be fitted.`]);
  }
  const trade = `${lowestWords(ring.lowestChangePct)}, ${highestWords(ring.highestChangePct)}`;
  const chainWords = chainShort(chain, facts.wearLine !== null);
  const lead = leadWords(gears, speaksOf, ring, facts.driveUnit);
  return fitting([`${lead}: ${trade}${chainWords}.`, `${lead}: ${trade}.`]);
}

function leadWords(
  { wantedTeeth }: GearsFacts,
  { teeth, because }: SpeaksOf,
  { fit }: RingOption,
  driveUnit: PlanFacts['driveUnit'],
): string {
  switch (because) {
    case 'wanted':
      return fit === 'check' ? `${teeth}T, once its fit is checked` : `${teeth}T`;
    case 'recommended':
      return `${teeth}T suits best`;
    case 'provisional':
      if (driveUnit === 'certain') return `${teeth}T, if the motor's maker lists it`;
      return driveUnit === 'possible'
        ? `${teeth}T, if crank or motor takes it`
        : `${teeth}T, if the bolt circle takes it`;
    case 'wanted-cannot-fit':
      return wantedTeeth !== null && wantedTeeth % 2 !== 0
        ? `${wantedTeeth}T is odd, so not narrow-wide; ${teeth}T`
        : `${wantedTeeth}T cannot be fitted; ${teeth}T`;
  }
}

function chainShort(chain: ChainPart | null, worn: boolean): string {
  if (chain === null) return '';
  if (chain.targetPitches === null) return '; do not cut the chain yet';
  if (worn) return `; new chain, ${chain.targetPitches} pitches`;
  const length = `; chain ${chain.targetPitches} pitches`;
  if (chain.removePitches !== null && chain.removePitches > 0) return `${length}, take ${chain.removePitches} out`;
  return chain.addPitches !== null && chain.addPitches > 0 ? `${length}, add ${chain.addPitches}` : length;
}

/** The first of the wordings that is short enough; the last is written to be. */
function fitting(wordings: readonly string[]): string {
  return wordings.find((each) => each.length <= ANSWER_CHARACTERS) ?? wordings.at(-1) ?? '';
}

/** The few facts that matter most, at most five; what stands in the way of the plan comes first. */
export function planLines(facts: PlanFacts): readonly string[] {
  const { gears, ring, chain, weight } = facts;
  const { now } = gears;
  const lines: string[] = facts.cassetteProblems.slice(1).map((each) => `And ${each}.`);
  if (facts.cassetteProblems.length > 0) lines.push(wayOutLine(gears));
  lines.push(...facts.crankLines);
  if (ring === null) {
    lines.push(
      `Gears now: ${ratio(now.lowestRatio)} to ${ratio(now.highestRatio)}, range ${plain(now.rangePct, 0)} %.`,
    );
    return lines.slice(0, MOST_LINES);
  }
  const [reason] = ring.reasons;
  if (ring.fit === 'check' && reason !== undefined) lines.push(`${ring.teeth}T, check first: ${reason}.`);
  const cassette = gears.cassetteThen === gears.cassetteNow ? '' : ` with ${endsText(gears.cassetteThen)}`;
  lines.push(
    `Gears: ${ratio(ring.lowestRatio)} to ${ratio(ring.highestRatio)}${cassette}, range ${plain(ring.rangePct, 0)} %; now ${ratio(now.lowestRatio)} to ${ratio(now.highestRatio)}, ${plain(now.rangePct, 0)} %.`,
  );
  if (facts.topLine !== null) lines.push(facts.topLine);
  if (facts.wearLine !== null) lines.push(facts.wearLine);
  if (chain !== null) lines.push(chainLine(chain, facts.wearLine !== null));
  if (facts.boltLine !== null) lines.push(facts.boltLine);
  if (weight !== null) lines.push(`Weight: ${weightWords(weight, 'about')}`);
  return lines.slice(0, MOST_LINES);
}

/** What to do about a cassette that the rear derailleur does not take. */
function wayOutLine({ cassetteThen, cassetteNow }: GearsFacts): string {
  const { smallestTeeth, largestTeeth } = cassetteThen;
  const other = `a rear derailleur for ${largestTeeth}T and ${largestTeeth - smallestTeeth} teeth of capacity`;
  return cassetteThen === cassetteNow ? `It takes ${other}.` : `It takes ${other}, or the cassette of today.`;
}

function chainLine(chain: ChainPart, worn: boolean): string {
  if (chain.targetPitches === null) return `Chain: no length yet, ${chain.gateReason ?? 'a measure is missing'}.`;
  const target = `Chain: ${pitches(chain.targetPitches)}`;
  if (worn) return `${target}, cut from the new one.`;
  if (chain.removePitches !== null && chain.removePitches > 0) {
    return `${target}; take out ${chain.removePitches} (${pairs(chain.removePitches)}).`;
  }
  if (chain.addPitches !== null && chain.addPitches > 0)
    return `${target}; add ${chain.addPitches} (${pairs(chain.addPitches)}).`;
  return chain.removePitches === 0 ? `${target}; yours has that already.` : `${target}.`;
}

function pairs(pitchCount: number): string {
  const count = pitchCount / 2;
  return count === 1 ? 'one pair' : `${count} pairs`;
}

/** A short paragraph that opens a section: its headline and its few facts. */
export function sectionText(section: Block['section'], title: string, lines: readonly string[]): Block {
  return { kind: 'text', section, title, lines };
}

/**
 * The words for a bike of which too little is known to plan anything. `known` are the headlines of what can be answered
 * all the same, the most telling first: somebody who asked about a bolt circle wants that before anything else.
 */
export function notYetWords(
  bike: SettledBike,
  known: readonly string[],
): {
  readonly answer: string;
  readonly lines: readonly string[];
} {
  const [first, ...others] = known;
  const half = bike.rings !== undefined || bike.cassette !== undefined;
  const missing = half
    ? 'Nearly there: gears old and new need the rings and the cassette fitted now.'
    : 'Tell me the rings and the cassette, and there is a plan with every number.';
  const example = 'For example: convert 2x10 36/22 11-36 29er hardtail 104bcd';
  if (first !== undefined && first.length <= ANSWER_CHARACTERS) {
    return { answer: first, lines: [...others.slice(0, 3), missing, example] };
  }
  return {
    answer: missing,
    lines: [
      example,
      'The free trial: leave the front shifter alone for two weeks and ride in one ring.',
      'If you never missed the other, one ring will do.',
    ],
  };
}
