import type { KeyName } from '../bike/keys.ts';
import type { Assumption, Question, Refusal } from '../bike/reading.ts';
import type { SettledBike } from '../bike/settled.ts';
import type { Block } from '../card/card.ts';
import type { Answer } from './answer.ts';

/** What a command says of a bike: the machine-readable parts and the words, or what it must know first. */
export type Outcome =
  | {
      readonly kind: 'answered';
      readonly answer: Answer;
      readonly words: Words;
      /** What was assumed beyond the stated defaults. */
      readonly assumed: readonly Assumption[];
      /** The one that changes the answer most first; the desk shows three. */
      readonly asks: readonly Question[];
    }
  | { readonly kind: 'asks'; readonly words: Words; readonly asks: readonly Question[] }
  | { readonly kind: 'refused'; readonly refusal: Refusal };

/** A card without its read-back line, which the desk adds. */
export type Words = {
  readonly answer: string;
  readonly lines: readonly string[];
  readonly blocks: readonly Block[];
};

/** One command, the same on every platform; every adapter registers from the list in `list.ts`. */
export type Command = {
  readonly name: string;
  /** At most 100 characters: the shortest limit among the platforms. */
  readonly summary: string;
  /** The keys it looks at, the most telling first. */
  readonly keys: readonly KeyName[];
  /** Setup lines that work, ready to copy. */
  readonly examples: readonly string[];
  readonly answer: (bike: SettledBike) => Outcome;
};
