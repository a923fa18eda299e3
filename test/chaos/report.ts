import type { Asked } from './people.ts';
import type { Outcome } from './run.ts';

/** The platforms wait so long for a first answer (Discord, "Receiving and Responding"; Slack, "Slash commands"). */
const PLATFORM_MS = 3000;

export type Answered = {
  readonly asked: number;
  /** Words were there within the time the platform gives for a first answer. */
  readonly inTime: number;
  readonly late: number;
  readonly unanswered: number;
  readonly longestMs: number;
};

/** How the text questions fared that nothing but the storage stood in the way of, by what was broken in it. */
export function answeredBy(asked: readonly Asked[]): ReadonlyMap<string, Answered> {
  const phases = new Map<string, Asked[]>();
  for (const each of asked.filter(({ owed }) => owed)) {
    const phase =
      each.storage.length === 0 ? 'storage as it should be' : [...new Set(each.storage)].sort().join(' and ');
    phases.set(phase, [...(phases.get(phase) ?? []), each]);
  }
  return new Map([...phases].sort(([a], [b]) => (a < b ? -1 : 1)).map(([phase, list]) => [phase, countsOf(list)]));
}

function countsOf(list: readonly Asked[]): Answered {
  const times = list.flatMap(({ wordsMs }) => wordsMs ?? []);
  const inTime = times.filter((ms) => ms <= PLATFORM_MS).length;
  return {
    asked: list.length,
    inTime,
    late: times.length - inTime,
    unanswered: list.length - times.length,
    longestMs: Math.round(Math.max(0, ...times)),
  };
}

/** Everything that makes a run a failure, in words. Where time is not measured, an answer may also be late. */
export function failuresOf({ bySql, byRecords, faults, book }: Outcome, latestMs = PLATFORM_MS): readonly string[] {
  const named = (way: string, audit: Outcome['bySql']) => [
    ...audit.lost.map((each) => `lost, ${way}: ${each}`),
    ...audit.doubled.map((each) => `doubled, ${way}: ${each}`),
    ...audit.unasked.map((each) => `never asked for, ${way}: ${each}`),
    ...audit.gaps.map((each) => `a gap, ${way}: ${each}`),
  ];
  const questions = book.asked
    .filter(({ owed, wordsMs }) => owed && (wordsMs === null || wordsMs > latestMs))
    .map(({ front, storage, firstMs, wordsMs }) => {
      const came = (ms: number | null) => (ms === null ? 'never' : `after ${Math.round(ms)} ms`);
      return `a text question: ${front}, ${storage.join(', ')}: first answer ${came(firstMs)}, words ${came(wordsMs)}`;
    });
  return [...named('by SQL', bySql), ...named('by records', byRecords), ...faults, ...questions];
}

/** Failures named one by one; more of a kind are only counted. */
const NAMED = 40;

export function reportLines(outcome: Outcome): readonly string[] {
  const { plan, book, weather, bySql, byRecords, held, errors } = outcome;
  const failures = failuresOf(outcome);
  const told = (what: string) => book.entries.filter((each) => what === '' || each.what === what);
  const kinds = [...new Set(book.entries.map(({ what }) => what))].sort();
  const rows = [...kinds, ''].map((what) => {
    const all = told(what);
    const counted = (which: string) => String(all.filter((each) => each.told === which).length);
    const name = what === '' ? 'all' : what;
    return [name, String(all.length), counted('acknowledged'), counted('refused'), counted('unanswered')];
  });
  const [same = 0, other = 0, later = 0] = (['same', 'other', 'later'] as const).map(
    (each) => book.again.get(each) ?? 0,
  );
  return [
    `${plan.engine}, seed ${plan.seed}, ${Math.round(plan.forMs / 1000)} s, ${plan.processes} processes for each way in`,
    '',
    ...tableOf([['broken', 'times'], ...[...weather.kinds].sort().map(([kind, times]) => [kind, String(times)])]),
    `delivered twice: ${same} to the same process, ${other} to another at once, ${later} later`,
    '',
    ...tableOf([['asked for', 'asked', 'acknowledged', 'refused', 'unanswered'], ...rows]),
    '',
    ...tableOf([
      ['found', 'lost', 'doubled', 'never asked for', 'gaps'],
      ...(
        [
          ['by SQL', bySql],
          ['by records', byRecords],
        ] as const
      ).map(([way, { lost, doubled, unasked, gaps }]) => [
        way,
        ...[lost, doubled, unasked, gaps].map((each) => String(each.length)),
      ]),
    ]),
    '',
    ...tableOf([
      ['text questions while', 'asked', 'in 3 s', 'later', 'unanswered', 'longest ms'],
      ...[...answeredBy(book.asked)].map(([phase, { asked, inTime, late, unanswered, longestMs }]) => [
        phase,
        ...[asked, inTime, late, unanswered, longestMs].map(String),
      ]),
    ]),
    `and ${book.asked.filter(({ owed }) => !owed).length} while their own process or platform was broken, of which ${
      book.asked.filter(({ owed, wordsMs }) => !owed && wordsMs !== null).length
    } were answered`,
    '',
    ...held,
    ...[...errors].map(([words, times]) => `logged as a fault of ours: ${words} (${times} times)`),
    '',
    ...failures.slice(0, NAMED).map((each) => `FAILED: ${each}`),
    ...(failures.length > NAMED ? [`and ${failures.length - NAMED} more`] : []),
    failures.length === 0
      ? 'Nothing lost, nothing doubled, every text question answered.'
      : `${failures.length} failures`,
  ];
}

function tableOf(rows: readonly (readonly string[])[]): readonly string[] {
  const widths = (rows[0] ?? []).map((_, at) => Math.max(...rows.map((row) => (row[at] ?? '').length)));
  return rows.map((row) =>
    row
      .map((cell, at) => (at === 0 ? cell.padEnd(widths[at] ?? 0) : cell.padStart(widths[at] ?? 0)))
      .join('  ')
      .trimEnd(),
  );
}
