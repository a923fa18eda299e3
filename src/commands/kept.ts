import type { Refusal } from '../bike/reading.ts';
import type { Who } from '../records/place.ts';
import type { Records } from '../records/records.ts';
import type { Printable, Receipt, Reply, Request } from '../request.ts';
import type { Words } from './command.ts';

/** One thing a person may fill in for an action: a word of the line, `name=value`, or a typed option. */
export type Field = {
  readonly name: string;
  readonly label: string;
  /** `word` ends at a blank, `text` takes the rest of the line, `whole` is a number without decimals. */
  readonly form: 'word' | 'text' | 'whole' | 'number' | 'yes-no' | 'choice';
  readonly required: boolean;
  readonly choices?: readonly string[];
  readonly example: string;
  /** What autocomplete may offer: the asker's bikes, the place's topics, open jobs, the asker's receipts. */
  readonly suggest?: 'bikes' | 'topics' | 'jobs' | 'receipts';
};

/** Who asks, where, and with which rights; the platform vouches for the roles. */
export type Visitor = {
  readonly who: Who;
  readonly roles: readonly string[];
  /** The platform says this person runs the place: they may do what the settings would otherwise forbid. */
  readonly runsPlace: boolean;
};

/** What an action may use. Clock and chance come in as values, so that the same call gives the same result. */
export type Visit = Visitor & {
  readonly records: Records;
  readonly nowMs: number;
  readonly randomBytes: (count: number) => Uint8Array;
  /** Keeps an answer under a receipt code; null where nothing can be kept just now. */
  readonly keep: (reply: Extract<Reply, { readonly kind: 'answered' }>, request: Request) => Promise<Receipt | null>;
  /** Answers a question about a bike, without keeping anything. */
  readonly solve: (request: Request) => Exclude<Reply, { readonly kind: 'kept' }>;
};

/** What came of it: words for a person and the same as data, or a calm refusal. */
export type KeptOutcome =
  | { readonly kind: 'done'; readonly words: Words; readonly result: unknown; readonly print?: Printable }
  | { readonly kind: 'refused'; readonly refusal: Refusal };

/** Field values as told; absent is not told. */
export type Filled = Readonly<Record<string, string>>;

export type Action = {
  readonly name: string;
  readonly summary: string;
  /** Only those whom the settings let pin, and those who run the place. */
  readonly moderators: boolean;
  /** Whether the answer may be seen by others at once; else it is private first. */
  readonly public: boolean;
  readonly fields: readonly Field[];
  readonly run: (filled: Filled, visit: Visit) => Promise<KeptOutcome>;
};

/** A command about what is kept: one word for the thing, one for what to do with it, then its fields. */
export type KeptCommand = {
  readonly name: string;
  readonly summary: string;
  readonly actions: readonly Action[];
};
