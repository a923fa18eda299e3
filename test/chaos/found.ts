import { DatabaseSync } from 'node:sqlite';
import pg from 'pg';
import { openRecords } from '../../adapters/storage/open.ts';
import type { JobDeed } from '../../src/records/job-events.ts';
import { readPerson, readPlace } from '../../src/records/place.ts';
import type { Where } from '../../src/records/where.ts';
import type { Entry, Found } from './ledger.ts';

type Row = Readonly<Record<string, string | number | null>>;

/** Reads by plain SQL, with none of the program's own code in between. */
async function rowsOf(
  where: Where,
  queries: Readonly<Record<string, string>>,
): Promise<Record<string, readonly Row[]>> {
  if ('path' in where) {
    const db = new DatabaseSync(where.path, { readOnly: true });
    const found = Object.entries(queries).map(([name, sql]) => [name, db.prepare(sql).all() as Row[]]);
    db.close();
    return Object.fromEntries(found);
  }
  const client = new pg.Client(where.url);
  await client.connect();
  const found: [string, readonly Row[]][] = [];
  for (const [name, sql] of Object.entries(queries)) found.push([name, (await client.query<Row>(sql)).rows]);
  await client.end();
  return Object.fromEntries(found);
}

const QUERIES = {
  events: 'select place, job, sequence, content from job_events order by place, job, sequence',
  jobs: 'select place, job, sequence from jobs',
  bikes: `select bikes.place, people.person, bikes.content from bikes
    join people on people.place = bikes.place and people.key = bikes.owner`,
  versions: 'select place, topic, version, content from answer_versions order by place, topic, version',
  drafts: 'select place, content from answer_drafts',
  settings: 'select place, content from settings',
  receipts: 'select place, code, content from receipts',
  saved: `select witness.what, witness.place, people.person, witness.content from witness
    left join people on people.place = witness.place and people.key = witness.owner order by witness.id`,
};

/** What the tables hold, as anybody who can read a database would find it. */
export async function foundBySql(where: Where): Promise<Found> {
  const rows = await rowsOf(where, QUERIES);
  const keys: string[] = [];
  const latest = new Map<string, string>();
  const history = new Map<string, string[]>();
  const counts = new Map<string, number[]>();
  for (const { place, job, sequence, content } of rows.events ?? []) {
    keys.push(...keyOf(String(place), Number(job), JSON.parse(String(content)) as JobDeed));
    count(counts, `job ${place} ${job}`, Number(sequence));
  }
  // A job and its log are kept together: one without the other, or behind it, is a gap.
  for (const { place, job, sequence } of rows.jobs ?? []) {
    const name = `job ${place} ${job}`;
    if (counts.get(name)?.length !== Number(sequence)) counts.set(name, [0]);
  }
  for (const { place, topic, version, content } of rows.versions ?? []) {
    keys.push(`version ${place} ${(JSON.parse(String(content)) as { why: string }).why}`);
    count(counts, `answer ${place} ${topic}`, Number(version));
  }
  for (const { place, content } of rows.drafts ?? []) {
    keys.push(`draft ${place} ${(JSON.parse(String(content)) as { why: string }).why}`);
  }
  for (const row of rows.bikes ?? []) {
    const { register, value } = bikeIn(row);
    latest.set(register, value);
  }
  for (const row of rows.settings ?? []) {
    const { register, value } = settingsIn(row);
    if (value !== USUAL_DAYS) latest.set(register, value);
  }
  for (const row of rows.saved ?? []) {
    const { register, value } = row.what === 'bikes' ? bikeIn(row) : settingsIn(row);
    const before = history.get(register) ?? [];
    // A row that is held before it is changed is written as it was.
    if (value !== USUAL_DAYS && (row.what === 'bikes' || before.at(-1) !== value)) {
      history.set(register, [...before, value]);
    }
  }
  const receipts = new Map<string, string>();
  for (const { place, code, content } of rows.receipts ?? []) {
    receipts.set(`${place} ${code}`, (JSON.parse(String(content)) as { setup: string }).setup);
  }
  return { keys, latest, history, receipts, counts };
}

