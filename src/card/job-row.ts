import { isSettled, type RowState, type Tick } from '../records/job-events.ts';
import { TORQUES } from '../tables/torques.ts';
import { authorWords, type Signers, secondWords } from './job-people.ts';
import { plain, torqueRange } from './measures.ts';
import { CAUTION_WORDS, elsewhereWords } from './torque.ts';

/** What was planned for a row: the fastener, its material and the range. */
function plannedWords(row: RowState): string {
  const material = row.material === '' ? '' : `, ${row.material}`;
  const range = row.lowNm === null || row.highNm === null ? "the maker's figure" : torqueRange(row.lowNm, row.highNm);
  return `${row.row} ${row.fastener}${material} ${range}`;
}

function tickWords(tick: Tick, by: string): string {
  const why = tick.why.trim() === '' ? '' : ` (why: ${tick.why})`;
  return `${plain(tick.setNm, 2)} N·m by ${by}, wrench ${tick.wrench.id}${why}`;
}

function stateWords(row: RowState, signers: Signers): string {
  if (row.struck !== null) return `struck out by ${authorWords(signers.get(row.struck.by))}: ${row.struck.why}`;
  const [first, second] = row.ticks;
  if (first === undefined) return row.secondPerson ? 'open, for two people' : 'open';
  const signed = tickWords(first, authorWords(signers.get(first.by)));
  if (second !== undefined) return `${signed}; checked ${tickWords(second, secondWords(signers, first.by, second.by))}`;
  return row.secondPerson ? `${signed}; second check open` : signed;
}

/** A row in one line: "3 Crank pinch bolts (two), steel 12–15 N·m (106–133 lbf·in): open, for two people". */
export function rowLine(row: RowState, signers: Signers): string {
  return `${plannedWords(row)}: ${stateWords(row, signers)}`;
}

/** What to watch at a row, what else is printed for it, and who says its range. */
export function rowDetail(row: RowState): { readonly text: string; readonly detail: string } {
  const source = row.source === '' ? [] : [`From ${row.source}.`];
  return { text: `${row.row} ${row.fastener}`, detail: [...rowCautions(row), ...source].join(' ') };
}

/** What to watch at a row, and what else is printed for it. */
export function rowCautions(row: RowState): readonly string[] {
  const torque = TORQUES.find((each) => each.fastener === row.fastener && row.material.startsWith(each.material));
  const details = torque?.cautions.map((caution) => CAUTION_WORDS[caution]) ?? [];
  const elsewhere = torque === undefined ? null : elsewhereWords(torque.elsewhere);
  if (elsewhere !== null) details.push(`Elsewhere ${elsewhere}.`);
  return details;
}

/** The line that signs a row, ready to be changed; without a figure where only the maker of the part can say it. */
export function signingLine(job: number, row: RowState, wrench = 'A1'): string {
  const [first] = row.ticks;
  const action = first !== undefined && row.secondPerson ? 'second' : 'tick';
  const start = `job ${action} ${job} ${row.row}`;
  if (first !== undefined) return `${start} value=${plain(first.setNm, 2)} wrench=${wrench}`;
  if (row.lowNm === null || row.highNm === null) return `${start} value= wrench=${wrench} why="printed on the part"`;
  return `${start} value=${plain((row.lowNm + row.highNm) / 2, 2)} wrench=${wrench}`;
}

/** The rows that still need a signature. */
export function openRows(rows: readonly RowState[]): readonly RowState[] {
  return rows.filter((row) => !isSettled(row));
}

/** "row 2", "rows 2, 4 and 5". */
export function rowsWords(numbers: readonly number[]): string {
  const last = numbers.at(-1);
  if (last === undefined) return 'no row';
  if (numbers.length === 1) return `row ${last}`;
  return `rows ${numbers.slice(0, -1).join(', ')} and ${last}`;
}
