import type { Value } from './fields.ts';
import type { KeyName } from './keys.ts';
import type { Label } from './phrases.ts';
import type { Quantity } from './quantities.ts';
import type { Question, Refusal } from './reading.ts';

/** One number, not yet placed. `text` is as it was written, its unit with it. */
export type Amount = {
  readonly kind: 'amount';
  readonly quantity: Quantity;
  readonly text: string;
  /** It stood behind a word such as "to" or "want". */
  readonly toward?: true;
  /** It was told of the bike as it is: "now", "fitted". */
  readonly present?: true;
  /** The sprockets of the "1x12" that is wanted and stood before it. */
  readonly wanting?: number;
};

/** Numbers that belong together, not yet placed. */
export type List = {
  readonly kind: 'list';
  readonly numbers: readonly number[];
  /** What joined them. A dash between two is a range; a slash also divides a ring by a sprocket. */
  readonly joint: '-' | '/' | ',';
  readonly text: string;
  /** The sprockets of the "1x12" that is wanted and stood before it. */
  readonly wanting?: number;
};

/** What the words of a setup line turn into, in the order they stood. */
export type Item =
  | Amount
  | List
  | {
      readonly kind: 'label';
      readonly label: Label;
      readonly text: string;
      readonly present?: true;
      /** A key by its own name: where a number stands behind it, it says nothing of the one before. */
      readonly ahead?: true;
    }
  | {
      readonly kind: 'fact';
      readonly key: KeyName;
      readonly value: Value;
      readonly text: string;
      readonly forced?: true;
    }
  | { readonly kind: 'layout'; readonly rings: number; readonly speeds: number | null; readonly text: string }
  | { readonly kind: 'usual-rings'; readonly rings: readonly number[]; readonly text: string }
  | {
      readonly kind: 'part';
      readonly part: 'ring' | 'smallest' | 'largest';
      readonly teeth: number;
      readonly text: string;
    }
  | { readonly kind: 'uneven'; readonly text: string }
  | { readonly kind: 'mech' }
  | { readonly kind: 'break' }
  | { readonly kind: 'unread'; readonly text: string }
  | { readonly kind: 'open'; readonly question: Question; readonly forced?: true }
  /** `about` are the keys any of which settles it; the question's own field where none are named. */
  | { readonly kind: 'doubt'; readonly question: Question; readonly about?: readonly KeyName[] }
  | { readonly kind: 'refused'; readonly refusal: Refusal };
