import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const PROGRAM = fileURLToPath(new URL('../../adapters/terminal/main.ts', import.meta.url));

/** What a tested program keeps goes to a folder of its own, never to the project's. */
export const DATA = mkdtempSync(join(tmpdir(), 'ringwright-program-'));
process.on('exit', () => rmSync(DATA, { recursive: true, force: true }));

type Ended = { readonly code: number | null; readonly stdout: string; readonly stderr: string };

/** Starts the real program in a process of its own, with `input` on a pipe as its standard input. */
export function runProgram(
  args: readonly string[],
  input = '',
  env: Readonly<Record<string, string>> = {},
): Promise<Ended> {
  return ended(process.execPath, [PROGRAM, ...args], input, env);
}

/** A shell line in which `$NODE` and `$PROGRAM` stand for the runtime and the real program. */
export function runShell(line: string): Promise<Ended> {
  return ended('sh', ['-c', line], '', { NODE: process.execPath, PROGRAM });
}

function ended(
  command: string,
  args: readonly string[],
  input: string,
  env: Readonly<Record<string, string>>,
): Promise<Ended> {
  return new Promise((resolve, reject) => {
    const child = spawn(command, args, { env: { ...process.env, RINGWRIGHT_DATA: DATA, ...env } });
    let stdout = '';
    let stderr = '';
    child.stdout.setEncoding('utf8').on('data', (text: string) => {
      stdout += text;
    });
    child.stderr.setEncoding('utf8').on('data', (text: string) => {
      stderr += text;
    });
    child.on('error', reject);
    child.on('close', (code) => resolve({ code, stdout, stderr }));
    // A program that ends without reading its input is not at fault for it.
    child.stdin.on('error', () => undefined);
    child.stdin.end(input);
  });
}
