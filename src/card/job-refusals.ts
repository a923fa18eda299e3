import type { Refusal } from '../bike/reading.ts';
import type { RowState } from '../records/job-events.ts';
import type { ActRefused } from '../records/job-rules.ts';
import type { JobView } from '../records/jobs.ts';
import { authorWords } from './job-people.ts';
import { openRows, rowsWords, signingLine } from './job-row.ts';
import { plain, torque, torqueRange } from './measures.ts';
import { day } from './times.ts';

const YEAR_MS = 365 * 86_400_000;

/** What an act was about, as far as it said. */
export type Tried = {
  readonly row: number | null;
  readonly setNm: number | null;
  readonly wrench: string;
  readonly nowMs: number;
};

/** Why an act on a job is not recorded, in words; nothing has changed. */
export function actRefusal(because: ActRefused, view: JobView, tried: Tried): Refusal {
  const { job, state } = view;
  const row = state.rows.find((each) => each.row === tried.row);
  switch (because.kind) {
    case 'no-such-row':
      return {
        field: 'row',
        message: `Job ${job} has no row ${tried.row}.`,
        allowed: because.rows === 1 ? 'row 1' : `a row from 1 to ${because.rows}`,
        example: `job show ${job}`,
      };
    case 'closed':
      return {
        field: 'job',
        message: `Job ${job} is closed; nothing on it changes.`,
        allowed: 'reading it, or opening it again with a reason, which is recorded',
        example: `job reopen ${job} the crank creaks`,
      };
    case 'not-closed':
      return {
        field: 'job',
        message: `Job ${job} is open already.`,
        allowed: 'reopening a closed job',
        example: `job show ${job}`,
      };
    case 'struck':
      return {
        field: 'row',
        message: `Row ${tried.row} of job ${job} is struck out.`,
        allowed: 'an open row, or taking this one back first, with a reason',
        example: `job undo ${job} ${tried.row} it is on this bike after all`,
      };
    case 'signed-already':
      return {
        field: 'row',
        message: `Row ${tried.row} of job ${job} has all the signatures it needs.`,
        allowed: `${openWords(view)}; or taking this one back first, with a reason`,
        example: `job undo ${job} ${tried.row} the bolt was taken out again`,
      };
    case 'same-person':
      return samePerson(view, row);
    case 'perhaps-same-person':
      return {
        field: 'row',
        message: `Whoever signed row ${tried.row} of job ${job} first had their data deleted, and you were first seen here after that: nothing tells you two apart.`,
        allowed: 'a second person who was here before; or taking the row back with a reason, and two new signatures',
        example: `job undo ${job} ${tried.row} the first signer is gone`,
      };
    case 'wrench-expired':
      return {
        field: 'wrench',
        message: `The calibration of wrench ${tried.wrench} ran out on ${day(because.dueMs)}.`,
        allowed: 'a wrench in calibration; or, once it has been calibrated, its new date as due=',
        example: `${tickExample(view, row, wrenchWord(tried))} due=${day(tried.nowMs + YEAR_MS)}`,
      };
    case 'wrench-unnamed':
      return {
        field: 'wrench',
        message: 'It is not said which wrench was used.',
        allowed: 'the name or number on the wrench, so that its calibration can be looked up',
        example: tickExample(view, row),
      };
    case 'not-a-torque':
      return {
        field: 'value',
        message: `${tried.setNm === null ? 'That' : torque(tried.setNm)} is no torque for a bicycle.`,
        allowed: `over 0 and up to ${torque(because.highNm)}`,
        example: tickExample(view, row),
      };
    case 'why-outside':
      return outside(because, view, row, tried);
    case 'why-differs':
      return {
        field: 'value',
        message: `The first person set ${torque(because.firstNm)} on row ${tried.row}; you say ${setWords(tried)}.`,
        allowed: 'the same figure, or the reason for another one as why=',
        example: tickExample(view, row),
      };
    case 'why-missing':
      return {
        field: 'why',
        message: 'The words are missing: a reason, or what is to be noted.',
        allowed: 'a few words that somebody else understands later',
        example: `job note ${job} told the rider that the chain is worn`,
      };
    case 'nothing-to-clear':
      return {
        field: 'row',
        message: `Row ${tried.row} of job ${job} is neither signed nor struck out.`,
        allowed: 'a row that is',
        example: `job show ${job}`,
      };
    case 'rows-open':
      return rowsOpen(view);
  }
}

function setWords({ setNm }: Tried): string {
  return setNm === null ? 'another' : torque(setNm);
}

function openWords({ state }: JobView): string {
  const open = openRows(state.rows).map((each) => each.row);
  return open.length === 0 ? 'no row of this job is open' : `what is open: ${rowsWords(open)}`;
}

function tickExample({ job }: JobView, row: RowState | undefined, wrench?: string): string {
  return row === undefined ? `job show ${job}` : signingLine(job, row, wrench);
}

