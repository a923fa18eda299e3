import { parseArgs } from 'node:util';
import { OTHER_BREAKAGES, STORAGE_BREAKAGES } from './breakages.ts';
import { failuresOf, reportLines } from './report.ts';
import { type Plan, run } from './run.ts';

/**
 * The long form: `npm run chaos`, or `npm run chaos -- --minutes 3 --seed 7 --engine SQLite`. PostgreSQL has three
 * quarters of the time, because that is where several processes meet. Ends with 1 where anything was lost or doubled.
 */
const { values } = parseArgs({
  options: { minutes: { type: 'string' }, seed: { type: 'string' }, engine: { type: 'string' } },
});
const minutes = Number(values.minutes ?? 8);
const seed = Number(values.seed ?? Date.now() % 1_000_000);
const SHARES: readonly (readonly [Plan['engine'], number])[] = [
  ['PostgreSQL', 0.75],
  ['SQLite', 0.25],
];
const wanted = SHARES.filter(([engine]) => values.engine === undefined || values.engine === engine);
if (!(minutes > 0) || !Number.isInteger(seed) || wanted.length === 0) {
  process.stderr.write('chaos: --minutes is a number, --seed a whole number, --engine PostgreSQL or SQLite\n');
  process.exit(1);
}
process.stdout.write(`Seed ${seed}: npm run chaos -- --minutes ${minutes} --seed ${seed}\n\n`);

let failed = false;
for (const [engine, share] of wanted) {
  const outcome = await run({
    seed,
    engine,
    forMs: minutes * 60_000 * (wanted.length === 1 ? 1 : share),
    processes: 2,
    workers: 3,
    questionEveryMs: 400,
    brokenMs: { low: 300, high: 3000 },
    calmMs: { low: 1000, high: 6000 },
    breakages: [STORAGE_BREAKAGES.filter((each) => each.engine === engine), OTHER_BREAKAGES],
    order: 'by chance',
  });
  failed ||= failuresOf(outcome).length > 0;
  process.stdout.write(`${reportLines(outcome).join('\n')}\n\n`);
}
process.exit(failed ? 1 : 0);
