import { execFile } from 'node:child_process';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { sql } from 'kysely';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { SCHEMA_VERSION } from '../../adapters/storage/migrations.ts';
import { openRecords } from '../../adapters/storage/open.ts';
import { TABLE_NAMES } from '../../adapters/storage/tables.ts';
import { newPlace, openBoth, STORAGES, type Storage } from '../support/storages.ts';
import { BIKE, JOB } from './examples.ts';

const STARTER = join(import.meta.dirname, '../support/starter.ts');
const run = promisify(execFile);

describe.each(['SQLite', 'PostgreSQL'] as const)('the tables on %s', (name) => {
  let storage: Storage;
  beforeAll(async () => {
    storage = await STORAGES[name]();
  });
  afterAll(() => storage.end());

  it('are made once by ten processes that start together', async () => {
    const where = await storage.fresh();
    await Promise.all(
      Array.from({ length: 10 }, () => run(process.execPath, [STARTER, JSON.stringify(where)], { timeout: 30_000 })),
    );
    const { records, store } = await openBoth(where);
    const { rows } = await store.everywhere((db) => sql`select version from schema_version`.execute(db));
    expect(rows).toEqual([{ version: SCHEMA_VERSION }]);
    expect(await records.bikes.save(newPlace().ann, BIKE, 1)).toMatchObject({ kind: 'saved' });
    await store.close();
  });

  it('made by a newer program are left alone', async () => {
    const where = await storage.fresh();
    const { store } = await openBoth(where);
    await store.everywhere((db) =>
      db.transaction().execute((work) => sql`update schema_version set version = 99`.execute(work)),
    );
    await store.close();
    await expect(openRecords(where)).rejects.toMatchObject({
      name: 'ConfigError',
      code: 'schema-newer',
      message: expect.stringContaining(`tables 99, this one knows ${SCHEMA_VERSION}`),
    });
  });

  it('are all there, and a backup knows each', async () => {
    const { store } = await openBoth(await storage.fresh());
    const query = {
      SQLite: `select name from sqlite_master where type = 'table' and name not like 'answer_words%'`,
      PostgreSQL: `select table_name as name from information_schema.tables
        where table_schema = 'public' and table_name <> 'answer_words'`,
    }[name];
    const { rows } = await store.everywhere((db) => sql.raw<{ name: string }>(query).execute(db));
    expect(rows.map((row) => row.name).sort()).toEqual([...TABLE_NAMES, 'schema_version'].sort());
    await store.close();
  });

  it('do not let the log of a job be rewritten', async () => {
    const { records, store } = await openBoth(await storage.fresh());
    await records.jobs.open(newPlace().ann, JOB, 1);
    const rewrite = store.everywhere((db) =>
      db.transaction().execute((work) => work.updateTable('job_events').set({ content: '{}' }).execute()),
    );
    await expect(rewrite).rejects.toThrow('only ever added to');
    await store.close();
  });
});
