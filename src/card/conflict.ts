import type { Block } from './card.ts';

/** The words for a setup line that contradicts itself or can mean two things; the questions follow on the card. */
export function conflictWords(count: number): {
  readonly answer: string;
  readonly lines: readonly string[];
  readonly blocks: readonly Block[];
} {
  return {
    answer:
      count === 1
        ? 'One question before there is a plan: part of this can be read two ways.'
        : `${count} questions before there is a plan: parts of this do not fit together.`,
    lines: ['Nothing is worked out on a guess. What you typed is kept.'],
    blocks: [],
  };
}
