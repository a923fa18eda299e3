import type { Question } from '../bike/reading.ts';
import type { Block } from './card.ts';

/** The words for a setup line that contradicts itself or can mean two things: what is to be settled, and how. */
export function conflictWords(asks: readonly Question[]): {
  readonly answer: string;
  readonly lines: readonly string[];
  readonly blocks: readonly Block[];
} {
  return {
    answer:
      asks.length === 1
        ? 'One question before there is a plan: part of this can be read two ways.'
        : `${asks.length} questions before there is a plan: parts of this do not fit together.`,
    lines: asks.map((each) => each.question),
    blocks: questionBlocks(asks),
  };
}

/** One set of buttons for each question that has ready answers. */
export function questionBlocks(asks: readonly Question[]): readonly Block[] {
  return asks
    .filter((each) => each.choices.length > 0)
    .map((each) => ({ kind: 'actions', section: 'summary', title: each.question, actions: each.choices }));
}
