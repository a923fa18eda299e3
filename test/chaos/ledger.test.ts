import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { openRecords } from '../../adapters/storage/open.ts';
import { person, place } from '../support/storages.ts';
import { foundByRecords, foundBySql } from './found.ts';
import { audit, type Entry, type Told, type Trace } from './ledger.ts';
import { watchSaved } from './witness.ts';

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
  await records.settings.read(who.place);
  await watchSaved(where);
  await records.jobs.open(who, { title: 'a job', setup: '', rows: [ROW] }, 1);
  for (const text of ['first', 'second']) await records.jobs.act(who, 1, { kind: 'noted', text }, 2);
  for (const setup of ['old', 'new']) {
    await records.bikes.save(who, { name: 'winter', setup, bike: {}, shared: false }, 3);
  }
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
  const usual = { front: 'a way in', what: 'deed', askedMs: 1, untilMs: 2, code: null, processes: 1 };
  return { ...usual, trace, told, ...more };
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
  entry(bike('new'), 'acknowledged', { askedMs: 3, untilMs: 4 }),
  receipt,
];

/** Changes the store behind the program's back. */
function byHand(...statements: readonly string[]): void {
  const db = new DatabaseSync(where.path);
  for (const each of statements) db.exec(each);
  db.close();
}

async function auditOf(entries: readonly Entry[]) {
  const found = await foundBySql(where);
  const bySql = audit(entries, found);
  const byRecords = audit(entries, await foundByRecords(where, [AT], entries, found.history));
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

  it('names a bike that stands otherwise than it was saved last', async () => {
    byHand('drop trigger witness_bikes_update', `update bikes set content = replace(content, 'new', 'old')`);
    const { bySql, byRecords } = await auditOf(TRUE);
    expect(bySql.lost).toEqual([expect.stringContaining('winter: old stands there, and not new: old acknowledged')]);
    expect(byRecords.lost).toEqual(bySql.lost);
  });

  const rest = TRUE.filter(({ trace }) => trace.kind !== 'latest');
  const first = { askedMs: 1, untilMs: 2 };
  const second = { askedMs: 3, untilMs: 4 };

  it('names a change that was acknowledged and never stood there, though another stands there since', async () => {
    const entries = [...rest, entry(bike('old')), entry(bike('lost')), entry(bike('new'), 'acknowledged', second)];
    expect((await auditOf(entries)).bySql.lost).toEqual([expect.stringContaining('winter: lost never stood there')]);
  });

  it('names a change that was acknowledged before another was asked for, and took its place', async () => {
    const entries = [...rest, entry(bike('new'), 'acknowledged', first), entry(bike('old'), 'acknowledged', second)];
    expect((await auditOf(entries)).bySql.lost).toEqual([expect.stringContaining('winter: new took the place of old')]);
  });

  it('names a change that was made twice, and one that nobody asked for', async () => {
    byHand(`update bikes set content = replace(content, 'new', 'old')`);
    const { bySql } = await auditOf([...rest, entry(bike('old'))]);
    expect(bySql.doubled).toEqual([expect.stringContaining('winter: old (2 times)')]);
    expect(bySql.unasked).toEqual([expect.stringContaining('winter: new')]);
  });

  it('lets a change of which nobody saw what came of it come at any time after it, and never', async () => {
    for (const told of ['unanswered', 'refused'] as const) {
      const late = entry(bike('new'), told, first);
      const after = entry(bike('old'), 'acknowledged', second);
      expect((await auditOf([...rest, late, after, entry(bike('never'), told, second)])).bySql).toEqual(CLEAN);
    }
  });

  it('lets two changes asked for at the same time come in either order', async () => {
    const one = entry(bike('new'), 'acknowledged', { askedMs: 1, untilMs: 4 });
    const other = entry(bike('old'), 'acknowledged', { askedMs: 2, untilMs: 3 });
    expect((await auditOf([...rest, one, other])).bySql).toEqual(CLEAN);
  });

  it('names a receipt whose code was shown and is not there, and one more than were given', async () => {
    byHand(`insert into receipts select place, 'ABCDEFGJ', owner, at, content from receipts`);
    expect((await auditOf(TRUE)).bySql.doubled).toEqual([`receipt of ${AT} a bike (2 times)`]);
    byHand(`delete from receipts where code = 'ABCDEFGH'`);
    expect((await auditOf(TRUE)).bySql.lost).toEqual([`receipt ${AT} ABCDEFGH`]);
  });
});
