import { sql } from 'kysely';
import type { Place, Who } from '../../src/records/place.ts';
import type { Deleted, KeptAbout, Privacy, Swept } from '../../src/records/privacy.ts';
import { keptBike } from './bikes.ts';
import { keptEvent } from './jobs.ts';
import { goes, heldKey } from './people.ts';
import { keptReceipt } from './receipts.ts';
import type { Scope } from './scope.ts';
import { settingsOf } from './settings.ts';
import type { PlaceStore } from './store.ts';

const DAY_MS = 86_400_000;

/**
 * How long it is known that a delivery was taken. The last repeat comes five minutes after the first (Slack, "Events
 * API", retries: at once, after one minute, after five); a day leaves room for a platform's bad day, and the sweep
 * itself comes only once a day.
 */
const DELIVERY_DAYS = 1;

/** Rows that one change of the sweep takes away: some tens of milliseconds. */
const PAGE = 100;

export function privacyIn(store: PlaceStore): Privacy {
  return {
    show: (who) => store.read(who.place, ({ scope }) => keptAbout(scope, who)),

    delete: async (who) => {
      const deleted = await store.change(who.place, ({ scope }) => forgotten(scope, who));
      const wiped = await store.everywhere((db, engine) => engine.wipe?.(db) ?? Promise.resolve(true));
      return { ...deleted, wiped };
    },

    sweep: (nowMs) => sweep(store, nowMs),
  };
}

async function keptAbout(scope: Scope, who: Who): Promise<KeptAbout> {
  const { person } = who;
  const known = await scope
    .selectFrom('people')
    .select(['key', 'seen_at'])
    .where('person', '=', person)
    .executeTakeFirst();
  const key = known?.key;
  if (known === undefined || key === undefined) {
    const nothing = { bikes: [], receipts: [], answers: [], drafts: [], jobs: [], mayPin: false };
    return { person, lastSeenAtMs: null, ...nothing };
  }
  const self = { kind: 'person', person } as const;
  const bikes = await scope.selectFrom('bikes').selectAll().where('owner', '=', key).orderBy('name_key').execute();
  const receipts = await scope.selectFrom('receipts').selectAll().where('owner', '=', key).orderBy('at').execute();
  const named = await scope.selectFrom('setting_people').select('key').where('key', '=', key).executeTakeFirst();
  return {
    person,
    lastSeenAtMs: known.seen_at,
    bikes: bikes.map((row) => keptBike(row, self)),
    receipts: receipts.map((row) => keptReceipt(row, self)),
    ...(await relied(scope, key)),
    mayPin: named !== undefined,
  };
}

/** What others rely on, and what stays without the name when a person goes. */
async function relied(scope: Scope, key: string): Promise<Pick<KeptAbout, 'answers' | 'drafts' | 'jobs'>> {
  const answers = scope.selectFrom('answer_versions').select(['topic', 'version', 'at']).orderBy('at');
  const drafts = scope.selectFrom('answer_drafts').select(['topic', 'number', 'at', 'decided_at']).orderBy('at');
  const written = await answers.where('author', '=', key).execute();
  const approved = await answers.where('approver', '=', key).execute();
  const proposed = await drafts.where('author', '=', key).execute();
  const decided = await drafts.where('decider', '=', key).execute();
  const events = await scope
    .selectFrom('job_events')
    .selectAll()
    .where('by', '=', key)
    .orderBy('job')
    .orderBy('sequence')
    .execute();
  return {
    answers: [
      ...written.map(({ topic, version, at }) => ({ topic, version, as: 'author', atMs: at }) as const),
      ...approved.map(({ topic, version, at }) => ({ topic, version, as: 'approver', atMs: at }) as const),
    ],
    drafts: [
      ...proposed.map(({ topic, number, at }) => ({ topic, number, as: 'author', atMs: at }) as const),
      ...decided.map(
        ({ topic, number, at, decided_at }) => ({ topic, number, as: 'decider', atMs: decided_at ?? at }) as const,
      ),
    ],
    jobs: events.map((row) => ({ job: row.job, event: keptEvent(row) })),
  };
}

async function forgotten(scope: Scope, who: Who): Promise<Omit<Deleted, 'wiped'>> {
  // Held from the start: whatever the person does at this moment is either kept before and deleted here, or begins anew.
  const key = await heldKey(scope, who);
  if (key === null) return { bikes: 0, receipts: 0, madeAnonymous: 0 };
  const { answers, drafts, jobs } = await relied(scope, key);
  const bikes = await scope.deleteFrom('bikes').where('owner', '=', key).executeTakeFirst();
  const receipts = await scope.deleteFrom('receipts').where('owner', '=', key).executeTakeFirst();
  await scope.deleteFrom('setting_people').where('key', '=', key).execute();
  await scope.deleteFrom('people').where('person', '=', who.person).execute();
  if (jobs.length + drafts.length > 0) await goes(scope, key);
  return {
    bikes: Number(bikes.numDeletedRows),
    receipts: Number(receipts.numDeletedRows),
    madeAnonymous: answers.length + drafts.length + jobs.length,
  };
}

