import fc from 'fast-check';
import { inertJson } from '../../adapters/terminal/escape.ts';
import { anyCase, type Case } from './cases.ts';
import { type House, openHouse } from './house.ts';
import { noTimes, note, type Times } from './times.ts';

/** What a run came to: how many of each kind were played, how long each took, and the failure where there was one. */
export type Outcome = {
  readonly lines: number;
  readonly kinds: Readonly<Record<string, number>>;
  /** By the clock, and by the processor alone, which neighbours on the same machine do not lengthen. */
  readonly times: Times;
  readonly busyTimes: Times;
  /** The shortest case found that breaks a rule, and how to come to it again. */
  readonly failure: {
    readonly seed: number;
    readonly path: string;
    readonly played: string;
    readonly rule: string;
  } | null;
};

export type Wanted = {
  readonly lines: number;
  readonly seed: number;
  /** Where in the cases of a seed to begin, as a failure printed it. */
  readonly path?: string;
  /** When to stop although there are lines left; what was played until then counts. */
  readonly limitMs?: number;
  readonly onProgress?: (lines: number) => void;
};

/** So many people come to one house before it is torn down: what is kept there grows, and is met again. */
const CASES_A_HOUSE = 200;
/** Of so many houses, one keeps everything on disk; the others have their receipts in memory. */
const ALL_KEPT_EVERY = 5;
const PROGRESS_LINES = 5000;

/** Plays cases made by chance until all are played or one breaks a rule, which is then made as short as can be. */
export async function fuzz({ lines, seed, path, limitMs, onProgress }: Wanted): Promise<Outcome> {
  const times = noTimes();
  const busyTimes = noTimes();
  const kinds: Record<string, number> = {};
  let played = 0;
  let house: House | null = null;
  // Once something failed, each further try has a house of its own, so that a short case fails by itself.
  let alone = path !== undefined;

  const inHouse = async (act: Case): Promise<void> => {
    if (house !== null && (alone || played % CASES_A_HOUSE === 0)) {
      await house.end();
      house = null;
    }
    house ??= await openHouse(!alone && Math.floor(played / CASES_A_HOUSE) % ALL_KEPT_EVERY !== 0);
    const begun = performance.now();
    const busy = process.threadCpuUsage();
    try {
      await house.play(act);
    } catch (error) {
      alone = true;
      throw error;
    }
    const { user, system } = process.threadCpuUsage(busy);
    note(times, performance.now() - begun);
    note(busyTimes, (user + system) / 1000);
    const { kind } = act.act;
    kinds[kind] = (kinds[kind] ?? 0) + 1;
    played += 1;
    if (played % PROGRESS_LINES === 0) onProgress?.(PROGRESS_LINES);
  };

  const details = await fc.check(fc.asyncProperty(anyCase, inHouse), {
    numRuns: lines,
    seed,
    ...(path === undefined ? {} : { path }),
    ...(limitMs === undefined ? {} : { interruptAfterTimeLimit: limitMs, markInterruptAsFailure: false }),
  });
  await (house as House | null)?.end();
  const [shortest] = details.counterexample ?? [];
  const failure =
    shortest === undefined
      ? null
      : {
          seed: details.seed,
          path: details.counterexamplePath ?? '',
          played: inertJson(shortest),
          rule: details.errorInstance instanceof Error ? details.errorInstance.message : String(details.errorInstance),
        };
  return { lines: details.numRuns, kinds, times, busyTimes, failure };
}
