import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { openRecords } from '../../adapters/storage/open.ts';
import { person, place } from '../support/storages.ts';
import { foundByRecords, foundBySql } from './found.ts';
import { audit, type Entry, type Told, type Trace } from './ledger.ts';

const AT = 'discord:server:1';
const BY = '<@5>';
const who = { place: place(AT), person: person(BY) };
const ROW = { fastener: 'Bolt', material: '', lowNm: 1, highNm: 2, source: '' };

let folder: string;
let where: { readonly path: string };
beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'ringwright-ledger-'));
  where = { path: join(folder, 'records.db') };
  const records = await openRecords(where);
  await records.jobs.open(who, { title: 'a job', setup: '', rows: [ROW] }, 1);
  for (const text of ['first', 'second']) await records.jobs.act(who, 1, { kind: 'noted', text }, 2);
  await records.bikes.save(who, { name: 'winter', setup: 'new', bike: {}, shared: false }, 3);
  const receipt = {
    code: 'ABCDEFGH',
    command: 'convert',
    setup: 'a bike',
    options: {},
    rules: '',
    answer: '',
    card: '',
  };
  await records.receipts.keep(who, receipt, 4);
  await records.close();
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

function entry(trace: Trace, told: Told = 'acknowledged', more: Partial<Entry> = {}): Entry {
  return { front: 'a way in', what: 'deed', trace, told, askedMs: 100_000, code: null, processes: 1, ...more };
}
const once = (key: string): Trace => ({ kind: 'once', key });
const noted = (text: string) => once(`noted ${AT} ${text}`);
const bike = (value: string): Trace => ({ kind: 'latest', register: `bike ${AT} ${BY} winter`, value });
const receipt = entry({ kind: 'receipt', place: AT, setup: 'a bike' }, 'acknowledged', { code: 'ABCDEFGH' });

/** What people were told about exactly what is there. */
const TRUE: readonly Entry[] = [
  entry(once(`opened ${AT} a job`)),
  entry(noted('first')),
  entry(noted('second')),
  entry(bike('old')),
  entry(bike('new')),
  receipt,
];

/** Changes the store behind the program's back. */
function byHand(...statements: readonly string[]): void {
  const db = new DatabaseSync(where.path);
  for (const each of statements) db.exec(each);
  db.close();
}

async function auditOf(entries: readonly Entry[]) {
  const bySql = audit(entries, await foundBySql(where));
  const byRecords = audit(entries, await foundByRecords(where, [AT], entries));
  return { bySql, byRecords };
}

const CLEAN = { lost: [], doubled: [], unasked: [], gaps: [] };

describe('the audit', () => {
  it('finds nothing where everything is as people were told', async () => {
    expect(await auditOf(TRUE)).toEqual({ bySql: CLEAN, byRecords: CLEAN });
  });

  it('names a record that was acknowledged and is gone, and the gap it leaves', async () => {
    byHand('delete from job_events where sequence = 2');
    const { bySql, byRecords } = await auditOf(TRUE);
    for (const each of [bySql, byRecords]) {
      expect(each.lost).toEqual([`noted ${AT} first`]);
      expect(each.gaps).toEqual([`job ${AT} 1`]);
    }
  });

  it('names a job of which only a half is there', async () => {
    byHand('insert into jobs select place, 2, closed, 1, opened_at, closed_at, content from jobs');
    expect((await auditOf(TRUE)).bySql.gaps).toEqual([`job ${AT} 2`]);
  });

  it('names a record that is there twice, also where nobody saw an answer', async () => {
    byHand(
      `insert into job_events select place, job, 4, "by", at, content from job_events where sequence = 3`,
      'update jobs set sequence = 4',
    );
    const unanswered = [...TRUE.filter(({ trace }) => trace !== TRUE[2]?.trace), entry(noted('second'), 'unanswered')];
    for (const entries of [TRUE, unanswered]) {
      const { bySql, byRecords } = await auditOf(entries);
      expect(bySql.doubled).toEqual([`noted ${AT} second (2 times)`]);
      expect(byRecords.doubled).toEqual([`noted ${AT} second (2 times)`]);
    }
  });

  it('names what nobody asked for', async () => {
    const { bySql } = await auditOf(TRUE.filter((each) => each !== receipt && each !== TRUE[1]));
    expect(bySql.unasked).toEqual([`noted ${AT} first`, `receipt of ${AT} a bike`]);
  });

  it('names a bike that stands as it was before the last acknowledged change', async () => {
    byHand(`update bikes set content = replace(content, 'new', 'old')`);
    const { bySql, byRecords } = await auditOf(TRUE);
    expect(bySql.lost).toEqual([`bike ${AT} ${BY} winter: old stands there after old acknowledged, new acknowledged`]);
    expect(byRecords.lost).toEqual(bySql.lost);
  });

  it('lets a change stand whose outcome nobody saw, and one that came a little late', async () => {
    const late = entry(bike('new'), 'unanswered', { askedMs: 95_000 });
    const after = entry(bike('old'), 'acknowledged', { askedMs: 100_000 });
    const rest = TRUE.filter(({ trace }) => trace.kind !== 'latest');
    expect((await auditOf([...rest, after, entry(bike('new'), 'unanswered')])).bySql).toEqual(CLEAN);
    expect((await auditOf([...rest, late, after])).bySql).toEqual(CLEAN);
    const tooLate = entry(bike('new'), 'unanswered', { askedMs: 50_000 });
    expect((await auditOf([...rest, tooLate, after])).bySql.lost).toHaveLength(1);
  });

  it('names a receipt whose code was shown and is not there, and one more than were given', async () => {
    byHand(`insert into receipts select place, 'ABCDEFGJ', owner, at, content from receipts`);
    expect((await auditOf(TRUE)).bySql.doubled).toEqual([`receipt of ${AT} a bike (2 times)`]);
    byHand(`delete from receipts where code = 'ABCDEFGH'`);
    expect((await auditOf(TRUE)).bySql.lost).toEqual([`receipt ${AT} ABCDEFGH`]);
  });
});
