import type { Dialect, Kysely } from 'kysely';
import type { Place } from '../../src/records/place.ts';
import type { Tables } from './tables.ts';

/** The words of one standard answer, ready for an engine's own index. */
export type WordsOf = {
  readonly topic: readonly string[];
  readonly aliases: readonly string[];
  readonly body: readonly string[];
  /** Pairs of letters of topic and aliases, for names that are spelt nearly right. */
  readonly pairs: readonly string[];
};

/** An engine's full text search over standard answers. `id` is the answer's number. */
export type WordIndex = {
  readonly put: (db: Kysely<Tables>, place: Place, id: number, topic: string, words: WordsOf) => Promise<void>;
  readonly remove: (db: Kysely<Tables>, id: number) => Promise<void>;
  /** Topics in the place that hold all of the words, each whole or as a beginning, the best first. */
  readonly withAll: (db: Kysely<Tables>, place: Place, words: readonly string[], most: number) => Promise<string[]>;
  /** Topics in the place that share any of the pairs of letters, those that share most first. */
  readonly withPairs: (db: Kysely<Tables>, place: Place, pairs: readonly string[], most: number) => Promise<string[]>;
  /** Puts together what many changes left in many pieces, a little at a time; null where the engine does so itself. */
  readonly tidy: ((db: Kysely<Tables>) => Promise<void>) | null;
};

/** All in which the two engines differ, as facts; everything else is written once. */
export type Engine = {
  readonly dialect: Dialect;
  /**
   * A way of its own for migrations, where a statement may take as long as it takes: a question is given up after
   * seconds. Null where the usual way has no such limit.
   */
  readonly unhurried: (() => Dialect) | null;
  /** The type of a key that numbers its rows by itself. */
  readonly numberedKey: string;
  /** Statements that make the word index. */
  readonly wordIndexTables: readonly string[];
  /** Statements after which the log of a job can be added to and not rewritten. */
  readonly eventGuard: readonly string[];
  /** Keeps other processes out while tables are made, until the transaction ends; null where beginning one does. */
  readonly migrationLock: string | null;
  readonly words: WordIndex;
  /** Whether a connection lost while saving leaves it unknown if the work was kept. */
  readonly savesOverNetwork: boolean;
  /** Wipes what deleted rows left in the file; false when it must be tried again later. Null where no file is ours. */
  readonly wipe: ((db: Kysely<Tables>) => Promise<boolean>) | null;
};