/** One place at a time, each by its own settings, and few rows at a time, so that the sweep holds nobody up for long. */
async function sweep(store: PlaceStore, nowMs: number): Promise<Swept> {
  const swept = { receipts: 0, jobs: 0, people: 0, deliveries: 0 };
  const delivered = nowMs - DELIVERY_DAYS * DAY_MS;
  for (let place = await nextPlace(store, ''); place !== null; place = await nextPlace(store, place)) {
    const { receiptDays, jobDays } = await store.read(place, ({ scope }) => settingsOf(scope));
    if (receiptDays !== null) {
      const before = nowMs - receiptDays * DAY_MS;
      swept.receipts += await inPages(store, place, (scope) => oldReceipts(scope, before));
      swept.people += await idlePeople(store, place, before);
    }
    if (jobDays !== null) {
      const before = nowMs - jobDays * DAY_MS;
      swept.jobs += await inPages(store, place, (scope) => oldJobs(scope, before));
    }
    swept.deliveries += await inPages(store, place, (scope) => oldDeliveries(scope, delivered));
  }
  await store.everywhere(async (db, engine) => {
    await engine.words.tidy?.(db);
    await engine.wipe?.(db);
  });
  return swept;
}

/** Repeats a piece of work, each time in a change of its own, until it finds less than a full page to do. */
async function inPages(store: PlaceStore, place: Place, page: (scope: Scope) => Promise<number>): Promise<number> {
  for (let all = 0; ; ) {
    const done = await store.change(place, ({ scope }) => page(scope));
    all += done;
    if (done < PAGE) return all;
  }
}

/**
 * The place after another in order of name. Whoever gave anything is among the people; a job outlives its people, and a
 * delivery may be all there ever was.
 */
function nextPlace(store: PlaceStore, after: string): Promise<Place | null> {
  return store.everywhere(async (db) => {
    const { rows } = await sql<{ place: Place | null }>`select min(place) as place from (
      select min(place) as place from people where place > ${after}
      union all select min(place) as place from jobs where place > ${after}
      union all select min(place) as place from deliveries where place > ${after}) as next`.execute(db);
    return rows[0]?.place ?? null;
  });
}

async function oldReceipts(scope: Scope, before: number): Promise<number> {
  const old = await scope.selectFrom('receipts').select('code').where('at', '<', before).limit(PAGE).execute();
  const codes = old.map(({ code }) => code);
  if (codes.length > 0) await scope.deleteFrom('receipts').where('code', 'in', codes).execute();
  return codes.length;
}

async function oldDeliveries(scope: Scope, before: number): Promise<number> {
  const old = await scope.selectFrom('deliveries').select('delivery').where('at', '<', before).limit(PAGE).execute();
  const deliveries = old.map(({ delivery }) => delivery);
  if (deliveries.length > 0) await scope.deleteFrom('deliveries').where('delivery', 'in', deliveries).execute();
  return deliveries.length;
}

async function oldJobs(scope: Scope, before: number): Promise<number> {
  const old = await scope
    .selectFrom('jobs')
    .select('job')
    .where('closed', '=', 1)
    .where('closed_at', '<', before)
    .limit(PAGE)
    .execute();
  let jobs = 0;
  for (const { job } of old) {
    // Somebody may reopen it at this moment; then it stays.
    const head = scope.deleteFrom('jobs').where('job', '=', job).where('closed', '=', 1);
    if ((await head.executeTakeFirst()).numDeletedRows === 0n) continue;
    await scope.deleteFrom('job_events').where('job', '=', job).execute();
    jobs++;
  }
  return jobs;
}

/** Removes people who have not been seen for long and of whom nothing is kept; those who stay are passed over. */
async function idlePeople(store: PlaceStore, place: Place, before: number): Promise<number> {
  let people = 0;
  for (let after: string | null = ''; after !== null; ) {
    const page: { readonly gone: number; readonly last: string | null } = await idlePage(store, place, before, after);
    people += page.gone;
    after = page.last;
  }
  return people;
}

/** One page of them in order of name; `last` is null on the last page. */
function idlePage(store: PlaceStore, place: Place, before: number, after: string) {
  return store.change(place, async ({ scope }) => {
    const idle = await scope
      .selectFrom('people')
      .select(['person', 'key'])
      .where('seen_at', '<', before)
      .where('person', '>', after)
      .orderBy('person')
      .limit(PAGE)
      .execute();
    let gone = 0;
    for (const { key } of idle) {
      if (await isNamed(scope, key)) continue;
      const people = scope.deleteFrom('people').where('key', '=', key).where('seen_at', '<', before);
      gone += Number((await people.executeTakeFirst()).numDeletedRows);
    }
    return { gone, last: idle.length < PAGE ? null : (idle.at(-1)?.person ?? null) };
  });
}

/** Whether anything that is kept leads to this person; once something does, no more is asked. */
async function isNamed(scope: Scope, key: string): Promise<boolean> {
  const queries: readonly { readonly execute: () => Promise<readonly unknown[]> }[] = [
    scope.selectFrom('bikes').select('owner').where('owner', '=', key).limit(1),
    scope.selectFrom('receipts').select('owner').where('owner', '=', key).limit(1),
    scope.selectFrom('answer_versions').select('author').where('author', '=', key).limit(1),
    scope.selectFrom('answer_versions').select('approver').where('approver', '=', key).limit(1),
    scope.selectFrom('answer_drafts').select('author').where('author', '=', key).limit(1),
    scope.selectFrom('answer_drafts').select('decider').where('decider', '=', key).limit(1),
    scope.selectFrom('job_events').select('by').where('by', '=', key).limit(1),
    scope.selectFrom('setting_people').select('key').where('key', '=', key).limit(1),
  ];
  for (const query of queries) if ((await query.execute()).length > 0) return true;
  return false;
}