/** What a place keeps receipts for where nobody has changed it. */
const USUAL_DAYS = '365';

function bikeIn({ place, person, content }: Row): { readonly register: string; readonly value: string } {
  const { name, setup } = JSON.parse(String(content)) as { name: string; setup: string };
  return { register: `bike ${place} ${person} ${name}`, value: setup };
}

function settingsIn({ place, content }: Row): { readonly register: string; readonly value: string } {
  const { receiptDays } = JSON.parse(String(content)) as { receiptDays: number };
  return { register: `settings ${place}`, value: String(receiptDays) };
}

function keyOf(place: string, job: number, deed: JobDeed): readonly string[] {
  switch (deed.kind) {
    case 'opened':
      return [`opened ${place} ${deed.title}`];
    case 'closed':
      return [`closed ${place} ${job}`];
    case 'noted':
      return [`noted ${place} ${deed.text}`];
    case 'ticked':
    case 'struck':
    case 'cleared':
    case 'reopened':
      return [`${deed.kind} ${place} ${deed.why}`];
  }
}

function count(counts: Map<string, number[]>, name: string, number: number): void {
  counts.set(name, [...(counts.get(name) ?? []), number]);
}

const MANY = 1_000_000;

/**
 * The same by the program's own way to its records, which is how people will read them. What was there before cannot be
 * read that way: it comes from whoever wrote it down.
 */
export async function foundByRecords(
  where: Where,
  places: readonly string[],
  entries: readonly Entry[],
  history: Found['history'],
): Promise<Found> {
  const records = await openRecords(where);
  const keys: string[] = [];
  const latest = new Map<string, string>();
  const receipts = new Map<string, string>();
  const counts = new Map<string, number[]>();
  for (const name of places) {
    const place = readPlace(name);
    if (place === null) throw new Error(`${name} is no place`);
    for (const which of ['open', 'closed'] as const) {
      for (const { job } of await records.jobs.list(place, which, Number.POSITIVE_INFINITY, MANY)) {
        for (const { sequence, deed } of await records.jobs.log(place, job)) {
          keys.push(...keyOf(name, job, deed));
          count(counts, `job ${name} ${job}`, sequence);
        }
      }
    }
    for (const { topic } of await records.answers.list(place, '', MANY)) {
      for (const each of (await records.answers.history(place, topic, Number.POSITIVE_INFINITY, MANY)).toReversed()) {
        keys.push(`version ${name} ${each.why}`);
        // A draft that was approved is shown as the version it became.
        if (each.approver !== null) keys.push(`draft ${name} ${each.why}`);
        count(counts, `answer ${name} ${topic}`, each.version);
      }
    }
    for (const draft of await records.answers.drafts(place)) keys.push(`draft ${name} ${draft.why}`);
    const { receiptDays } = await records.settings.read(place);
    if (receiptDays !== null && String(receiptDays) !== USUAL_DAYS) latest.set(`settings ${name}`, String(receiptDays));
  }
  for (const { trace, code } of entries) {
    if (trace.kind === 'latest') {
      const [what, at = '', by = '', name = ''] = trace.register.split(' ');
      const place = readPlace(at);
      const person = readPerson(by);
      if (what !== 'bike' || place === null || person === null || latest.has(trace.register)) continue;
      const bike = await records.bikes.load({ place, person }, name);
      if (bike !== null) latest.set(trace.register, bike.setup);
    }
    const place = trace.kind === 'receipt' ? readPlace(trace.place) : null;
    if (place === null || code === null) continue;
    const receipt = await records.receipts.read(place, code);
    if (receipt !== null) receipts.set(`${place} ${code}`, receipt.setup);
  }
  await records.close();
  return { keys, latest, history, receipts, counts };
}
