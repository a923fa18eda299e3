import { describe, expect, it } from 'vitest';
import { OTHER_BREAKAGES, STORAGE_BREAKAGES } from './breakages.ts';
import { failuresOf } from './report.ts';
import { type Outcome, type Plan, run } from './run.ts';

/** Set RINGWRIGHT_CHAOS_SEED for another run; `npm run chaos` is the long form. */
const SEED = Number(process.env.RINGWRIGHT_CHAOS_SEED ?? 20_261_125);

/** The short form: a few of the breakages that find most, each of them once. */
const SHORT = {
  seed: SEED,
  forMs: 0,
  workers: 2,
  questionEveryMs: 500,
  brokenMs: { low: 200, high: 700 },
  calmMs: { low: 200, high: 500 },
  order: 'each once',
} as const;

function named(...kinds: readonly string[]) {
  return [...STORAGE_BREAKAGES, ...OTHER_BREAKAGES].filter(({ kind }) => kinds.includes(kind));
}

const PLANS: readonly Plan[] = [
  {
    ...SHORT,
    engine: 'PostgreSQL',
    processes: 2,
    breakages: [
      named('PostgreSQL killed and started', 'connections to PostgreSQL cut at saving', 'PostgreSQL held up'),
      named('a process killed (kill -9)', 'gateway session broken (4000)', 'the platform cuts after it heard'),
    ],
  },
  {
    ...SHORT,
    engine: 'SQLite',
    processes: 1,
    breakages: [named('file locked by somebody else'), named('a process killed (kill -9)', 'the platform answers 500')],
  },
];

function acknowledged({ book }: Outcome, what: string): number {
  return book.entries.filter((each) => each.what.startsWith(what) && each.told === 'acknowledged').length;
}

describe('with things breaking all around', () => {
  it.each(PLANS)(
    'nothing kept on $engine is lost or doubled, and text questions are answered',
    {
      timeout: 180_000,
    },
    async (plan) => {
      const outcome = await run(plan);
      expect(failuresOf(outcome, Number.POSITIVE_INFINITY)).toEqual([]);
      // It was a real test: everything was asked for, and every breakage came.
      for (const what of ['bike', 'job', 'convert']) expect(acknowledged(outcome, what), what).toBeGreaterThan(0);
      expect(outcome.weather.kinds.size).toBe(plan.breakages.flat().length);
    },
  );
});
