import { isSettled, type RowState, type Tick } from '../records/job-events.ts';
import type { JobView } from '../records/jobs.ts';
import { SOURCES } from '../tables/sources.ts';
import type { Card } from './card.ts';
import { authorWords, type Signers } from './job-people.ts';
import { rowCautions } from './job-row.ts';
import { plain, torqueRange } from './measures.ts';
import { BETTER_LEFT_ALONE } from './objections.ts';
import { day, minute } from './times.ts';
import { safetyBlocks } from './torque.ts';
import { DECIDING_TITLES } from './work.ts';

/** One page for the workbench: what to order, what to do, what to tighten, who signed. Plain data, nothing typeset. */
export type JobSheet = {
  readonly title: string;
  readonly lines: readonly string[];
  /** Read before anything is touched. */
  readonly stops: readonly string[];
  /** Things to do or to have; `ticked` sections have a box before each item. */
  readonly sections: readonly SheetSection[];
  readonly torque: readonly SheetRow[];
  /** What to watch at each row that was not struck out, and what else is printed for it. */
  readonly watch: readonly string[];
  /** Who says the ranges: each work once, with the rows it stands behind. */
  readonly sources: readonly string[];
  readonly cautions: readonly string[];
  /** Advice the customer turned down, and rows struck out, with the reason. */
  readonly declined: readonly string[];
  readonly notes: readonly string[];
  readonly foot: string;
};

export type SheetSection = {
  readonly title: string;
  readonly ticked: boolean;
  readonly items: readonly string[];
};

/** A fastener with its target; what nobody has filled in yet is empty, to be written by hand. */
export type SheetRow = {
  readonly name: string;
  readonly target: string;
  readonly value: string;
  readonly wrench: string;
  readonly first: string;
  /** Null where one signature is enough. */
  readonly second: string | null;
  readonly struck: boolean;
};

/**
 * The sheet of a job. `plan` is the card the job came from: its work section and its cautions stand on the sheet; null
 * where no plan can be worked out. `receipt` is the code the plan is kept under.
 */
export function jobSheet(view: JobView, plan: Card | null, receipt: string | null): JobSheet {
  const { job, state, signers } = view;
  const standingRows = state.rows.filter((row) => row.struck === null);
  const blocks = plan === null ? safetyBlocks() : plan.blocks;
  const cautions = blocks.filter((block) => block.kind === 'caution');
  const texts = (level: 'stop' | 'care') => [
    ...new Set(cautions.filter((block) => block.level === level).map((block) => block.text)),
  ];
  return {
    title: `Job ${job}: ${state.title}`,
    lines: [
      `${state.setup}. Opened ${day(state.opened.atMs)} by ${authorWords(signers.get(state.opened.by))}. ${standing(view)}`,
      ...(plan === null ? [] : [[plan.answer, ...plan.lines].join(' ')]),
    ],
    stops: texts('stop'),
    sections: plan === null ? [] : workSections(plan),
    torque: state.rows.map((row) => sheetRow(row, signers)),
    watch: standingRows.flatMap(watchLine),
    sources: sourceLines(standingRows),
    cautions: texts('care'),
    declined: state.rows.flatMap((row) =>
      row.struck === null
        ? []
        : [
            `Row ${row.row}, ${row.fastener}: struck out by ${authorWords(signers.get(row.struck.by))}, ${row.struck.why}`,
          ],
    ),
    notes: state.notes.map(({ by, atMs, text }) => `${minute(atMs)}, ${authorWords(signers.get(by))}: ${text}`),
    foot: receipt === null ? `Job ${job}` : `Job ${job}, plan #${receipt}`,
  };
}

function standing({ state }: JobView): string {
  if (state.closed !== null) return `Closed ${day(state.closed.atMs)}.`;
  const open = state.rows.filter((row) => !isSettled(row)).length;
  return `${open} of ${state.rows.length} rows still to sign.`;
}

/** The plan keeps these, under the receipt code at the foot. */
const NOT_AT_THE_BENCH: readonly (string | undefined)[] = [...DECIDING_TITLES, BETTER_LEFT_ALONE.title];

function workSections(plan: Card): readonly SheetSection[] {
  return plan.blocks.flatMap((block): readonly SheetSection[] => {
    if (block.section !== 'work' || block.kind === 'caution' || block.kind === 'figure') return [];
    if (block.kind === 'working' || NOT_AT_THE_BENCH.includes(block.title)) return [];
    if (block.kind === 'text') return [{ title: block.title ?? '', ticked: false, items: block.lines }];
    return block.kind === 'checklist' ? [{ title: block.title, ticked: true, items: block.items.map(itemLine) }] : [];
  });
}

function itemLine({ text, detail }: { readonly text: string; readonly detail?: string }): string {
  if (detail === undefined) return text;
  return text.endsWith('.') ? `${text} ${detail}` : `${text}: ${detail}`;
}

function watchLine(row: RowState): readonly string[] {
  const cautions = rowCautions(row);
  return cautions.length === 0 ? [] : [`${row.row} ${row.fastener}: ${cautions.join(' ')}`];
}

/** "a bicycle maker's dealer torque table: 2 ring bolts, steel; 8 cassette, lockring". */
function sourceLines(rows: readonly RowState[]): readonly string[] {
  const places = new Map<string, string[]>();
  for (const { row, source } of rows) {
    if (source === '') continue;
    const work = WORKS.find((each) => source.startsWith(`${each}, `)) ?? source;
    const place = work === source ? `${row}` : `${row} ${source.slice(work.length + 2)}`;
    places.set(work, [...(places.get(work) ?? []), place]);
  }
  return [...places].map(([work, each]) => `${work}: ${each.join('; ')}`);
}

const WORKS: readonly string[] = Object.values(SOURCES);

function sheetRow(row: RowState, signers: Signers): SheetRow {
  const [first, second] = row.ticks;
  const signed = (tick: Tick | undefined) =>
    tick === undefined ? '' : `${authorWords(signers.get(tick.by))} ${day(tick.atMs)}`;
  const values = [...new Set(row.ticks.map((tick) => `${plain(tick.setNm, 2)} N·m`))];
  return {
    name: row.material === '' ? `${row.row} ${row.fastener}` : `${row.row} ${row.fastener}, ${row.material}`,
    target: row.lowNm === null || row.highNm === null ? "the maker's figure" : torqueRange(row.lowNm, row.highNm),
    value: values.join(', '),
    wrench: [...new Set(row.ticks.map((tick) => tick.wrench.id))].join(', '),
    first: signed(first),
    second: row.secondPerson ? signed(second) : null,
    struck: row.struck !== null,
  };
}
