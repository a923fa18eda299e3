import type { ChildProgram } from '../support/child-program.ts';
import { MARK } from './deeds.ts';

/** As much of a line as tells where it came from. */
const SHOWN = 800;

/** What must not be found in what a program has written. */
export function logFaults(name: string, program: ChildProgram, secrets: readonly string[]): readonly string[] {
  const faults: string[] = [];
  const all = program.stdout() + program.stderr();
  const uncaught = /^(?!.*the framework (?:fails|warns)).*(?:unhandled|uncaught|nobody had in hand).*$/im.exec(all);
  if (uncaught !== null) faults.push(`${name}: an error that nobody caught: ${uncaught[0].slice(0, SHOWN)}`);
  // Everything a program has to say is a line of its log; a library that speaks for itself might say anything.
  if (program.stderr() !== '') faults.push(`${name}: spoke beside its log: ${program.stderr().slice(0, SHOWN)}`);
  if (secrets.some((secret) => all.includes(secret))) faults.push(`${name}: a secret in the log`);
  if (MARK.test(all)) faults.push(`${name}: words that somebody typed in the log`);
  return faults;
}

/** The lines of a log that speak of a fault of ours, by their words, with their count. */
export function errorsIn(programs: readonly ChildProgram[]): ReadonlyMap<string, number> {
  const counts = new Map<string, number>();
  for (const line of programs.flatMap((each) => each.stdout().split('\n'))) {
    const level = Number(/^\{"level":(\d+)/.exec(line)?.[1] ?? 0);
    if (level < 50) continue;
    const { msg = '', error = '', code = '' } = JSON.parse(line) as Record<string, string>;
    const words = [msg, error, code].filter((each) => each !== '').join(', ');
    counts.set(words, (counts.get(words) ?? 0) + 1);
  }
  return counts;
}
