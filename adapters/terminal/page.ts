import { mkdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { inert } from '../../src/inert.ts';
import type { Printable } from '../../src/request.ts';
import { isFromDisk } from './pictures.ts';

/** Writes a page to print into a folder, and says in one line where it is. */
export async function writePage(
  page: Printable,
  folder: string,
  printPage: (page: Printable) => Promise<Uint8Array>,
): Promise<string> {
  const file = join(folder, page.name);
  try {
    await mkdir(folder, { recursive: true });
    await writeFile(file, await printPage(page));
    return inert(`To print: ${file}`);
  } catch (error) {
    if (!isFromDisk(error)) throw error;
    return inert(`The page could not be written to ${folder} (${error.code}).`);
  }
}
