import { access, constants, mkdir, stat } from 'node:fs/promises';
import { dirname, resolve } from 'node:path';
import { ConfigError } from '../../src/config-error.ts';

/**
 * Makes a folder and those it lies in, one after the other. The runtime's own way to make several at once never ends
 * where the system refuses one with "no such file", as it does below /proc.
 *
 * @throws ConfigError `records-folder` when it can never be made; else the system's error, for what may pass
 */
export async function makeFolder(folder: string): Promise<void> {
  const whole = resolve(folder);
  const above = dirname(whole);
  if (above !== whole && !(await isThere(above))) await makeFolder(above);
  try {
    await mkdir(whole);
  } catch (error) {
    const code = codeOf(error);
    if (code === 'EEXIST') return;
    // Without what it lies in, a link leads to a disk that is away.
    if (code === 'ENOENT' && (await isThere(above))) throw never(error);
    throw error;
  }
}

/** What keeps the records from the folder that is told, in words without its path; null where nothing does. */
export async function folderFault(folder: string): Promise<string | null> {
  try {
    await makeFolder(folder);
    if (!(await stat(folder)).isDirectory()) return NO_FOLDER;
    await access(folder, constants.W_OK | constants.X_OK);
    return null;
  } catch (error) {
    if (error instanceof ConfigError) return error.message;
    return NO_FOLDER_CODES.has(codeOf(error))
      ? NO_FOLDER
      : 'RINGWRIGHT_DATA names a folder that this user may not write';
  }
}

const NO_FOLDER = 'RINGWRIGHT_DATA leads to something that is no folder';
const NO_FOLDER_CODES: ReadonlySet<string> = new Set(['ENOENT', 'ENOTDIR', 'ELOOP']);

function never(cause: unknown): ConfigError {
  const words = 'RINGWRIGHT_DATA names a folder that cannot be made where it is to lie; name another one';
  return new ConfigError('records-folder', words, { cause });
}

function codeOf(error: unknown): string {
  return error instanceof Error && 'code' in error ? String(error.code) : '';
}

async function isThere(path: string): Promise<boolean> {
  try {
    await stat(path);
    return true;
  } catch {
    return false;
  }
}
