import type { Bike } from './bike/bike.ts';
import type { Assumption, Question, Refusal } from './bike/reading.ts';
import type { Card } from './card/card.ts';
import type { JobSheet } from './card/job-sheet.ts';
import type { Answer } from './commands/answer.ts';

/** A question as an adapter hands it to the desk, in the person's own words. */
export type Request = {
  readonly command: string;
  readonly setup: string;
  /** Typed options as `key` to text, read exactly like `key=value` in the setup line. */
  readonly options?: Readonly<Record<string, string>>;
  /** The bike of the question before: what is told now is laid over it. */
  readonly known?: Bike;
};

/** A page to print: what stands on it, the paper, and the name of the file. */
export type Printable = { readonly sheet: JobSheet; readonly paper: 'a4' | 'letter'; readonly name: string };

/** Under which code an answer is kept, and which rules gave it; `again` when it was given before and is shown once more. */
export type Receipt = { readonly code: string; readonly rules: string; readonly again: boolean };

/** What the desk answers. `asks` is a question back: nothing was planned, because going on would be a guess. */
export type Reply =
  | {
      readonly kind: 'answered';
      readonly command: string;
      readonly read: Bike;
      readonly assumed: readonly Assumption[];
      readonly asks: readonly Question[];
      /** Words that meant nothing here, so that nothing is left out in silence. */
      readonly unread: readonly string[];
      readonly answer: Answer;
      readonly card: Card;
      /** The code this answer is kept under, and whether it was given before; null where nothing could be kept. */
      readonly receipt?: Receipt | null;
    }
  | {
      readonly kind: 'asks';
      readonly command: string;
      readonly read: Bike;
      readonly assumed: readonly Assumption[];
      readonly asks: readonly Question[];
      readonly unread: readonly string[];
      readonly refusal: Refusal;
      readonly card: Card;
      /** The code the question is kept under, so that a choice settles it later and elsewhere. */
      readonly receipt?: Receipt | null;
    }
  | {
      /** Something about what is kept was shown or changed. */
      readonly kind: 'kept';
      readonly command: string;
      readonly action: string;
      /** Whether others may see it at once; else it is private first. */
      readonly public: boolean;
      readonly result: unknown;
      readonly card: Card;
      /** A page that an adapter may hand out as a file. */
      readonly print?: Printable;
    }
  | { readonly kind: 'refused'; readonly command: string; readonly refusal: Refusal; readonly card: Card };
