import { execFile } from 'node:child_process';
import { ROOT } from './packages.ts';

export type Ran = { readonly code: number; readonly stdout: string; readonly stderr: string };

/** The longest report is a few megabytes. */
const MOST_BYTES = 64 * 1024 * 1024;

/** Runs npm and gives what it printed; that it ends with a failure is a result too. */
export function npm(args: readonly string[], folder: string = ROOT): Promise<Ran> {
  return new Promise((resolve, reject) => {
    execFile('npm', [...args], { cwd: folder, maxBuffer: MOST_BYTES }, (error, stdout, stderr) => {
      if (error !== null && typeof error.code !== 'number') reject(error);
      else resolve({ code: Number(error?.code ?? 0), stdout, stderr });
    });
  });
}
