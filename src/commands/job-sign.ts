import { differsLine, jobAnswer, jobWords, signedAnswer } from '../card/job.ts';
import { actRefusal, noDueDay, noSecondCheck, noSuchJob, noTorque, unitAsWrench } from '../card/job-refusals.ts';
import { overRefusal } from '../card/kept.ts';
import type { JobAct } from '../records/job-rules.ts';
import type { JobView } from '../records/jobs.ts';
import { JOB, jobDone } from './job-result.ts';
import { isTorqueUnit, meantNm, readDueDay, readTorque } from './job-told.ts';
import type { Action, Field, Filled, KeptOutcome, Visit } from './kept.ts';

const ROW: Field = { name: 'row', label: 'Number of the row', form: 'whole', required: true, example: '3' };
const WHY: Field = { name: 'why', label: 'Reason', form: 'text', required: true, example: 'not on this bike' };
const SIGNING: readonly Field[] = [
  JOB,
  ROW,
  { name: 'value', label: 'Value set', form: 'word', required: true, example: 'value=13.5' },
  { name: 'wrench', label: 'Wrench used', form: 'word', required: true, example: 'wrench=A1' },
  {
    name: 'due',
    label: 'Day its calibration runs out',
    form: 'word',
    required: false,
    example: 'due=2027-03-01',
  },
  { ...WHY, required: false, example: 'why="printed on the part"' },
];

async function acted(
  filled: Filled,
  visit: Visit,
  act: JobAct,
  answer: (view: JobView) => string,
): Promise<KeptOutcome> {
  const job = Number(filled.job);
  const done = await visit.records.jobs.act(visit.who, job, act, visit.nowMs);
  switch (done.kind) {
    case 'missing':
      return { kind: 'refused', refusal: noSuchJob(job) };
    case 'over':
      return { kind: 'refused', refusal: overRefusal(done) };
    case 'refused': {
      const tried = {
        row: 'row' in act ? act.row : null,
        setNm: act.kind === 'ticked' ? act.setNm : null,
        wrench: act.kind === 'ticked' ? act.wrench.id : '',
        nowMs: visit.nowMs,
      };
      return { kind: 'refused', refusal: actRefusal(done.because, done.view, tried) };
    }
    case 'recorded': {
      const { view } = done;
      const row = view.state.rows.find((each) => act.kind === 'ticked' && each.row === act.row);
      return jobDone(view, jobWords(view, answer(view), row === undefined ? [] : differsLine(row)));
    }
  }
}

async function sign(filled: Filled, visit: Visit, asSecond: boolean): Promise<KeptOutcome> {
  const { value = '', wrench = '', due, why = '' } = filled;
  const job = Number(filled.job);
  const number = Number(filled.row);
  const view = await visit.records.jobs.load(visit.who.place, job);
  if (view === null) return { kind: 'refused', refusal: noSuchJob(job) };
  const row = view.state.rows.find((each) => each.row === number);
  if (isTorqueUnit(wrench)) return { kind: 'refused', refusal: unitAsWrench(wrench, view, row) };
  const told = readTorque(value);
  if (told === null) return { kind: 'refused', refusal: noTorque(value, view, row) };
  const dueMs = due === undefined ? null : readDueDay(due);
  if (due !== undefined && dueMs === null) {
    return { kind: 'refused', refusal: noDueDay(due, view, row, visit.nowMs) };
  }
  const open = view.state.closed === null && row?.struck === null;
  if (asSecond && open && (row.ticks.length === 0 || !row.secondPerson)) {
    return { kind: 'refused', refusal: noSecondCheck(job, row) };
  }
  const setNm = meantNm(told, row);
  const act = { kind: 'ticked', row: number, setNm, wrench: { id: wrench, calibrationDueMs: dueMs }, why } as const;
  return acted(filled, visit, act, ({ state }) => {
    const signed = state.rows.find((each) => each.row === number);
    return signed === undefined ? '' : signedAnswer(job, signed, setNm);
  });
}

export const tick: Action = {
  name: 'tick',
  summary: 'Sign a row with the value set and the wrench used',
  moderators: false,
  public: true,
  fields: SIGNING,
  run: (filled, visit) => sign(filled, visit, false),
};

export const second: Action = {
  name: 'second',
  summary: 'Check and sign a crank, steering or brake row as the second person',
  moderators: false,
  public: true,
  fields: SIGNING,
  run: (filled, visit) => sign(filled, visit, true),
};

export const strike: Action = {
  name: 'strike',
  summary: 'Strike out a row that this job does not need, with the reason',
  moderators: false,
  public: true,
  fields: [JOB, ROW, WHY],
  run: (filled, visit) => {
    const row = Number(filled.row);
    const act = { kind: 'struck', row, why: filled.why ?? '' } as const;
    return acted(filled, visit, act, ({ job }) => `Row ${row} of job ${job} is struck out, with the reason.`);
  },
};

export const undo: Action = {
  name: 'undo',
  summary: 'Take a row back to unsigned, with the reason; the log keeps what was signed',
  moderators: false,
  public: true,
  fields: [JOB, ROW, { ...WHY, example: 'wrong bolt' }],
  run: (filled, visit) => {
    const row = Number(filled.row);
    const act = { kind: 'cleared', row, why: filled.why ?? '' } as const;
    return acted(
      filled,
      visit,
      act,
      ({ job }) => `Row ${row} of job ${job} is unsigned again. The log keeps what stood there.`,
    );
  },
};

export const note: Action = {
  name: 'note',
  summary: 'Note something on a job, such as work that was advised and declined',
  moderators: false,
  public: true,
  fields: [JOB, { ...WHY, name: 'text', label: 'Note', example: 'new chain advised, declined' }],
  run: (filled, visit) =>
    acted(filled, visit, { kind: 'noted', text: filled.text ?? '' }, ({ job }) => `Noted on job ${job}.`),
};

export const close: Action = {
  name: 'close',
  summary: 'Close a job once every row is signed or struck out',
  moderators: false,
  public: true,
  fields: [JOB],
  run: (filled, visit) => acted(filled, visit, { kind: 'closed' }, jobAnswer),
};

export const reopen: Action = {
  name: 'reopen',
  summary: 'Open a closed job again, with the reason; it is recorded',
  moderators: false,
  public: true,
  fields: [JOB, { ...WHY, example: 'the crank creaks' }],
  run: (filled, visit) =>
    acted(
      filled,
      visit,
      { kind: 'reopened', why: filled.why ?? '' },
      (view) => `${jobAnswer(view)} The reopening is in the log.`,
    ),
};
