import { fork } from 'node:child_process';
import { once } from 'node:events';
import { fileURLToPath } from 'node:url';

const METER = new URL('./meter.ts', import.meta.url).href;

/** A measured program in a process of its own. */
export type Served = {
  /** Where it listens; 0 where it does not. */
  readonly port: number;
  /** Processor time the process has used since it began, in microseconds. */
  readonly cpuUs: () => Promise<number>;
  readonly end: () => Promise<void>;
};

/**
 * Starts a program, named by its path from the root, and waits until it says that it answers. With BENCH_PROFILE, a
 * folder, it leaves a profile for the runtime's own viewer there when it ends.
 */
export async function startServed(program: string, env: Readonly<Record<string, string>>): Promise<Served> {
  const { BENCH_PROFILE: folder, PATH } = process.env;
  const profile = folder === undefined ? [] : ['--cpu-prof', `--cpu-prof-dir=${folder}`];
  const child = fork(fileURLToPath(new URL(`../../${program}`, import.meta.url)), [], {
    execArgv: ['--import', METER, ...profile],
    env: { PATH, ...env },
    silent: true,
  });
  const ended = once(child, 'close');
  let output = '';
  const ready = new Promise<void>((resolve, reject) => {
    const hear = (data: Buffer) => {
      // What it logs afterwards is read, so that its pipe never fills, and let go.
      if (output.includes('"answering"')) return;
      output += data.toString();
      if (output.includes('"answering"')) resolve();
    };
    child.stdout?.on('data', hear);
    child.stderr?.on('data', hear);
    child.once('close', () => reject(new Error(`The measured program ended: ${output}`)));
  });
  await ready;
  return {
    port: Number(/"port":(\d+)/.exec(output)?.[1] ?? 0),
    cpuUs: async () => {
      child.send('how much');
      const [cpuUs] = (await once(child, 'message')) as [number];
      return cpuUs;
    },
    end: async () => {
      child.kill('SIGTERM');
      await ended;
    },
  };
}
