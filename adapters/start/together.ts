import { type ChildProcess, spawn } from 'node:child_process';

/** Runs programs beside each other until one of them ends, and then ends the others; gives the exit code of the first. */
export function runTogether(programs: readonly string[]): Promise<number> {
  const children = programs.map((program) => spawn(process.execPath, [program], { stdio: 'inherit' }));
  let ending = false;
  const end = (signal: NodeJS.Signals) => {
    ending = true;
    for (const child of children) if (isRunning(child)) child.kill(signal);
  };
  process.on('SIGTERM', () => end('SIGTERM')).on('SIGINT', () => end('SIGTERM'));
  return new Promise((resolve) => {
    let first: number | null = null;
    let running = children.length;
    const ended = (code: number) => {
      first ??= code;
      running -= 1;
      if (running === 0) resolve(first);
      else if (!ending) end('SIGTERM');
    };
    for (const child of children) {
      child.once('error', () => ended(1));
      child.once('exit', (code) => ended(code ?? 1));
    }
  });
}

function isRunning({ exitCode, signalCode }: ChildProcess): boolean {
  return exitCode === null && signalCode === null;
}
