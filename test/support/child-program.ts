import { type ChildProcess, spawn } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';
import { setTimeout as wait } from 'node:timers/promises';

/** How a process ended: by itself with a code, or by a signal. */
export type Ended = { readonly code: number | null; readonly signal: NodeJS.Signals | null };

/** A program that answers, in a process of its own. */
export type ChildProgram = {
  /** Settles once it answers; fails where it ends before. */
  readonly ready: Promise<void>;
  readonly isReady: () => boolean;
  /** The port it says it listens at; null where it listens nowhere. */
  readonly port: () => number | null;
  readonly kill: (signal: NodeJS.Signals) => void;
  readonly ended: Promise<Ended>;
  readonly isEnded: () => boolean;
  readonly stdout: () => string;
  readonly stderr: () => string;
  /** What it holds of the machine just now, as the system counts it; null where that cannot be read. */
  readonly held: () => { readonly memoryMb: number; readonly handles: number } | null;
};

const living = new Set<ChildProcess>();
process.on('exit', () => {
  for (const each of living) each.kill('SIGKILL');
});

/** A program starts in a second or two; a machine that is busy with much else takes far longer. */
const READY_MS = 60_000;

/** Starts a program that logs "answering" when it does, with these settings and no others. */
export function startProgram(
  main: string,
  env: Readonly<Record<string, string>>,
  args: readonly string[] = [],
): ChildProgram {
  const child: ChildProcess = spawn(process.execPath, [main, ...args], {
    env: { PATH: process.env.PATH ?? '', ...env },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  living.add(child);
  let stdout = '';
  let stderr = '';
  let answering: { readonly port: number | null } | null = null;
  let ended: Ended | null = null;
  child.stdout?.setEncoding('utf8').on('data', (text: string) => {
    stdout += text;
    if (answering !== null || !stdout.includes('"answering"')) return;
    const line = stdout.split('\n').find((each) => each.includes('"answering"')) ?? '';
    answering = { port: Number(/"port":(\d+)/.exec(line)?.[1] ?? 0) || null };
  });
  child.stderr?.setEncoding('utf8').on('data', (text: string) => {
    stderr += text;
  });
  const end = new Promise<Ended>((resolve) => {
    child.on('close', (code, signal) => {
      ended = { code, signal };
      living.delete(child);
      resolve(ended);
    });
  });
  const ready = async () => {
    for (const endMs = Date.now() + READY_MS; answering === null; ) {
      if (ended !== null || Date.now() > endMs) throw new Error(`a program does not come to answer: ${stderr}`);
      await wait(10);
    }
  };
  const becomesReady = ready();
  // Whoever only wants to see it end does not wait for it.
  becomesReady.catch(() => undefined);
  return {
    ready: becomesReady,
    isReady: () => answering !== null && ended === null,
    port: () => answering?.port ?? null,
    kill: (signal) => void child.kill(signal),
    ended: end,
    isEnded: () => ended !== null,
    stdout: () => stdout,
    stderr: () => stderr,
    held: () => heldBy(child.pid),
  };
}

function heldBy(pid: number | undefined) {
  try {
    const status = readFileSync(`/proc/${pid}/status`, 'utf8');
    const kilobytes = Number(/^VmRSS:\s+(\d+) kB/m.exec(status)?.[1]);
    return { memoryMb: Math.round(kilobytes / 1024), handles: readdirSync(`/proc/${pid}/fd`).length };
  } catch {
    return null;
  }
}
