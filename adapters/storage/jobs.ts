import type { JobDeed, JobEvent, JobRow, JobState } from '../../src/records/job-events.ts';
import { advance, replay } from '../../src/records/job-events.ts';
import { actRefused, eventFor, type JobAct, needsSecondPerson } from '../../src/records/job-rules.ts';
import type { Acted, Jobs, JobView, NewJob } from '../../src/records/jobs.ts';
import { longest, type Over, overLimit } from '../../src/records/limits.ts';
import { nameKey } from '../../src/records/names.ts';
import type { Who } from '../../src/records/place.ts';
import { authorsOf, keyOf, perhapsOwn } from './people.ts';
import type { Scope } from './scope.ts';
import type { PlaceStore } from './store.ts';
import type { Tables } from './tables.ts';

type HeadContent = { readonly title: string };

/** Two people opening a job at once want the same number; the second takes the next. */
const NUMBER_TRIES = 100;

export function jobsIn(store: PlaceStore): Jobs {
  return {
    open: async (who, job, atMs) => {
      if (job.rows.length === 0) return { kind: 'no-rows' };
      const over = tooLongJob(job);
      if (over !== null) return over;
      return store.change(who.place, async ({ scope }) => {
        const by = await keyOf(scope, who, atMs);
        const rows = job.rows.map(
          (row, at): JobRow => ({
            row: at + 1,
            fastener: row.fastener,
            material: row.material,
            lowNm: row.lowNm,
            highNm: row.highNm,
            source: row.source,
            secondPerson: row.secondPerson === true || needsSecondPerson(row.fastener),
          }),
        );
        const deed: JobDeed = { kind: 'opened', title: job.title, setup: job.setup, rows };
        const event: JobEvent = { sequence: 1, atMs, by, deed };
        const number = await numbered(scope, job.title, atMs);
        await append(scope, number, event);
        return { kind: 'opened', view: await viewOf(scope, number, advance(null, event)) };
      });
    },

    act: async (who, job, act, atMs) => {
      const over = tooLongAct(act);
      if (over !== null) return over;
      return store.change(who.place, ({ scope }) => judged(scope, who, job, act, atMs));
    },

    load: (place, job) =>
      store.read(place, async ({ scope }) => {
        const events = await eventsOf(scope, job);
        return events.length === 0 ? null : viewOf(scope, job, replay(events));
      }),

    log: (place, job) => store.read(place, ({ scope }) => eventsOf(scope, job)),

    list: (place, which, before, most) =>
      store.read(place, async ({ scope }) => {
        const rows = await scope
          .selectFrom('jobs')
          .selectAll()
          .where('closed', '=', which === 'closed' ? 1 : 0)
          .where('job', '<', Math.min(before, Number.MAX_SAFE_INTEGER))
          .orderBy('job', 'desc')
          .limit(most)
          .execute();
        return rows.map((row) => ({
          job: row.job,
          title: (JSON.parse(row.content) as HeadContent).title,
          closed: row.closed === 1,
          openedAtMs: row.opened_at,
        }));
      }),
  };
}

/** Takes the job's next number in its log, which keeps others waiting, then judges the act by what stands. */
async function judged(scope: Scope, who: Who, job: number, act: JobAct, atMs: number): Promise<Acted> {
  const held = await scope
    .updateTable('jobs')
    .set((eb) => ({ sequence: eb('sequence', '+', 0) }))
    .where('job', '=', job)
    .returning('sequence')
    .executeTakeFirst();
  const state = held === undefined ? null : replay(await eventsOf(scope, job));
  if (held === undefined || state === null) return { kind: 'missing' };
  const over = overLimit({ jobEvents: held.sequence + 1 });
  if (over !== null) return over;

  const by = await keyOf(scope, who, atMs);
  const told = act.kind === 'ticked' ? { ...act, wrench: await calibrated(scope, act.wrench) } : act;
  const row = told.kind === 'ticked' ? state.rows.find((each) => each.row === told.row) : undefined;
  const signed = row?.ticks.map((tick) => tick.by) ?? [];
  const because = actRefused(state, told, by, atMs, await perhapsOwn(scope, by, signed));
  if (because !== null) return { kind: 'refused', because, view: await viewOf(scope, job, state) };

  const event = eventFor(state, told, by, atMs);
  await append(scope, job, event);
  await scope
    .updateTable('jobs')
    .set({ sequence: event.sequence, ...stateAfter(act, atMs) })
    .where('job', '=', job)
    .execute();
  return { kind: 'recorded', view: await viewOf(scope, job, advance(state, event)) };
}

