import { jobAnswer, jobListWords, jobWords } from '../card/job.ts';
import { logWords } from '../card/job-log.ts';
import { noSuchJob } from '../card/job-refusals.ts';
import { open } from './job-open.ts';
import { print } from './job-print.ts';
import { JOB, jobDone, personOf } from './job-result.ts';
import { close, note, reopen, second, strike, tick, undo } from './job-sign.ts';
import type { Action, KeptCommand } from './kept.ts';

/** As many as one card lists without becoming a wall of text; there is always a way to the rest. */
const HEADS_EACH = 20;
const EVENTS_EACH = 40;

const list: Action = {
  name: 'list',
  summary: 'The open jobs here, the newest first; closed=yes lists the closed ones',
  moderators: false,
  public: false,
  fields: [
    { name: 'closed', label: 'Closed ones', form: 'yes-no', required: false, example: 'closed=yes' },
    { name: 'before', label: 'Only before this number', form: 'whole', required: false, example: 'before=40' },
  ],
  run: async ({ closed = 'no', before }, visit) => {
    const which = closed.toLowerCase() === 'yes' ? 'closed' : 'open';
    const from = before === undefined ? Number.POSITIVE_INFINITY : Number(before);
    const heads = await visit.records.jobs.list(visit.who.place, which, from, HEADS_EACH + 1);
    const shown = heads.slice(0, HEADS_EACH);
    const more = heads.length > HEADS_EACH ? (shown.at(-1)?.job ?? null) : null;
    return { kind: 'done', words: jobListWords(shown, which, more), result: { jobs: shown, moreBefore: more } };
  },
};

const show: Action = {
  name: 'show',
  summary: 'A job as it stands: every row with its range, signatures and wrench',
  moderators: false,
  public: true,
  fields: [JOB],
  run: async ({ job }, visit) => {
    const view = await visit.records.jobs.load(visit.who.place, Number(job));
    return view === null
      ? { kind: 'refused', refusal: noSuchJob(Number(job)) }
      : jobDone(view, jobWords(view, jobAnswer(view)));
  },
};

const log: Action = {
  name: 'log',
  summary: 'Everything that was ever done on a job, in order',
  moderators: false,
  public: false,
  fields: [JOB, { name: 'after', label: 'Only after this entry', form: 'whole', required: false, example: 'after=40' }],
  run: async ({ job, after = '0' }, visit) => {
    const { place } = visit.who;
    const view = await visit.records.jobs.load(place, Number(job));
    if (view === null) return { kind: 'refused', refusal: noSuchJob(Number(job)) };
    const events = await visit.records.jobs.log(place, Number(job));
    const later = events.filter(({ sequence }) => sequence > Number(after));
    const shown = later.slice(0, EVENTS_EACH);
    const more = later.length > EVENTS_EACH ? (shown.at(-1)?.sequence ?? null) : null;
    return {
      kind: 'done',
      words: logWords(view, shown, events.length, more),
      result: {
        job: view.job,
        events: shown.map((event) => ({ ...event, by: personOf(view.signers.get(event.by)) })),
        moreAfter: more,
      },
    };
  },
};

/** The torque sign-off of a conversion: every fastener signed by whoever set it, the critical ones by two people. */
export const job: KeptCommand = {
  name: 'job',
  summary: 'Torque sign-off: one row a fastener, signed with value and wrench, two people where it matters',
  actions: [open, list, show, tick, second, strike, undo, note, close, reopen, log, print],
};
