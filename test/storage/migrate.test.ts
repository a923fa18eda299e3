import { execFile } from 'node:child_process';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { promisify } from 'node:util';
import { sql } from 'kysely';
import pg from 'pg';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { bringUpToDate } from '../../adapters/storage/migrate.ts';
import { SCHEMA_VERSION } from '../../adapters/storage/migrations.ts';
import { type OpenRecords, openRecords } from '../../adapters/storage/open.ts';
import type { Where } from '../../src/records/where.ts';
import { type PostgresServer, startPostgres } from '../support/postgres.ts';
import { newPlace, openBoth, STORAGES, type Storage } from '../support/storages.ts';
import { BIKE, JOB, tick } from './examples.ts';

const PROGRAM = join(import.meta.dirname, '../../adapters/storage/migrate.ts');
const run = promisify(execFile);
const SOON_MS = 10_000;

/** The program with an environment that says where the records are, and nothing else. */
function program(where: Where, ...args: string[]) {
  const env =
    'url' in where ? { DATABASE_URL: where.url } : { RINGWRIGHT_DATA: where.path.replace(/\/records\.db$/, '') };
  return run(process.execPath, [PROGRAM, ...args], { env: { PATH: process.env.PATH, ...env }, timeout: 30_000 });
}

/** Looks until something is as it should be. */
async function becomes<Value>(look: () => Value, wanted: Value): Promise<void> {
  const deadlineMs = performance.now() + SOON_MS;
  while (look() !== wanted && performance.now() < deadlineMs) await wait(20);
  expect(look()).toBe(wanted);
}

const notYet = expect.objectContaining({ name: 'StorageAway', code: 'tables' });

describe.each(['SQLite', 'PostgreSQL'] as const)('bringing the tables up to date on %s', (name) => {
  let storage: Storage;
  beforeAll(async () => {
    storage = await STORAGES[name]();
  });
  afterAll(() => storage.end());

  it('is done by one of several programs, and said in one line', async () => {
    const where = await storage.fresh();
    const said = await Promise.all([1, 2, 3].map(() => program(where)));
    expect(said.map(({ stderr }) => stderr)).toEqual(['', '', '']);
    const lines = said.map(({ stdout }) => stdout).sort();
    const made = `Ringwright: the tables are made (version ${SCHEMA_VERSION})\n`;
    const right = `Ringwright: the tables are up to date (version ${SCHEMA_VERSION})\n`;
    expect(lines).toEqual([made, right, right]);
    expect((await program(where)).stdout).toBe(right);
  });

  it('brings older ones on, with what they hold', async () => {
    const where = await storage.fresh();
    const { ann, bob } = newPlace();
    const { records, store } = await openBoth(where);
    await records.jobs.open(ann, JOB, 1);
    await records.jobs.act(ann, 1, tick(2, 40), 2);
    await records.bikes.save(bob, BIKE, 3);
    // Back to the first version: what the later ones added goes.
    await store.everywhere((db) =>
      db.transaction().execute(async (work) => {
        for (const table of ['installations', 'deliveries', 'gone_people']) {
          await sql`drop table ${sql.table(table)}`.execute(work);
        }
        await sql`alter table people drop column after_gone`.execute(work);
        await sql`update schema_version set version = 1`.execute(work);
      }),
    );
    await store.close();
    await expect(bringUpToDate(where, 0)).resolves.toEqual({ from: 1, to: SCHEMA_VERSION });
    const after = await openRecords(where, 'wait');
    await after.privacy.delete(ann);
    // Bob was here before she went.
    expect(await after.jobs.act(bob, 1, tick(2, 40), 4)).toMatchObject({ kind: 'recorded' });
    await after.close();
  });

  it('refuses those of a newer program, in one line and with exit code 1', async () => {
    const where = await storage.fresh();
    const { store } = await openBoth(where);
    await store.everywhere((db) =>
      db.transaction().execute((work) => sql`update schema_version set version = 99`.execute(work)),
    );
    await store.close();
    await expect(program(where)).rejects.toMatchObject({
      code: 1,
      stdout: '',
      stderr: expect.stringMatching(/^Ringwright: the records were written by a newer version [^\n]+\n$/),
    });
  });

  it('is waited for where somebody else does it: nothing is made, and the records come by themselves', async () => {
    const where = await storage.fresh();
    const records = await openRecords(where, 'wait');
    const { ann } = newPlace();
    expect(records.tables()).toBe('waiting');
    await expect(records.bikes.save(ann, BIKE, 1)).rejects.toEqual(notYet);
    await expect(records.bikes.list(ann)).rejects.toEqual(notYet);
    await expect(bringUpToDate(where, 0)).resolves.toMatchObject({ from: 0 });
    await becomes(records.tables, 'right');
    expect(await records.bikes.save(ann, BIKE, 2)).toMatchObject({ kind: 'saved' });
    await records.close();
  });

  it('is not waited for where it is done already', async () => {
    const where = await storage.fresh();
    await bringUpToDate(where, 0);
    const records = await openRecords(where, 'wait');
    expect(records.tables()).toBe('right');
    expect(await records.bikes.save(newPlace().ann, BIKE, 1)).toMatchObject({ kind: 'saved' });
    await records.close();
  });
});

