import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import pg from 'pg';
import { engineAt, recordsIn } from '../../adapters/storage/open.ts';
import { openStore, type Store } from '../../adapters/storage/store.ts';
import { type Person, type Place, readPerson, readPlace, type Who } from '../../src/records/place.ts';
import type { Where } from '../../src/records/where.ts';
import { startPostgres } from './postgres.ts';

/** One of the two engines, ready for tests. */
export type Storage = {
  /** A new, empty storage. */
  readonly fresh: () => Promise<Where>;
  /** All that is kept there, as one could find it: the files of SQLite, a dump of PostgreSQL. */
  readonly everyByte: (where: Where) => Promise<string>;
  readonly end: () => Promise<void>;
};

export const STORAGES = { SQLite: sqlite, PostgreSQL: postgres } as const;

export async function sqlite(): Promise<Storage> {
  const folder = mkdtempSync(join(tmpdir(), 'ringwright-records-'));
  let files = 0;
  return {
    fresh: () => Promise.resolve({ path: join(folder, `${++files}`, 'records.db') }),
    everyByte: (where) => {
      if (!('path' in where)) throw new Error('not a file');
      const files = ['', '-wal', '-shm'].map((ending) => where.path + ending).filter(existsSync);
      return Promise.resolve(files.map((file) => readFileSync(file, 'latin1')).join(''));
    },
    end: () => {
      rmSync(folder, { recursive: true, force: true });
      return Promise.resolve();
    },
  };
}

export async function postgres(settings: readonly string[] = []): Promise<Storage> {
  const server = await startPostgres(settings);
  return {
    fresh: async () => ({ url: await server.database() }),
    everyByte: async (where) => {
      if (!('url' in where)) throw new Error('not a server');
      const client = new pg.Client(where.url);
      await client.connect();
      const tables = await client.query<{ name: string }>(
        `select table_name as name from information_schema.tables where table_schema = 'public'`,
      );
      let bytes = '';
      for (const { name } of tables.rows) {
        const rows = await client.query<{ row: string }>(`select each_row::text as row from "${name}" as each_row`);
        bytes += rows.rows.map(({ row }) => `${name} ${row}\n`).join('');
      }
      await client.end();
      return bytes;
    },
    end: server.end,
  };
}

/** The records of a storage together with the store beneath them, for tests that look below the port. */
export async function openBoth(where: Where): Promise<{ records: ReturnType<typeof recordsIn>; store: Store }> {
  const store = openStore(await engineAt(where));
  return { records: recordsIn(store), store };
}

export function place(text: string): Place {
  const read = readPlace(text);
  if (read === null) throw new Error(`${text} is no place`);
  return read;
}

export function person(text: string): Person {
  const read = readPerson(text);
  if (read === null) throw new Error(`${text} is no person`);
  return read;
}

let places = 0;

/** Three people in a place that no other test uses. */
export function newPlace(): { readonly at: Place; readonly ann: Who; readonly bob: Who; readonly cem: Who } {
  const at = place(`club:${++places}`);
  const who = (name: string): Who => ({ place: at, person: person(name) });
  return { at, ann: who('ann'), bob: who('bob'), cem: who('cem') };
}
