import { mkdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Card, FigureBlock } from '../../src/card/card.ts';
import type { Pictures } from '../../src/draw/pictures.ts';
import { inert } from '../../src/inert.ts';

const THEMES = ['light', 'dark'] as const;

/** Writes every picture of a card in both themes, and says in one line what was written. */
export async function writePictures(
  card: Card,
  folder: string,
  openPictures: () => Promise<Pictures>,
): Promise<string> {
  const blocks = card.blocks.filter((block) => block.kind === 'figure');
  if (blocks.length === 0) return 'There is no picture on this card.';
  const pictures = await openPictures();
  try {
    await mkdir(folder, { recursive: true });
    const written: string[] = [];
    for (const block of blocks) written.push(...(await writeThemes(block, folder, pictures)));
    return inert(`Pictures: ${written.join(', ')}`);
  } catch (error) {
    if (!isFromDisk(error)) throw error;
    return inert(`The pictures could not be written to ${folder} (${error.code}).`);
  } finally {
    await pictures.close();
  }
}

async function writeThemes(block: FigureBlock, folder: string, pictures: Pictures): Promise<readonly string[]> {
  const written: string[] = [];
  for (const theme of THEMES) {
    const picture = await pictures.png(block.figure, theme);
    if (picture.kind === 'failed') throw picture.error;
    if (picture.kind !== 'drawn') continue;
    const file = join(folder, `${block.section}-${theme}.png`);
    await writeFile(file, picture.png);
    written.push(file);
  }
  return written;
}

/** Whether the disk is at fault: no room, no right, no such folder. */
export function isFromDisk(error: unknown): error is NodeJS.ErrnoException & { readonly code: string } {
  return error instanceof Error && 'syscall' in error && 'code' in error && typeof error.code === 'string';
}
