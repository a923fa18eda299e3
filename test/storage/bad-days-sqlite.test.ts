import { randomBytes } from 'node:crypto';
import { mkdirSync, mkdtempSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { setTimeout as wait } from 'node:timers/promises';
import { sql } from 'kysely';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type OpenRecords, openRecords } from '../../adapters/storage/open.ts';
import { newPlace, openBoth } from '../support/storages.ts';
import { BIKE, RECEIPT } from './examples.ts';

describe('SQLite on a bad day', () => {
  let folder: string;
  let files = 0;
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'ringwright-bad-days-'));
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  const newPath = () => join(folder, `${++files}`, 'records.db');
  const away = (code: string) => expect.objectContaining({ name: 'StorageAway', code, certain: true });
  const names = async (records: Pick<OpenRecords, 'bikes'>, who: Parameters<OpenRecords['bikes']['list']>[0]) =>
    (await records.bikes.list(who)).own.map(({ name }) => name);

  it('with a full disk keeps what it has, says so, and goes on when there is room', async () => {
    const { records, store } = await openBoth({ path: newPath() });
    const { at, ann } = newPlace();
    await records.bikes.save(ann, BIKE, 1);
    const mostPages = (pages: number) =>
      store
        .change(at, () => Promise.resolve())
        .then(() =>
          store.everywhere((db) =>
            db.transaction().execute((work) => sql.raw(`pragma max_page_count = ${pages}`).execute(work)),
          ),
        );
    await mostPages(1);
    // By chance, because a receipt is packed: the same letter over and over would take no room.
    const big = { ...RECEIPT, card: randomBytes(75_000).toString('hex') };
    await expect(records.receipts.keep(ann, big, 2)).rejects.toEqual(away('full'));
    expect(await records.receipts.read(at, big.code)).toBeNull();
    expect(await names(records, ann)).toEqual(['Winter']);
    await mostPages(1_000_000);
    expect(await records.receipts.keep(ann, big, 3)).toEqual({ kind: 'kept' });
    await store.close();
  });

  it('read-only still answers', async () => {
    const { records, store } = await openBoth({ path: newPath() });
    const { ann } = newPlace();
    await records.bikes.save(ann, BIKE, 1);
    await store.everywhere((db) => db.transaction().execute((work) => sql`pragma query_only = on`.execute(work)));
    await expect(records.bikes.save(ann, { ...BIKE, name: 'Summer' }, 2)).rejects.toEqual(away('read-only'));
    expect(await names(records, ann)).toEqual(['Winter']);
    await store.close();
  });

  it('locked by another process says so after two seconds, in which others are served', async () => {
    const path = newPath();
    const records = await openRecords({ path });
    const { ann } = newPlace();
    await records.bikes.save(ann, BIKE, 1);
    const other = new DatabaseSync(path);
    other.exec('begin immediate');

    const begun = performance.now();
    const saves = [1, 2, 3].map((n) => records.bikes.save(ann, { ...BIKE, name: `${n}` }, 2));
    const refused = Promise.allSettled(saves);
    let longestPauseMs = 0;
    for (let last = performance.now(); performance.now() < begun + 1000; last = performance.now()) {
      expect(await names(records, ann)).toEqual(['Winter']);
      await wait(1);
      longestPauseMs = Math.max(longestPauseMs, performance.now() - last);
    }
    // A try waits 5 ms for the lock with the whole process; the rest is room for a busy machine.
    expect(longestPauseMs).toBeLessThan(250);
    for (const result of await refused) expect(result).toMatchObject({ status: 'rejected', reason: away('busy') });
    expect(performance.now() - begun).toBeLessThan(4000);

    other.exec('rollback');
    other.close();
    await records.bikes.save(ann, { ...BIKE, name: 'Summer' }, 3);
    expect(await names(records, ann)).toEqual(['Summer', 'Winter']);
    await records.close();
  });

  it('waits for a short lock and then writes', async () => {
    const path = newPath();
    const records = await openRecords({ path });
    const { ann } = newPlace();
    const other = new DatabaseSync(path);
    other.exec('begin immediate');
    const saved = records.bikes.save(ann, BIKE, 1);
    await wait(200);
    other.exec('commit');
    other.close();
    expect(await saved).toMatchObject({ kind: 'saved' });
    await records.close();
  });

  it('taken away does not begin anew in silence, and comes back with the file', async () => {
    const path = newPath();
    const records = await openRecords({ path });
    const { ann } = newPlace();
    await records.bikes.save(ann, BIKE, 1);
    renameSync(dirname(path), `${dirname(path)}-away`);
    await expect(records.bikes.list(ann)).rejects.toEqual(away('gone'));
    await expect(records.bikes.save(ann, BIKE, 2)).rejects.toEqual(away('gone'));
    renameSync(`${dirname(path)}-away`, dirname(path));
    expect(await names(records, ann)).toEqual(['Winter']);
    await records.close();
  });

  it('not there at the start is made as soon as it can be', async () => {
    const path = newPath();
    writeFileSync(dirname(path), 'a file where the folder should be');
    const records = await openRecords({ path });
    const { ann } = newPlace();
    await expect(records.bikes.save(ann, BIKE, 1)).rejects.toEqual(away('gone'));
    rmSync(dirname(path));
    expect(await records.bikes.save(ann, BIKE, 1)).toMatchObject({ kind: 'saved' });
    await records.close();
  });

  it('that is no database is left as it is', async () => {
    const path = newPath();
    mkdirSync(dirname(path));
    writeFileSync(
      path,
      'somebody else’s file, longer than the heading of a database has to be to be looked at'.repeat(9),
    );
    const records = await openRecords({ path });
    await expect(records.bikes.list(newPlace().ann)).rejects.toEqual(away('damaged'));
    expect(readFileSync(path, 'utf8')).toContain('somebody else’s file');
    await records.close();
  });
});