/** What an act changes of whether the job is closed. */
function stateAfter({ kind }: JobAct, atMs: number): Partial<Pick<Tables['jobs'], 'closed' | 'closed_at'>> {
  if (kind === 'closed') return { closed: 1, closed_at: atMs };
  return kind === 'reopened' ? { closed: 0, closed_at: null } : {};
}

type Wrench = Extract<JobAct, { readonly kind: 'ticked' }>['wrench'];

/**
 * The wrench with the due date told now, which is remembered, or else with the one told last. A date told with a tick
 * that is then refused counts as well: leaving the date out must not bring an expired wrench back.
 */
async function calibrated(scope: Scope, wrench: Wrench): Promise<Wrench> {
  const id = nameKey(wrench.id);
  if (wrench.calibrationDueMs !== null) {
    const due_at = wrench.calibrationDueMs;
    await scope
      .insertInto('wrenches')
      .values({ wrench: id, due_at })
      .onConflict((conflict) => conflict.columns(['place', 'wrench']).doUpdateSet({ due_at }))
      .execute();
    return wrench;
  }
  const row = await scope.selectFrom('wrenches').select('due_at').where('wrench', '=', id).executeTakeFirst();
  return { ...wrench, calibrationDueMs: row?.due_at ?? null };
}

async function numbered(scope: Scope, title: string, atMs: number): Promise<number> {
  for (let tries = 0; tries < NUMBER_TRIES; tries++) {
    const { last } = await scope
      .selectFrom('jobs')
      .select((eb) => eb.fn.max('job').as('last'))
      .executeTakeFirstOrThrow();
    const row = await scope
      .insertInto('jobs')
      .values({
        job: (last ?? 0) + 1,
        closed: 0,
        sequence: 1,
        opened_at: atMs,
        closed_at: null,
        content: JSON.stringify({ title } satisfies HeadContent),
      })
      .onConflict((conflict) => conflict.columns(['place', 'job']).doNothing())
      .returning('job')
      .executeTakeFirst();
    if (row !== undefined) return row.job;
  }
  throw new Error('no number is free for a new job');
}

async function append(scope: Scope, job: number, { sequence, by, atMs, deed }: JobEvent): Promise<void> {
  await scope
    .insertInto('job_events')
    .values({ job, sequence, by, at: atMs, content: JSON.stringify(deed) })
    .execute();
}

async function eventsOf(scope: Scope, job: number): Promise<JobEvent[]> {
  const rows = await scope.selectFrom('job_events').selectAll().where('job', '=', job).orderBy('sequence').execute();
  return rows.map(keptEvent);
}

/** An event as it happened, back from its row. */
export function keptEvent(row: Omit<Tables['job_events'], 'place'>): JobEvent {
  return { sequence: row.sequence, atMs: row.at, by: row.by, deed: JSON.parse(row.content) as JobDeed };
}

async function viewOf(scope: Scope, job: number, state: JobState | null): Promise<JobView> {
  if (state === null) throw new Error('the log of a job begins with its opening');
  // Everybody in the log, not only those whose entries still stand: what was taken back has an author as well.
  const rows = await scope.selectFrom('job_events').select('by').distinct().where('job', '=', job).execute();
  const keys = rows.map((row) => row.by);
  const author = await authorsOf(scope, keys);
  return { job, state, signers: new Map(keys.map((key) => [key, author(key)])) };
}

function tooLongJob(job: NewJob): Over | null {
  return overLimit({
    jobTitle: job.title.length,
    setup: job.setup.length,
    jobRows: job.rows.length,
    fastener: longest(job.rows.map((row) => row.fastener)),
    material: longest(job.rows.map((row) => row.material)),
    source: longest(job.rows.map((row) => row.source)),
  });
}

function tooLongAct(act: JobAct): Over | null {
  const why = 'why' in act ? act.why : 'text' in act ? act.text : '';
  return overLimit({ why: why.length, wrench: act.kind === 'ticked' ? act.wrench.id.length : 0 });
}
