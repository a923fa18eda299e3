import { setTimeout as wait } from 'node:timers/promises';
import { type Kysely, sql } from 'kysely';
import type { Place } from '../../src/records/place.ts';
import type { Engine, WordIndex } from './engine.ts';
import { sqliteDialect } from './sqlite-driver.ts';
import type { Tables } from './tables.ts';
import { pairMark, wordMark } from './word-marks.ts';

/** How often a wipe is tried while somebody else reads the file. */
const WIPE_TRIES = 10;
const WIPE_PAUSE_MS = 50;

/** A step of some milliseconds, and a pause in which others write. */
const PAGES_A_STEP = 100;
const TIDY_PAUSE_MS = 5;

/** SQLite in one file; the path of it. */
export function sqliteEngine(path: string): Engine {
  return {
    dialect: sqliteDialect(path),
    unhurried: null,
    numberedKey: 'integer primary key',
    wordIndexTables: [
      // Without the texts themselves, which stand in answer_versions. The words come in ready-made: only blanks part them.
      `create virtual table answer_words using fts5(
         topic, aliases, body, pairs, content = '', contentless_delete = 1, tokenize = 'ascii')`,
    ],
    eventGuard: [
      `create trigger job_events_stay before update on job_events
       begin select raise(abort, 'the log of a job is only ever added to'); end`,
    ],
    migrationLock: null,
    words,
    savesOverNetwork: false,
    wipe,
  };
}

const words: WordIndex = {
  put: async (db, place, id, _topic, of) => {
    const marked = (list: readonly string[], mark: string) => list.map((word) => mark + word).join(' ');
    const word = wordMark(place);
    await sql`insert or replace into answer_words(rowid, topic, aliases, body, pairs)
      values (${id}, ${marked(of.topic, word)}, ${marked(of.aliases, word)}, ${marked(of.body, word)},
        ${marked(of.pairs, pairMark(place))})`.execute(db);
  },
  remove: async (db, id) => {
    await sql`delete from answer_words where rowid = ${id}`.execute(db);
  },
  withAll: (db, place, list, most) => {
    const mark = wordMark(place);
    return matching(db, place, list.map((word) => `"${mark}${word}" *`).join(' AND '), [10, 6, 1, 0], most);
  },
  withPairs: (db, place, list, most) => {
    const mark = pairMark(place);
    return matching(db, place, list.map((pair) => `"${mark}${pair}"`).join(' OR '), [0, 0, 0, 1], most);
  },
  tidy: async (db) => {
    // The engine's own way, from its documentation: a negative number begins, positive ones go on until nothing changes.
    for (let pages = -PAGES_A_STEP; await changes(db, pages); pages = PAGES_A_STEP) await wait(TIDY_PAUSE_MS);
  },
};

/** Merges some pages of the word index; false when there was nothing left to merge. */
function changes(db: Kysely<Tables>, pages: number): Promise<boolean> {
  return db.transaction().execute(async (work) => {
    const count = async () => {
      const { rows } = await sql<{ total: number }>`select total_changes() as total`.execute(work);
      return rows[0]?.total ?? 0;
    };
    const before = await count();
    await sql`insert into answer_words(answer_words, rank) values ('merge', ${pages})`.execute(work);
    // Writing down that nothing was done is one change.
    return (await count()) - before >= 2;
  });
}

/** `weights` of topic, aliases, body and pairs: what stands in the name counts for more than what stands in the text. */
async function matching(
  db: Kysely<Tables>,
  place: Place,
  query: string,
  weights: readonly [number, number, number, number],
  most: number,
): Promise<string[]> {
  const [topic, aliases, body, pairs] = weights;
  const { rows } = await sql<{ topic: string }>`select answers.topic
    from answer_words cross join answers on answers.id = answer_words.rowid
    where answer_words match ${query} and answers.place = ${place}
    order by bm25(answer_words, ${topic}, ${aliases}, ${body}, ${pairs}), answers.topic
    limit ${most}`.execute(db);
  return rows.map((row) => row.topic);
}

/** Moves everything from the write-ahead log into the file, where deleted content is overwritten, and empties the log. */
async function wipe(db: Kysely<Tables>): Promise<boolean> {
  for (let tries = 0; tries < WIPE_TRIES; tries++) {
    const { rows } = await sql<{ busy: number }>`pragma wal_checkpoint(truncate)`.execute(db);
    if (rows[0]?.busy === 0) return true;
    await wait(WIPE_PAUSE_MS);
  }
  return false;
}
