import type { Question } from '../bike/reading.ts';
import type { SettledBike } from '../bike/settled.ts';
import { wearBlocks, wearHeadline, wearLines } from '../card/wear.ts';
import { chainWear } from '../solve/chain-wear.ts';
import type { WearPart } from './answer.ts';
import type { Command, Outcome } from './command.ts';
import { driveParts } from './drive-parts.ts';

const WEAR_QUESTION: Question = {
  field: 'wear',
  question: 'What does the chain gauge or ruler say, in per cent?',
  choices: [
    { label: '0.5 %', setup: 'wear=0.5' },
    { label: '0.75 %', setup: 'wear=0.75' },
    { label: '1 %', setup: 'wear=1' },
  ],
};

const SPEEDS_QUESTION: Question = {
  field: 'speeds',
  question: 'How many sprockets has the cassette?',
  choices: [
    { label: '9', setup: 'speeds=9' },
    { label: '10', setup: 'speeds=10' },
    { label: '11', setup: 'speeds=11' },
    { label: '12', setup: 'speeds=12' },
  ],
};

/** What the wear told means on this bike's present cassette. */
export function wearPart(bike: SettledBike): WearPart {
  const wearPct = bike.wearPct ?? null;
  const speeds = bike.speeds ?? bike.cassette?.sprockets?.length ?? null;
  const found = chainWear({ wearPct, speeds });
  return {
    wearPct,
    speeds,
    replaceAtPct: found.replaceAtPct,
    verdict: found.kind === 'found' ? found.verdict : null,
  };
}

function answer(bike: SettledBike): Outcome {
  const part = wearPart(bike);
  const asks: Question[] = [];
  if (part.wearPct === null) asks.push(WEAR_QUESTION);
  if (part.speeds === null && part.verdict === null) asks.push(SPEEDS_QUESTION);
  const drive = driveParts(bike);
  return {
    kind: 'answered',
    answer: { wear: part, ...drive.parts },
    words: {
      answer: wearHeadline(part),
      lines: wearLines(part),
      blocks: [...drive.cautions, ...wearBlocks(part), ...drive.notes],
    },
    assumed: [],
    asks: [...asks, ...drive.asks],
  };
}

export const wear: Command = {
  name: 'wear',
  summary: 'Whether the chain is due, and when cassette and rings go with it',
  keys: ['wear', 'speeds', 'cassette', 'assist', 'tandem'],
  examples: ['wear=0.75 speeds=10', 'wear=0.6 12 speed'],
  answer,
};
