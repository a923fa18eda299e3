import { randomBytes } from 'node:crypto';
import { mkdtempSync, rmSync } from 'node:fs';
import { rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { FONT } from '../../adapters/picture/font.ts';
import { openPictures } from '../../adapters/picture/pictures.ts';
import { openPractice } from '../../adapters/practice/server.ts';
import { printJobSheet } from '../../adapters/print/job-sheet.ts';
import { openRecords } from '../../adapters/storage/open.ts';

/** A practice room over records of its own, with a clock that goes on a second with every question. */
export async function practiceRoom(port = 0) {
  const folder = mkdtempSync(join(tmpdir(), 'ringwright-practice-'));
  const path = join(folder, 'practice.db');
  const pictures = openPictures();
  const faults: unknown[] = [];
  const clock = { still: false };
  let now = Date.UTC(2026, 10, 25, 9);
  const nowMs = () => {
    if (!clock.still) now += 1000;
    return now;
  };
  const room = await openPractice(
    {
      openRecords: () => openRecords({ path }),
      eraseRecords: async () => {
        for (const ending of ['', '-wal', '-shm']) await rm(path + ending, { force: true });
      },
      pictures,
      printPage: ({ sheet, paper }) => printJobSheet(sheet, paper, Date.UTC(2026, 10, 25)),
      sent: ({ reply }) => Promise.resolve({ Somewhere: [{ text: reply.card.answer }] }),
      fonts: FONT.fontFiles,
      nowMs,
      randomBytes,
      fault: (error) => faults.push(error),
    },
    port,
  );
  return {
    ...room,
    faults,
    clock,
    path,
    end: async () => {
      await room.close();
      await pictures.close();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}
