import { Kysely, type LogConfig } from 'kysely';
import { ConfigError } from '../../src/config-error.ts';
import type { Place } from '../../src/records/place.ts';
import { StorageAway } from '../../src/records/storage-away.ts';
import type { Engine, WordsOf } from './engine.ts';
import { isUpToDate } from './migrations.ts';
import { type Migrating, openPreparing } from './preparing.ts';
import { type Across, across, inPlace, type Scope } from './scope.ts';
import type { Tables } from './tables.ts';
import { awayCode, orAway } from './trouble.ts';

/** One place of the database: its tables, and the index of its words. */
export type InPlace = {
  readonly scope: Scope;
  readonly words: {
    readonly put: (id: number, topic: string, words: WordsOf) => Promise<void>;
    readonly remove: (id: number) => Promise<void>;
    readonly withAll: (words: readonly string[], most: number) => Promise<string[]>;
    readonly withPairs: (pairs: readonly string[], most: number) => Promise<string[]>;
  };
};

/** Several places of the database at once: new rows go into each, and what is asked beside that is asked in one. */
export type Together = {
  readonly into: Across;
  readonly scopeOf: (place: Place) => Scope;
};

/** The ways to the tables: reading and changing keep to one place, and a change is all of it or nothing. */
export type PlaceStore = {
  readonly read: <Result>(place: Place, work: (at: InPlace) => Promise<Result>) => Promise<Result>;
  readonly change: <Result>(place: Place, work: (at: InPlace) => Promise<Result>) => Promise<Result>;
  /** For upkeep across all places: the sweep, the wipe and the backup. */
  readonly everywhere: <Result>(work: (db: Kysely<Tables>, engine: Engine) => Promise<Result>) => Promise<Result>;
};

export type Store = PlaceStore & {
  /** To save what many ask to be kept at the same time as one change, all of it or nothing. */
  readonly together: <Result>(work: (at: Together) => Promise<Result>) => Promise<Result>;
  /** Asks nobody and takes no time; where it was not right, it is looked at again for the next who wants to know. */
  readonly tables: () => TablesState;
  readonly close: () => Promise<void>;
};

/**
 * Two writers can meet crosswise, or take the same name between looking and writing; the engine sends one of them back
 * (serialization failure, deadlock, unique violation), who begins again and then sees what the other one did.
 */
const TRIES = 5;
const BEGIN_AGAIN = new Set(['40001', '40P01', '23505']);

/** Whether what is kept can be used, as it was found last. */
export type TablesState =
  | 'right'
  /** It can be reached, and its tables are not (yet) those that this program knows. */
  | 'waiting'
  /** It could not be used, or nobody has looked. */
  | 'away';

export type StoreHow = { readonly migrating?: Migrating; readonly log?: LogConfig };

/** Opens the store without touching the database: the tables are made at first use, and again tried at the next. */
export function openStore(engine: Engine, { migrating = 'start', log }: StoreHow = {}): Store {
  const db = new Kysely<Tables>({ dialect: engine.dialect, ...(log === undefined ? {} : { log }) });
  const ready = openPreparing(db, engine, migrating);
  let state: TablesState = 'away';
  const ask = async <Result>(work: () => Promise<Result>): Promise<Result> => {
    try {
      const result = await orAway(async () => {
        await ready();
        return work();
      });
      state = 'right';
      return result;
    } catch (error) {
      if (error instanceof StorageAway) state = error.code === 'tables' ? 'waiting' : 'away';
      if (error instanceof ConfigError) state = 'waiting';
      throw error;
    }
  };
  /** Whoever opens the records is told that a newer program made the tables; whoever asks later, that storage is away. */
  const answer = async <Result>(work: () => Promise<Result>): Promise<Result> => {
    try {
      return await ask(work);
    } catch (error) {
      throw error instanceof ConfigError ? new StorageAway('tables', { cause: error }) : error;
    }
  };
  const look = async () => {
    if (!(await isUpToDate(db))) throw new StorageAway('tables');
  };
  const at = (handle: Kysely<Tables>, place: Place): InPlace => ({
    scope: inPlace(handle, place),
    words: {
      put: (id, topic, words) => engine.words.put(handle, place, id, topic, words),
      remove: (id) => engine.words.remove(handle, id),
      withAll: (words, most) => engine.words.withAll(handle, place, words, most),
      withPairs: (pairs, most) => engine.words.withPairs(handle, place, pairs, most),
    },
  });
  return {
    read: (place, work) => answer(() => work(at(db, place))),
    change: (place, work) => answer(() => saved(db, engine, (handle) => work(at(handle, place)))),
    everywhere: (work) => ask(() => work(db, engine)),
    together: (work) =>
      answer(() =>
        saved(db, engine, (handle) => work({ into: across(handle, []), scopeOf: (place) => inPlace(handle, place) })),
      ),
    tables: () => {
      // Whoever is not ready is asked nothing else, and would never find out.
      if (state !== 'right') ask(look).catch(() => {});
      return state;
    },
    close: () => db.destroy(),
  };
}

async function saved<Result>(
  db: Kysely<Tables>,
  engine: Engine,
  work: (handle: Kysely<Tables>) => Promise<Result>,
): Promise<Result> {
  for (let tries = 1; ; tries++) {
    let saving = false;
    try {
      return await db.transaction().execute(async (handle) => {
        saving = false;
        const result = await work(handle);
        saving = true;
        return result;
      });
    } catch (error) {
      if (tries < TRIES && BEGIN_AGAIN.has(codeOf(error))) continue;
      if (saving && engine.savesOverNetwork && awayCode(error) === 'gone') {
        throw new StorageAway('gone', { cause: error, certain: false });
      }
      throw error;
    }
  }
}

function codeOf(error: unknown): string {
  return error instanceof Error && 'code' in error ? String(error.code) : '';
}
