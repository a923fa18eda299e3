import type { Question } from '../bike/reading.ts';
import type { SettledBike } from '../bike/settled.ts';
import { chainBlocks, chainHeadline, chainLines, gateReasonWords } from '../card/chain.ts';
import { chainFigure } from '../card/chain-figure.ts';
import { cassetteQuestion, countQuestion, gateQuestion, ringQuestion } from '../card/chain-questions.ts';
import { axleDistance, chainLength, chainTargetPitches } from '../solve/chain-length.ts';
import type { ChainPart } from './answer.ts';
import type { Command, Outcome } from './command.ts';
import { driveParts } from './drive-parts.ts';

const MAX_ASKS = 3;

function sprocketTeethOf(bike: SettledBike): number | null {
  return bike.newCassette?.largestTeeth ?? bike.cassette?.largestTeeth ?? null;
}

function lengthsOf(bike: SettledBike) {
  return { stayMm: bike.stayMm ?? null, longestMm: bike.longestMm ?? null, suspension: bike.suspension };
}

function oldTarget(bike: SettledBike, centreMm: number): number | null {
  const ringTeeth = bike.rings?.[0];
  const sprocketTeeth = bike.cassette?.largestTeeth;
  if (ringTeeth === undefined || sprocketTeeth === undefined) return null;
  return chainTargetPitches({ ringTeeth, sprocketTeeth, centreMm, allowancePitches: bike.allowancePitches });
}

/** The chain for a ring on this bike, its new cassette if it gets one; null while no cassette is known. */
export function chainPart(bike: SettledBike, ringTeeth: number): ChainPart | null {
  const sprocketTeeth = sprocketTeethOf(bike);
  if (sprocketTeeth === null) return null;
  const told = {
    ringTeeth,
    sprocketTeeth,
    allowancePitches: bike.allowancePitches,
    presentPitches: bike.chainPitches ?? null,
  };
  const found = chainLength({ ...told, ...lengthsOf(bike) });
  if (found.kind === 'cannot') {
    return {
      ...told,
      gate: 'measure-first',
      gateReason: gateReasonWords(found.reason),
      centreMm: null,
      wrapPitches: null,
      targetPitches: null,
      targetPairs: null,
      targetMm: null,
      removePitches: null,
      addPitches: null,
      alternativeRulePitches: null,
      byAllowance: [],
      growthMm: null,
      growthPitches: null,
      oldTargetPitches: null,
      boundaryStayMm: null,
    };
  }
  const { kind, ...numbers } = found;
  return { ...told, gate: 'clear', gateReason: null, ...numbers, oldTargetPitches: oldTarget(bike, found.centreMm) };
}

/** What the rider could still tell that changes the chain, the most telling first. */
export function chainAsks(bike: SettledBike): readonly Question[] {
  const asks: Question[] = [];
  const axles = axleDistance(lengthsOf(bike));
  if (axles.kind === 'cannot') asks.push(gateQuestion(axles.reason));
  const count = countQuestion(bike.chainPitches ?? null);
  if (count !== null) asks.push(count);
  return asks;
}

/** Ring sizes worth a button: even ones between the rings there are, from the middle up. */
function likelyRings(rings: readonly number[] | undefined): readonly number[] {
  const largest = rings?.[0];
  const smallest = rings?.at(-1);
  if (largest === undefined || smallest === undefined) return [];
  const middle = rings?.length === 3 ? (rings[1] ?? smallest) - 2 : (largest + smallest) / 2;
  const first = 2 * Math.ceil(middle / 2);
  return [first, first + 2, first + 4];
}

function answer(bike: SettledBike): Outcome {
  const only = bike.rings?.length === 1 ? bike.rings[0] : undefined;
  const ringTeeth = bike.ringTeeth ?? only;
  const part = ringTeeth === undefined ? null : chainPart(bike, ringTeeth);
  const asks = chainAsks(bike);
  if (part === null) {
    const first: Question[] = [];
    if (ringTeeth === undefined) first.push(ringQuestion(likelyRings(bike.rings)));
    if (sprocketTeethOf(bike) === null) first.push(cassetteQuestion());
    return {
      kind: 'asks',
      words: {
        answer: 'A chain is sized on its ring, its largest sprocket and the axle distance.',
        lines: ['Tell what is missing and the length follows.'],
        blocks: [],
      },
      asks: [...first, ...asks].slice(0, MAX_ASKS),
    };
  }
  const figure = chainFigure(part, bike.join ?? null);
  const drive = driveParts(bike);
  return {
    kind: 'answered',
    answer: { chain: part, ...drive.parts },
    words: {
      answer: chainHeadline(part, bike),
      lines: chainLines(part, bike),
      blocks: [...drive.cautions, ...chainBlocks(part, bike), ...(figure === null ? [] : [figure]), ...drive.notes],
    },
    assumed: [],
    asks: [...asks, ...drive.asks],
  };
}

export const chain: Command = {
  name: 'chain',
  summary: 'How long the chain must be for a ring, and what to take out or put in',
  keys: [
    'ring',
    'cassette',
    'newcassette',
    'stays',
    'suspension',
    'longest',
    'chain',
    'rings',
    'allowance',
    'join',
    'speeds',
    'clutch',
    'oval',
    'assist',
    'tandem',
  ],
  examples: [
    'rings=36/22 cassette=11-36 ring=32 stays=440mm chain=108',
    'ring=32 newcassette=11-42 suspension=rear stays=435mm longest=452mm',
  ],
  answer,
};
