import type { Writable } from 'node:stream';
import { pause } from './machine.ts';

/** A goal of our own: thousands of lines, and nothing that a small board would miss. */
const MOST_WAITING_BYTES = 4 * 1024 * 1024;

/** Whoever reads at all has read by then; a goal of our own, small beside the time that an end may take. */
const LAST_WORDS_MS = 1000;

/** A warning, as the log library numbers it. */
const WARNING = 40;

/** Where the lines of a log go. */
export type Lines = {
  readonly write: (line: string) => void;
  /** Settles once all is out, or soon where nobody reads. */
  readonly emptied: () => Promise<void>;
};

/**
 * A log that nobody has to read. Lines wait in memory while the reader is slow; past a limit they are left out, and
 * counted in a line once it reads again. Where the reader is gone they go nowhere. The log library's own way waits for
 * the reader with the whole process, or tries again for ever after it is gone, and then no signal ends the program.
 */
export function openLines(to: Writable = process.stdout): Lines {
  let isGone = false;
  let leftOut = 0;
  to.on('error', () => {
    isGone = true;
  });
  to.on('drain', () => {
    if (leftOut === 0) return;
    to.write(
      `${JSON.stringify({ level: WARNING, time: Date.now(), leftOut, msg: 'lines were left out: nobody read them' })}\n`,
    );
    leftOut = 0;
  });
  return {
    write: (line) => {
      if (isGone) return;
      if (to.writableLength > MOST_WAITING_BYTES) leftOut += 1;
      else to.write(line);
    },
    emptied: async () => {
      if (isGone || to.writableLength === 0) return;
      const out = new Promise<void>((resolve) => to.write('', () => resolve()));
      await Promise.race([out, pause(LAST_WORDS_MS)]);
    },
  };
}
