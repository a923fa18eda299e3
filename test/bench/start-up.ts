import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const PROCESSES = 15;

type Loading = { readonly wholeMs: number; readonly importMs: number };

/** Medians over fresh processes: from start to end with nothing loaded, and with a module of `src`. */
export type StartUp = {
  readonly bareMs: number;
  /** The module compiled anew. */
  readonly cold: Loading;
  /** The module out of the compile cache, as on every start but the first. */
  readonly warm: Loading;
};

/** How long a process takes that only loads `src/<name>.ts`. */
export function measureStartUp(name: string): StartUp {
  const cache = mkdtempSync(join(tmpdir(), 'ringwright-bench-'));
  try {
    loading(name, { NODE_COMPILE_CACHE: cache }, 2);
    const bare = Array.from({ length: PROCESSES }, () => timed('0', { NODE_DISABLE_COMPILE_CACHE: '1' }).wholeMs);
    return {
      bareMs: median(bare),
      cold: loading(name, { NODE_DISABLE_COMPILE_CACHE: '1' }, PROCESSES),
      warm: loading(name, { NODE_COMPILE_CACHE: cache }, PROCESSES),
    };
  } finally {
    rmSync(cache, { recursive: true });
  }
}

function loading(name: string, env: Readonly<Record<string, string>>, processes: number): Loading {
  const module = new URL(`../../src/${name}.ts`, import.meta.url).href;
  const script = `const from = performance.now();
    await import(${JSON.stringify(module)});
    console.log(performance.now() - from);`;
  const all = Array.from({ length: processes }, () => timed(script, env));
  return { wholeMs: median(all.map((each) => each.wholeMs)), importMs: median(all.map((each) => Number(each.said))) };
}

function timed(
  script: string,
  env: Readonly<Record<string, string>>,
): { readonly wholeMs: number; readonly said: string } {
  const from = performance.now();
  const { status, stdout, stderr } = spawnSync(process.execPath, ['--input-type=module', '-e', script], {
    encoding: 'utf8',
    env: { ...process.env, ...env },
  });
  if (status !== 0) throw new Error(`The measured process failed: ${stderr}`);
  return { wholeMs: performance.now() - from, said: stdout };
}

function median(values: readonly number[]): number {
  return values.toSorted((one, other) => one - other)[values.length >> 1] ?? Number.NaN;
}
