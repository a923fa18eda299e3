import type { Question } from '../bike/reading.ts';
import { holeSpacingMm, type ListedCircle } from '../solve/bolt-circle.ts';
import type { CrankCircle } from '../solve/crank-circle.ts';
import { UNEVEN_PATTERNS } from '../tables/bolt-circles.ts';
import { circleName } from './fit-reasons.ts';
import { plain } from './measures.ts';

const MOST_CHOICES = 7;

function circleChoice(circle: ListedCircle): Question['choices'][number] {
  return { label: circleName(circle), setup: `bcd=${circle.bcdMm} bolts=${circle.bolts}` };
}

/** Asks for what settles the bolt circle. */
export function circleQuestion(circle: Extract<CrankCircle, { kind: 'cannot' }>): Question {
  const choices = circle.circles.slice(0, MOST_CHOICES).map(circleChoice);
  switch (circle.reason) {
    case 'unknown':
      return {
        field: 'bcd',
        question: 'How is the ring held? A bolt circle is often stamped on the back of a ring.',
        choices: [
          ...choices,
          { label: 'No bolts on the arms: direct mount', setup: 'mount=direct' },
          { label: 'Rivets', setup: 'mount=riveted' },
        ],
      };
    case 'uneven-label-unknown':
      return {
        field: 'bcd',
        question: 'Which circle is stamped on the uneven ring? Else measure from one hole to the opposite one.',
        choices: UNEVEN_PATTERNS.map((each) => ({
          label: circleName(each),
          setup: `bcd=${each.bcdMm} bolts=${each.bolts} pattern=uneven`,
        })),
      };
    case 'told-is-a-gap':
      return {
        field: 'bcd',
        question: 'Was that the gap between two neighbouring bolts? Then the circle is:',
        choices,
      };
    case 'several':
      return {
        field: 'bcd',
        question: 'The gap alone does not settle the circle. Which is stamped on the ring?',
        choices,
      };
    case 'uneven-pattern':
      return {
        field: 'bcd',
        question: 'The two gaps differ. Which circle is stamped, or how far apart are opposite holes?',
        choices,
      };
    case 'told-and-gap-disagree': {
      const [told] = circle.circles;
      const kept = told === undefined ? null : plain(holeSpacingMm(told.bcdMm, told.bolts), 1);
      return {
        field: 'gap',
        question: 'The circle and the gap do not belong together. Which of the two is right?',
        choices: circle.circles.slice(0, MOST_CHOICES).map((each, index) =>
          index === 0 && kept !== null
            ? {
                label: `${circleName(each)}, gap ${kept} mm`,
                setup: `bcd=${each.bcdMm} bolts=${each.bolts} gap=${kept}mm`,
              }
            : circleChoice(each),
        ),
      };
    }
    case 'no-listed-circle':
      return {
        field: 'gap',
        question: 'No listed circle has this gap. Measure again: same edge to same edge of neighbouring holes.',
        choices: [],
      };
  }
}

/** Asks for the second of two gaps, which shows whose uneven pattern it may be. */
export function unevenGapsQuestion(): Question {
  return {
    field: 'gap',
    question: 'What are the two different gaps between neighbouring holes, as in gap=66.5/68.2?',
    choices: [],
  };
}

/** Asks how many rings the bolts hold today; `most` is how many are fitted. */
export function sharingQuestion(most: number): Question {
  const counts = Array.from({ length: Math.max(most, 2) }, (_, index) => index + 1);
  return {
    field: 'sharing',
    question: 'How many rings do these same bolts hold today?',
    choices: counts.map((count) => ({
      label: count === 1 ? '1 ring' : `${count} rings`,
      setup: `sharing=${count}`,
    })),
  };
}

/** Asks for the bolts: counted differently from what is listed, or not at all. */
export function boltsQuestion(bcdMm: number, told: number | null, listed: readonly number[]): Question {
  const counts = listed.join(' or ');
  return {
    field: 'bolts',
    question:
      told === null
        ? `How many ring bolts: ${counts}?`
        : `The listed ${plain(bcdMm, 1)} mm circle has ${counts} bolts, not ${told}. Would you count again?`,
    choices: listed.map((count) => ({ label: `${count} bolts`, setup: `bolts=${count}` })),
  };
}
