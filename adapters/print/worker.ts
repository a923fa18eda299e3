import { parentPort, workerData } from 'node:worker_threads';
import type { JobSheet } from '../../src/card/job-sheet.ts';
import { printJobSheet } from './job-sheet.ts';
import type { Paper } from './page.ts';

export type Print = { readonly sheet: JobSheet; readonly paper: Paper; readonly atMs: number };

// One page and the thread ends: what is thrown here ends it too, and whoever waits is told.
const { sheet, paper, atMs } = workerData as Print;
// The bytes alone, so that they can be handed over: the printer's own may lie among others.
const page = new Uint8Array(await printJobSheet(sheet, paper, atMs));
parentPort?.postMessage(page, [page.buffer]);
