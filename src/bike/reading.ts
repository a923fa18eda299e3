import type { Bike } from './bike.ts';
import type { KeyName } from './keys.ts';

/** A short question back to the person, with the answers that settle it as buttons. */
export type Question = {
  readonly field: KeyName;
  readonly question: string;
  /** Each choice is a label and the words that, added to the setup line, settle the question. May be empty. */
  readonly choices: readonly { readonly label: string; readonly setup: string }[];
};

/** One calm sentence about input that cannot be used. Texts a person typed are cut to 40 characters, never repeated whole. */
export type Refusal = {
  /** The key, or "setup", "command", or the name of an action's field. */
  readonly field: string;
  /** What was read and what is wrong with it. */
  readonly message: string;
  /** What is allowed, and by which source. */
  readonly allowed: string;
  /** Something that works, ready to copy. */
  readonly example: string;
};

/**
 * What a setup line says. `conflicts` are ambiguities and contradictions: until they are settled there is no plan,
 * because going on would be a guess. `open` are ambiguities that leave one field unknown and harm nothing else
 * (16 in wheels have two bead seats). `unread` are words that mean nothing here, in the order they stood.
 */
export type Reading =
  | {
      readonly kind: 'read';
      readonly bike: Bike;
      readonly conflicts: readonly Question[];
      readonly open: readonly Question[];
      readonly unread: readonly string[];
    }
  | { readonly kind: 'refused'; readonly refusal: Refusal };

/** A value nobody told us that an answer rests on; shown on the card and in the machine-readable answer. */
export type Assumption = {
  readonly field: KeyName;
  readonly value: string | number;
  readonly basis: string;
};
