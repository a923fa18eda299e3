import type { Deed } from './deeds.ts';

/** Somebody who asks, as every platform can name them. */
export type Asker = {
  /** Number of the server or workspace they are in. */
  readonly place: number;
  readonly person: number;
  readonly runsPlace: boolean;
};

/** How often a delivery comes: once, or again to the same process or another, at once or later. */
export type Again = 'no' | 'same' | 'other' | 'later';

/** What the person saw of an answer, and when, counted from their question. */
export type Shown = {
  readonly words: string;
  /** The platform had its first answer; null where it never came. */
  readonly firstMs: number | null;
  /** The words were there. */
  readonly wordsMs: number | null;
  /** To how many processes it went. */
  readonly processes: number;
};

/** One way in: a platform, a transport, and the processes that serve it. */
export type Front = {
  readonly name: string;
  readonly platform: 'discord' | 'slack';
  /** How many processes serve it. */
  readonly count: number;
  /** What the main module of the program is, and its settings. */
  readonly main: string;
  readonly env: Readonly<Record<string, string>>;
  readonly placeName: (place: number) => string;
  readonly personName: (person: number) => string;
  readonly ask: (deed: Deed, asker: Asker, again: Again) => Promise<Shown>;
  /** Sends one thing that is no question, and gives what is wrong with how it was taken; null where nothing is. */
  readonly garbage: (which: number) => Promise<string | null>;
};

/** As long as anybody waits for words; longer than every wait of the program, one after the other. */
export const PATIENCE_MS = 9000;

/** A delivery that comes later comes after so long. */
export const LATER_MS = { low: 300, high: 1500 } as const;