function samePerson(view: JobView, row: RowState | undefined): Refusal {
  if (row?.secondPerson !== true) {
    return {
      field: 'row',
      message: `You have signed row ${row?.row ?? ''} already.`,
      allowed: `${openWords(view)}; or taking this one back first, with a reason`,
      example: `job undo ${view.job} ${row?.row ?? ''} the bolt was taken out again`,
    };
  }
  return {
    field: 'row',
    message: `You signed row ${row.row} first; its second signature must be somebody else's.`,
    allowed: 'crank, steering and brake rows: two different people, each with a wrench in hand',
    example: signingLine(view.job, row),
  };
}

function outside(
  { lowNm, highNm }: { readonly lowNm: number | null; readonly highNm: number | null },
  { job }: JobView,
  row: RowState | undefined,
  tried: Tried,
): Refusal {
  const line = `job tick ${job} ${tried.row} value=${tried.setNm === null ? '' : plain(tried.setNm, 2)}`;
  if (row === undefined || lowNm === null || highNm === null) {
    return {
      field: 'why',
      message: `Row ${tried.row} has no range here: only the maker of the part can say.`,
      allowed: 'the value with why= saying where it is printed',
      example: `${line} wrench=${wrenchWord(tried)} why="printed on the part"`,
    };
  }
  return {
    field: 'value',
    message: `Row ${tried.row} wants ${torqueRange(lowNm, highNm)}; ${setWords(tried)} is outside it.`,
    allowed: "a value in that range; or, where the part or its maker's manual prints another, why= saying so",
    example: signingLine(job, { ...row, ticks: [] }),
  };
}

/** The wrench as it can stand in a line. */
function wrenchWord({ wrench }: Tried): string {
  return wrench.includes(' ') ? `"${wrench}"` : wrench;
}

function rowsOpen({ job, state, signers }: JobView): Refusal {
  const open = openRows(state.rows);
  const waits: string[] = [];
  const unsigned = open.filter((each) => each.ticks.length === 0).map((each) => each.row);
  if (unsigned.length > 0) waits.push(`${rowsWords(unsigned)} for a signature`);
  for (const { row, ticks } of open) {
    const [first] = ticks;
    if (first !== undefined) waits.push(`row ${row} for a second one, not by ${authorWords(signers.get(first.by))}`);
  }
  const [next] = open;
  return {
    field: 'job',
    message: `Job ${job} stays open and waits: ${waits.join('; ')}.`,
    allowed: 'every row signed, by two people where a fall would follow, or struck out with a reason',
    example: next === undefined ? `job show ${job}` : signingLine(job, next),
  };
}

/** There is no job by that number in this place. */
export function noSuchJob(job: number): Refusal {
  return {
    field: 'job',
    message: `There is no job ${job} here.`,
    allowed: 'a number from: job list',
    example: 'job list',
  };
}

/** A second check before the first signature, or of a row that one person settles. */
export function noSecondCheck(job: number, row: RowState): Refusal {
  const one = !row.secondPerson;
  return {
    field: 'row',
    message: one ? `Row ${row.row} of job ${job} needs one signature only.` : `Nobody has signed row ${row.row} yet.`,
    allowed: one ? 'a second check on crank, steering and brake rows' : 'the first signature first: job tick',
    example: one ? `job show ${job}` : signingLine(job, row),
  };
}

/** The value cannot be read as a torque. */
export function noTorque(text: string, view: JobView, row: RowState | undefined): Refusal {
  return {
    field: 'value',
    message: `"${[...text].slice(0, 40).join('')}" cannot be read as a torque.`,
    allowed: 'N·m where no unit stands, or lbf·in or lbf·ft written to the number: 13.5, 119lbf·in, "119 lbf·in"',
    example: tickExample(view, row),
  };
}

/** The unit stands apart from its value, where the wrench was looked for. */
export function unitAsWrench(unit: string, view: JobView, row: RowState | undefined): Refusal {
  return {
    field: 'wrench',
    message: `"${unit}" is a unit and not a wrench.`,
    allowed: `the unit written to its value, or both in quotes: value="119 ${unit}"`,
    example: tickExample(view, row),
  };
}

/** The calibration date cannot be read. */
export function noDueDay(text: string, view: JobView, row: RowState | undefined, nowMs: number): Refusal {
  return {
    field: 'due',
    message: `"${[...text].slice(0, 40).join('')}" is no date to calibrate a wrench by.`,
    allowed: 'year, month and day: 2027-03-01',
    example: `${tickExample(view, row)} due=${day(nowMs + YEAR_MS)}`,
  };
}

/** Nothing of the line told a bike, so a job would have every row there is. */
export function noBikeForJob(): Refusal {
  return {
    field: 'setup',
    message: 'No bike could be read, so there is no plan to take the rows from.',
    allowed: 'a bike in the line, one that is kept (bike=winter), or an answer given before (from=#7K3M9Q2A)',
    example: 'job open 2x10 36/22 11-36 104bcd cranktype=pinch title="Hardtail to 32"',
  };
}
