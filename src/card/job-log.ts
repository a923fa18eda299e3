import type { Words } from '../commands/command.ts';
import type { JobDeed, JobEvent } from '../records/job-events.ts';
import type { JobView } from '../records/jobs.ts';
import type { Block } from './card.ts';
import { authorWords, type Signers } from './job-people.ts';
import { plain } from './measures.ts';
import { day, minute } from './times.ts';
import { safetyBlocks } from './torque.ts';

/** What somebody did, in one line: "row 2 signed: 13 N·m, wrench A1, calibrated to 2027-03-01". */
export function deedWords(deed: JobDeed): string {
  switch (deed.kind) {
    case 'opened':
      return `opened with ${deed.rows.length === 1 ? 'one row' : `${deed.rows.length} rows`}: ${deed.title}`;
    case 'ticked': {
      const { id, calibrationDueMs } = deed.wrench;
      const due = calibrationDueMs === null ? 'no calibration date told' : `calibrated to ${day(calibrationDueMs)}`;
      const why = deed.why.trim() === '' ? '' : `; why: ${deed.why}`;
      return `row ${deed.row} signed: ${plain(deed.setNm, 2)} N·m, wrench ${id}, ${due}${why}`;
    }
    case 'struck':
      return `row ${deed.row} struck out: ${deed.why}`;
    case 'cleared':
      return `row ${deed.row} taken back to unsigned: ${deed.why}`;
    case 'noted':
      return `noted: ${deed.text}`;
    case 'closed':
      return 'closed';
    case 'reopened':
      return `reopened: ${deed.why}`;
  }
}

function eventLine({ sequence, atMs, by, deed }: JobEvent, signers: Signers): string {
  return `${sequence}. ${minute(atMs)}, ${authorWords(signers.get(by))}: ${deedWords(deed)}`;
}

/** A part of the log; `more` is the entry to go on after, null at the end. */
export function logWords(view: JobView, events: readonly JobEvent[], all: number, more: number | null): Words {
  const { job, state, signers } = view;
  const blocks: Block[] = [
    { kind: 'text', section: 'kept', title: 'Log', lines: events.map((event) => eventLine(event, signers)) },
  ];
  if (more !== null) {
    const actions = [{ label: 'Later entries', setup: `log ${job} after=${more}` }];
    blocks.push({ kind: 'actions', section: 'kept', title: 'Go on', actions });
  }
  return {
    answer: `Log of job ${job}: ${all === 1 ? 'one entry' : `${all} entries`}.`,
    lines: [state.title, 'Entries are only ever added; nothing in it was changed.'],
    blocks: [...blocks, ...safetyBlocks()],
  };
}
