import { isSettled } from '../records/job-events.ts';
import type { JobView } from '../records/jobs.ts';
import type { Author } from '../records/place.ts';
import type { Words } from './command.ts';
import type { Field, KeptOutcome } from './kept.ts';

/** The number of a job, first in every line about one. */
export const JOB: Field = {
  name: 'job',
  label: 'Number of the job',
  form: 'whole',
  required: true,
  example: '1',
  suggest: 'jobs',
};

/** Null for somebody deleted. */
export function personOf(author: Author | undefined): string | null {
  return author?.kind === 'person' ? author.person : null;
}

/** A job as data: who signed what, when and with which wrench. */
function jobResult({ job, state, signers }: JobView) {
  const by = (signer: string) => personOf(signers.get(signer));
  return {
    job,
    title: state.title,
    setup: state.setup,
    opened: { by: by(state.opened.by), atMs: state.opened.atMs },
    closed: state.closed === null ? null : { by: by(state.closed.by), atMs: state.closed.atMs },
    rows: state.rows.map((row) => ({
      ...row,
      settled: isSettled(row),
      ticks: row.ticks.map((tick) => ({ ...tick, by: by(tick.by) })),
      struck: row.struck === null ? null : { ...row.struck, by: by(row.struck.by) },
    })),
    notes: state.notes.map((note) => ({ ...note, by: by(note.by) })),
    sequence: state.sequence,
  };
}

/** What came of an action on a job: the job as it now stands. */
export function jobDone(view: JobView, words: Words): KeptOutcome {
  return { kind: 'done', words, result: { job: jobResult(view) } };
}
