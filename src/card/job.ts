import type { Words } from '../commands/command.ts';
import type { RowState } from '../records/job-events.ts';
import type { JobHead, JobView } from '../records/jobs.ts';
import type { ActionsBlock, Block, Card } from './card.ts';
import { authorWords } from './job-people.ts';
import { openRows, rowDetail, rowLine, rowsWords, signingLine } from './job-row.ts';
import { plain, torque } from './measures.ts';
import { day, minute } from './times.ts';
import { safetyBlocks } from './torque.ts';

/** As many ready-made signatures as still can be told apart at a glance; the rows themselves are all listed. */
const MOST_SIGNING = 3;

/** A job as it stands: `answer` says what has just happened, `more` what else the reader must know. */
export function jobWords(view: JobView, answer: string, more: readonly string[] = []): Words {
  const { state, signers } = view;
  const lines = [titleLine(view), ...stateLines(view), ...more, ...uncalibrated(state.rows)];
  const blocks: Block[] = [
    { kind: 'text', section: 'kept', title: 'Rows', lines: state.rows.map((row) => rowLine(row, signers)) },
  ];
  if (state.notes.length > 0) {
    blocks.push({
      kind: 'text',
      section: 'kept',
      title: 'Notes',
      lines: state.notes.map(({ by, atMs, text }) => `${minute(atMs)}, ${authorWords(signers.get(by))}: ${text}`),
    });
  }
  blocks.push({
    kind: 'checklist',
    section: 'kept',
    title: 'What to watch, and who says the range',
    items: state.rows.filter((row) => row.struck === null).map(rowDetail),
  });
  blocks.push(jobActions(view), ...safetyBlocks());
  return { answer, lines, blocks };
}

/** How a job stands, as the first line of a card. */
export function jobAnswer({ job, state }: JobView): string {
  const open = openRows(state.rows).length;
  const count = `${state.rows.length - open} of ${state.rows.length} rows settled`;
  return state.closed === null ? `Job ${job} is open: ${count}.` : `Job ${job} is closed: ${count}.`;
}

function titleLine({ state, signers }: JobView): string {
  const { title, opened } = state;
  return `${title}; opened ${day(opened.atMs)} by ${authorWords(signers.get(opened.by))}.`;
}

function stateLines({ job, state, signers }: JobView): readonly string[] {
  if (state.closed !== null) {
    return [`Closed ${minute(state.closed.atMs)} by ${authorWords(signers.get(state.closed.by))}.`];
  }
  const open = openRows(state.rows);
  const [next] = open;
  if (next === undefined) return [`Every row is settled. To close it: job close ${job}`];
  const untouched = open.length === state.rows.length && open.every((row) => row.ticks.length === 0);
  const which = untouched ? 'Every row is open.' : `Open: ${rowsWords(open.map((each) => each.row))}.`;
  return [which, `To sign one: ${signingLine(job, next)}`];
}

/** A wrench without a date is not refused, and not passed over in silence either. */
function uncalibrated(rows: readonly RowState[]): readonly string[] {
  const wrenches = new Set<string>();
  for (const { ticks } of rows) {
    for (const { wrench } of ticks) if (wrench.calibrationDueMs === null) wrenches.add(wrench.id);
  }
  if (wrenches.size === 0) return [];
  return [`No calibration date was told for wrench ${[...wrenches].join(', ')}: add due=2027-03-01 to a tick.`];
}

function jobActions({ job, state }: JobView): ActionsBlock {
  const actions = state.closed !== null ? closedActions(job) : openActions(job, openRows(state.rows));
  return {
    kind: 'actions',
    section: 'kept',
    title: 'Go on with this job',
    actions: [...actions, { label: 'Log', setup: `log ${job}` }],
  };
}

function closedActions(job: number): ActionsBlock['actions'] {
  return [{ label: `Reopen job ${job}`, setup: `reopen ${job}` }];
}

function openActions(job: number, open: readonly RowState[]): ActionsBlock['actions'] {
  const [first] = open;
  if (first === undefined) return [{ label: `Close job ${job}`, setup: `close ${job}` }];
  const signing = open
    .slice(0, MOST_SIGNING)
    .map((row) =>
      row.secondPerson && row.ticks.length === 1
        ? { label: `Second check, row ${row.row}`, setup: `second ${job} ${row.row} value= wrench=` }
        : { label: `Tick row ${row.row}`, setup: `tick ${job} ${row.row} value= wrench=` },
    );
  return [...signing, { label: `Strike row ${first.row}`, setup: `strike ${job} ${first.row}` }];
}

/** A row was signed: what stands there now, in both units. */
export function signedAnswer(job: number, row: RowState, setNm: number): string {
  const signed = `Row ${row.row} of job ${job} is signed: ${torque(setNm)}.`;
  if (!row.secondPerson) return signed;
  return row.ticks.length === 1 ? `${signed} A second person must check it.` : `${signed} Two people have signed it.`;
}

/** The plan a job was opened from: what must be heeded first, what it says, and how the line was read. */
export function planBlocks({ answer, readBack, blocks }: Card): readonly Block[] {
  const stops = blocks.filter((block) => block.kind === 'caution' && block.level === 'stop');
  return [...stops, { kind: 'text', section: 'kept', title: 'The plan', lines: [answer, readBack] }];
}

/** Said with a job whose rows hang on something the line did not tell. */
export function openRowsLine(job: number, row: number): string {
  return `Rows with "if" that are not on this bike: job strike ${job} ${row} not on this bike`;
}

/** Said with a job where the second of two signatures is not what the first was. */
export function differsLine(row: RowState): readonly string[] {
  const [first, second] = row.ticks;
  if (first === undefined || second === undefined || first.setNm === second.setNm) return [];
  return [`The two figures differ: ${plain(first.setNm, 2)} and ${plain(second.setNm, 2)} N·m. The reason is kept.`];
}

/** The open or the closed jobs of a place; `more` is the number to go on before, null at the end. */
export function jobListWords(heads: readonly JobHead[], which: 'open' | 'closed', more: number | null): Words {
  const [newest] = heads;
  const actions = heads.slice(0, MOST_SIGNING).map(({ job }) => ({ label: `Show job ${job}`, setup: `show ${job}` }));
  if (more !== null) {
    actions.push({ label: 'Older jobs', setup: `list ${which === 'closed' ? 'closed=yes ' : ''}before=${more}` });
  }
  if (newest === undefined) {
    return {
      answer: `No ${which} jobs here.`,
      lines: ['Open one: job open 2x10 36/22 11-36 104bcd cranktype=pinch'],
      blocks: [],
    };
  }
  const count = heads.length === 1 ? `One ${which} job` : `${heads.length} ${which} jobs`;
  return {
    answer: more === null ? `${count} here.` : `${count}, the newest first; there are older ones.`,
    lines: which === 'open' ? ['The closed ones: job list closed=yes'] : ['The open ones: job list'],
    blocks: [
      {
        kind: 'text',
        section: 'kept',
        title: which === 'open' ? 'Open jobs' : 'Closed jobs',
        lines: heads.map(({ job, title, openedAtMs }) => `${job}: ${title}; opened ${day(openedAtMs)}`),
      },
      { kind: 'actions', section: 'kept', title: 'Look into one', actions },
    ],
  };
}
