import { Worker } from 'node:worker_threads';
import type { Printable } from '../../src/request.ts';
import type { Print } from './worker.ts';

/** Prints a sheet of a job as PDF. */
export type Printer = (page: Printable) => Promise<Uint8Array>;

/**
 * Prints beside the answers: a page takes a tenth of a second, in which nobody else would be answered. Each has a thread
 * of its own, one after the other; pages are rare, and between them nothing is held for the next one. How many may wait
 * is a matter of how fast people and places may ask.
 */
export function openPrinter(nowMs: () => number): Printer {
  let last: Promise<unknown> = Promise.resolve();
  return ({ sheet, paper }) => {
    const atMs = nowMs();
    const printed = last.then(() => apart({ sheet, paper, atMs }));
    last = printed.catch(() => undefined);
    return printed;
  };
}

function apart(print: Print): Promise<Uint8Array> {
  return new Promise((resolve, reject) => {
    const thread = new Worker(new URL('./worker.ts', import.meta.url), { workerData: print });
    thread.once('message', resolve);
    thread.once('error', reject);
    thread.once('exit', () => reject(new Error('The page was not printed.')));
  });
}
