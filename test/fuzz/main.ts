import { arch, cpus, platform } from 'node:os';
import { parseArgs } from 'node:util';
import { isMainThread, parentPort, Worker, workerData } from 'node:worker_threads';
import { fuzz, type Outcome, type Wanted } from './run.ts';
import { noTimes, percentileMs, type Times, together } from './times.ts';

/** As many as were asked for of the long form (goal). */
const USUAL_LINES = 1_000_000;
/** The 99th percentile of a line over every platform (goal). */
const GOAL_MS = 50;
const THREADS = 2;
const TOLD_EVERY_LINES = 50_000;

type Heard =
  | { readonly kind: 'progress'; readonly lines: number }
  | { readonly kind: 'outcome'; readonly outcome: Outcome };

if (isMainThread) await begin();
else parentPort?.postMessage(await inThread(workerData as Wanted));

async function inThread(wanted: Wanted): Promise<Heard> {
  const onProgress = (lines: number) => parentPort?.postMessage({ kind: 'progress', lines } satisfies Heard);
  return { kind: 'outcome', outcome: await fuzz({ ...wanted, onProgress }) };
}

async function begin(): Promise<void> {
  const { values } = parseArgs({
    options: {
      lines: { type: 'string', default: String(USUAL_LINES) },
      seed: { type: 'string', default: String(Date.now() % 2 ** 31) },
      path: { type: 'string' },
      minutes: { type: 'string' },
    },
  });
  const lines = Number(values.lines);
  const seed = Number(values.seed);
  if (!Number.isSafeInteger(lines) || lines < 1 || !Number.isSafeInteger(seed)) {
    throw new Error('--lines and --seed are whole numbers.');
  }
  const { path } = values;
  const limitMs = values.minutes === undefined ? undefined : Number(values.minutes) * 60_000;
  if (limitMs !== undefined && !(limitMs > 0)) throw new Error('--minutes is a number.');
  const threads = path === undefined && lines >= THREADS ? THREADS : 1;
  const begun = performance.now();
  let done = 0;
  const onProgress = (more: number) => {
    const before = Math.floor(done / TOLD_EVERY_LINES);
    done += more;
    if (Math.floor(done / TOLD_EVERY_LINES) > before) {
      console.log(`${done} lines, ${Math.round((performance.now() - begun) / 1000)} s`);
    }
  };
  console.log(`${lines} lines from seed ${seed} in ${threads} threads`);
  const outcomes = await Promise.all(
    Array.from({ length: threads }, (_, thread) => {
      const share = Math.floor(lines / threads) + (thread < lines % threads ? 1 : 0);
      const wanted = {
        lines: share,
        seed: seed + thread,
        ...(path === undefined ? {} : { path }),
        ...(limitMs === undefined ? {} : { limitMs }),
      };
      return threadFor(wanted, onProgress);
    }),
  );
  report(outcomes, (performance.now() - begun) / 1000);
}

function threadFor(wanted: Wanted, onProgress: (lines: number) => void): Promise<Outcome> {
  return new Promise((resolve, reject) => {
    const worker = new Worker(new URL(import.meta.url), { workerData: wanted });
    worker.on('message', (heard: Heard) => {
      if (heard.kind === 'progress') onProgress(heard.lines);
      else resolve(heard.outcome);
    });
    // What brings a thread down is a crash of the product, and ends the run as one.
    worker.on('error', reject);
    worker.on('exit', (code) => reject(new Error(`A thread ended with ${code} before it was done.`)));
  });
}

function report(outcomes: readonly Outcome[], seconds: number): void {
  const times = outcomes.reduce<Times>((sum, each) => together(sum, each.times), noTimes());
  const busyTimes = outcomes.reduce<Times>((sum, each) => together(sum, each.busyTimes), noTimes());
  const kinds = new Map<string, number>();
  for (const outcome of outcomes) {
    for (const [kind, count] of Object.entries(outcome.kinds)) kinds.set(kind, (kinds.get(kind) ?? 0) + count);
  }
  const played = [...kinds.values()].reduce((sum, count) => sum + count, 0);
  console.log(`${played} lines in ${Math.round(seconds)} s on ${cpus()[0]?.model ?? '?'}, ${platform()} ${arch()}`);
  console.log([...kinds].map(([kind, count]) => `${kind} ${count}`).join(', '));
  console.log('A line over all platforms, its pages, buttons and the checks of each payload:');
  console.log(`by the clock: median ${percentileMs(times, 0.5)} ms, ${inWords(times)}`);
  // Some machines count the processor's time in ticks longer than most lines, so that a median would say nothing.
  console.log(`by the processor: ${inWords(busyTimes)}`);
  for (const { failure } of outcomes) {
    if (failure === null) continue;
    process.exitCode = 1;
    console.log(`\nFAILED: ${failure.rule}\n${failure.played}`);
    console.log(`again: npm run fuzz -- --lines 1 --seed ${failure.seed} --path ${failure.path}`);
  }
  if (percentileMs(times, 0.99) >= GOAL_MS) {
    process.exitCode = 1;
    console.log(`The goal for the 99th percentile is ${GOAL_MS} ms.`);
  }
}

function inWords(times: Times): string {
  const [p99, most] = [0.99, 1].map((share) => percentileMs(times, share));
  return `99th percentile ${p99} ms, most ${most} ms`;
}
