import { type ChildProgram, type Ended, startProgram } from '../support/child-program.ts';
import type { Front } from './front.ts';

/** How a process is let go, and how it has to end then. */
export type Farewell = { readonly signal: NodeJS.Signals | null; readonly want: (ended: Ended) => boolean };

export const KILLED: Farewell = { signal: 'SIGKILL', want: ({ signal }) => signal === 'SIGKILL' };
export const TOLD_TO_END: Farewell = { signal: 'SIGTERM', want: ({ code }) => code === 0 };
/** It ends by itself, because the platform lets it in no more. */
export const SHUT_OUT: Farewell = { signal: null, want: ({ code }) => code === 1 };

/** The processes that serve one front. */
export type Crew = {
  readonly front: Front;
  /** Everyone who ever served, the living last. */
  readonly all: readonly ChildProgram[];
  readonly serving: () => readonly ChildProgram[];
  readonly ready: () => Promise<void>;
  /** Lets one go, and starts another in its place after a while. */
  readonly change: (which: number, farewell: Farewell, awayMs: number) => Promise<void>;
  readonly end: () => Promise<void>;
  readonly faults: readonly string[];
};

/** What has begun is finished within eight seconds, and the rest is room for a busy machine. */
const END_MS = 15_000;

export function openCrew(front: Front, env: Readonly<Record<string, string>>): Crew {
  const all: ChildProgram[] = [];
  const faults: string[] = [];
  const whole = { ...front.env, ...env };
  const start = () => {
    const program = startProgram(front.main, whole);
    all.push(program);
    return program;
  };
  const slots = Array.from({ length: front.count }, start);
  const settle = async (program: ChildProgram, { signal, want }: Farewell) => {
    if (signal !== null) program.kill(signal);
    const timer = setTimeout(() => {
      faults.push(`${front.name}: a process does not end, and its last words are ${lastWords(program)}`);
      program.kill('SIGKILL');
    }, END_MS);
    const ended = await program.ended;
    clearTimeout(timer);
    if (!want(ended)) faults.push(`${front.name}: a process ended with ${ended.code ?? ended.signal}`);
  };
  const byItself = (program: ChildProgram) => {
    faults.push(`${front.name}: a process ended by itself, and its last words were ${lastWords(program)}`);
  };
  return {
    front,
    all,
    serving: () => slots.filter((each) => each.isReady()),
    ready: async () => {
      await Promise.all(slots.map((each) => each.ready));
    },
    change: async (which, farewell, awayMs) => {
      const slot = which % slots.length;
      const program = slots[slot];
      if (program === undefined) return;
      // Whoever crashed by itself in between is a fault; it is replaced all the same.
      if (program.isEnded() && farewell.signal !== null) byItself(program);
      else await settle(program, farewell);
      await new Promise((resolve) => setTimeout(resolve, awayMs));
      const next = start();
      slots[slot] = next;
      await next.ready;
    },
    end: async () => {
      for (const each of slots) if (each.isEnded()) byItself(each);
      await Promise.all(slots.filter((each) => !each.isEnded()).map((each) => settle(each, TOLD_TO_END)));
    },
    faults,
  };
}

function lastWords(program: ChildProgram): string {
  return (program.stdout() + program.stderr()).trim().split('\n').slice(-3).join(' | ');
}