describe('bringing the tables up to date on a PostgreSQL server', () => {
  let server: PostgresServer;
  beforeAll(async () => {
    server = await startPostgres();
  });
  afterAll(() => server.end());

  async function withRecords(records: OpenRecords, work: () => Promise<void>): Promise<void> {
    try {
      await work();
    } finally {
      await records.close();
    }
  }

  async function asAdmin(url: string, ...statements: string[]): Promise<void> {
    const client = new pg.Client(url);
    await client.connect();
    for (const statement of statements) await client.query(statement);
    await client.end();
  }

  it('waits for one that is not there yet', async () => {
    const url = await server.database();
    await server.stop();
    const brought = bringUpToDate({ url }, SOON_MS);
    await server.start();
    await expect(brought).resolves.toEqual({ from: 0, to: SCHEMA_VERSION });
  });

  it('gives up in time on one that stays away, calmly, with exit code 1 and nothing of its address', async () => {
    const url = await server.database();
    await server.stop();
    await expect(program({ url }, '--wait', '1')).rejects.toMatchObject({
      code: 1,
      stdout: '',
      stderr: 'Ringwright: the records could not be used in time (gone); begin again later\n',
    });
    await server.start();
  });

  it('may take longer than a question: until then text is answered, and afterwards the records are there', async () => {
    const url = await server.database();
    // One statement of it, the one that makes a function, takes until it is told to go on.
    await asAdmin(
      url,
      'create table told_to_go_on (yes text)',
      `create function slow() returns event_trigger language plpgsql as
       $$ begin while not exists (select from told_to_go_on) loop perform pg_sleep(0.05); end loop; end $$`,
      `create event trigger slow on ddl_command_end when tag in ('CREATE FUNCTION') execute function slow()`,
    );
    const records = await openRecords({ url });
    await withRecords(records, async () => {
      const { ann } = newPlace();
      expect(records.tables()).toBe('waiting');
      // Twice as long as any statement of a question may take.
      await expect(records.bikes.save(ann, BIKE, 1)).rejects.toEqual(notYet);
      await asAdmin(url, `insert into told_to_go_on values ('yes')`);
      await becomes(records.tables, 'right');
      expect(await records.bikes.save(ann, BIKE, 2)).toMatchObject({ kind: 'saved' });
    });
  });

  it('that goes away, or whose tables do, is told apart, and used again as soon as all is there', async () => {
    const url = await server.database();
    const records = await openRecords({ url });
    await withRecords(records, async () => {
      const { ann } = newPlace();
      expect(records.tables()).toBe('right');
      await server.stop();
      await expect(records.bikes.list(ann)).rejects.toMatchObject({ code: 'gone' });
      expect(records.tables()).toBe('away');
      await server.start();
      await becomes(records.tables, 'right');
      await asAdmin(url, 'alter table bikes rename to elsewhere');
      await expect(records.bikes.list(ann)).rejects.toEqual(notYet);
      await asAdmin(url, 'alter table elsewhere rename to bikes');
      expect((await records.bikes.list(ann)).own).toEqual([]);
      await becomes(records.tables, 'right');
    });
  });

  it('newer than an open program is away for people, not a fault', async () => {
    const url = await server.database();
    await server.stop();
    const records = await openRecords({ url });
    await withRecords(records, async () => {
      await server.start();
      await bringUpToDate({ url }, SOON_MS);
      await asAdmin(url, 'update schema_version set version = 99');
      await expect(records.bikes.list(newPlace().ann)).rejects.toEqual(notYet);
      expect(records.tables()).toBe('waiting');
    });
  });
});
