import { arch, cpus, platform, totalmem } from 'node:os';
import type { Row } from './row.ts';

/** A ratio is part of a table only with where and when it was measured. */
export function machine(): string {
  const [first, ...others] = cpus();
  const memory = `${(totalmem() / 1024 ** 3).toFixed(0)} GB`;
  const cores = `${others.length + 1} cores of ${first?.model ?? 'an unknown processor'}, ${memory}`;
  return `${cores}, ${platform()} ${arch()}, Node ${process.version}, ${new Date().toISOString().slice(0, 10)}`;
}

/** The rows as one table in Markdown, as it is kept in the documentation. */
export function tableOf(rows: readonly Row[]): string {
  const cells = rows.map((row) => [
    row.what,
    row.measured,
    row.baseline,
    ratioOf(row),
    goalOf(row),
    verdictOf(row),
    row.limitedBy,
  ]);
  const all = [['what', 'measured', 'bare', 'ratio', 'goal', '', 'what limits it'], ...cells];
  const widths = all[0]?.map((_, column) => Math.max(...all.map((each) => each[column]?.length ?? 0))) ?? [];
  const line = (each: readonly string[]) =>
    `| ${each.map((cell, column) => cell.padEnd(widths[column] ?? 0)).join(' | ')} |`;
  const [head = [], ...rest] = all;
  return [line(head), line(widths.map((width) => '-'.repeat(width))), ...rest.map(line)].join('\n');
}

/** With how far the middle half of the rounds lies apart, where there were rounds. */
function ratioOf({ ratio, spread }: Row): string {
  const between = spread === undefined ? '' : ` (${spread[0].toFixed(2)} to ${spread[1].toFixed(2)})`;
  return `${ratio.toFixed(2)}${between}`;
}

function goalOf({ goal, better }: Row): string {
  if (goal === null) return '';
  return better === 'more' ? `at least ${goal}` : `at most ${goal}`;
}

function verdictOf({ ratio, goal, better }: Row): string {
  if (goal === null) return '';
  return (better === 'more' ? ratio >= goal : ratio <= goal) ? 'met' : 'MISSED';
}
