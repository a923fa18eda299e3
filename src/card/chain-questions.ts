import type { Question } from '../bike/reading.ts';
import type { ChainGateReason } from '../solve/chain-length.ts';
import { plain } from './measures.ts';

const STAYS: Question = {
  field: 'stays',
  question: 'How long are the chainstays, crank axle to wheel axle?',
  choices: [],
};

const LONGEST: Question = {
  field: 'longest',
  question: 'How far is it from crank axle to wheel axle with the suspension at its longest?',
  choices: [{ label: 'No rear suspension', setup: 'suspension=none' }],
};

const LONGEST_UNDER_STAY: Question = {
  field: 'longest',
  question: 'The longest axle distance is under the chainstay. Which of the two is misread?',
  choices: [],
};

const COUNT: Question = {
  field: 'chain',
  question: 'How many pitches has your chain? Count every pin once round, those of the joining link too.',
  choices: [],
};

const CASSETTE: Question = {
  field: 'cassette',
  question: 'Which cassette is fitted, smallest and largest sprocket?',
  choices: [],
};

/** The question that opens the gate again. */
export function gateQuestion(reason: ChainGateReason): Question {
  switch (reason) {
    case 'longest-unknown':
      return LONGEST;
    case 'stay-unknown':
      return STAYS;
    case 'longest-under-stay':
      return LONGEST_UNDER_STAY;
  }
}

/** Asks for the count of the present chain, again where the one told cannot be a loop; null where it stands. */
export function countQuestion(presentPitches: number | null): Question | null {
  if (presentPitches === null) return COUNT;
  if (presentPitches % 2 === 0) return null;
  const lower = plain(presentPitches - 1, 0);
  const upper = plain(presentPitches + 1, 0);
  return {
    field: 'chain',
    question: `Count your chain again: ${presentPitches} is odd and a loop is even. Is it ${lower} or ${upper} pitches?`,
    choices: [
      { label: `${lower} pitches`, setup: `chain=${lower}` },
      { label: `${upper} pitches`, setup: `chain=${upper}` },
    ],
  };
}

/** Asks which ring the chain is for; `sizes` become the buttons. */
export function ringQuestion(sizes: readonly number[]): Question {
  return {
    field: 'ring',
    question: 'Which ring is the chain for?',
    choices: sizes.map((teeth) => ({ label: `${teeth}T`, setup: `ring=${teeth}` })),
  };
}

/** Asks for the cassette. */
export function cassetteQuestion(): Question {
  return CASSETTE;
}
