import { Kysely, type LogConfig } from 'kysely';
import type { Place } from '../../src/records/place.ts';
import { StorageAway } from '../../src/records/storage-away.ts';
import type { Engine, WordsOf } from './engine.ts';
import { migrate } from './migrations.ts';
import { inPlace, type Scope } from './scope.ts';
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

/** The only two ways to the tables: to read in one place, or to change one place, all of it or nothing. */
export type Store = {
  readonly read: <Result>(place: Place, work: (at: InPlace) => Promise<Result>) => Promise<Result>;
  readonly change: <Result>(place: Place, work: (at: InPlace) => Promise<Result>) => Promise<Result>;
  /** For upkeep across all places: the sweep, the wipe and the backup. */
  readonly everywhere: <Result>(work: (db: Kysely<Tables>, engine: Engine) => Promise<Result>) => Promise<Result>;
  readonly close: () => Promise<void>;
};

/**
 * Two writers can meet crosswise, or take the same name between looking and writing; the engine sends one of them back
 * (serialization failure, deadlock, unique violation), who begins again and then sees what the other one did.
 */
const TRIES = 5;
const BEGIN_AGAIN = new Set(['40001', '40P01', '23505']);

/** Opens the store without touching the database: the tables are made at first use, and again tried at the next. */
export function openStore(engine: Engine, log?: LogConfig): Store {
  const db = new Kysely<Tables>({ dialect: engine.dialect, ...(log === undefined ? {} : { log }) });
  let migrated: Promise<void> | null = null;
  const ready = () => {
    migrated ??= migrate(db, engine).catch((error: unknown) => {
      migrated = null;
      throw error;
    });
    return migrated;
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
    read: (place, work) =>
      orAway(async () => {
        await ready();
        return work(at(db, place));
      }),
    change: (place, work) =>
      orAway(async () => {
        await ready();
        return saved(db, engine, (handle) => work(at(handle, place)));
      }),
    everywhere: (work) =>
      orAway(async () => {
        await ready();
        return work(db, engine);
      }),
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
