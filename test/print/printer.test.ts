import { describe, expect, it } from 'vitest';
import { printJobSheet } from '../../adapters/print/job-sheet.ts';
import { openPrinter } from '../../adapters/print/printer.ts';
import type { JobSheet } from '../../src/card/job-sheet.ts';
import type { Printable } from '../../src/request.ts';

const AT_MS = Date.UTC(2026, 10, 25, 9, 0);

const sheetOf = (title: string): JobSheet => ({
  title,
  lines: ['Ring 32T, chain 106 pitches'],
  stops: ['Bolts feel tight but the ring clicks? Stop riding.'],
  sections: [{ title: 'Parts', ticked: true, items: ['Ring, 32T', 'Four bolts'] }],
  torque: [],
  watch: [],
  sources: [],
  cautions: ['Brakes first.'],
  declined: [],
  notes: [],
  foot: 'Job 12',
});

const pageOf = (sheet: JobSheet, paper: Printable['paper']): Printable => ({ sheet, paper, name: 'job-12.pdf' });

describe('the printer', () => {
  it('prints the very bytes that are printed without it, several asked for at once each its own', async () => {
    const print = openPrinter(() => AT_MS);
    const titles = ['Hardtail to 32', 'Road bike to 42', 'Winter bike'];
    const pages = await Promise.all(titles.map((title) => print(pageOf(sheetOf(title), 'a4'))));
    const bare = await Promise.all(titles.map((title) => printJobSheet(sheetOf(title), 'a4', AT_MS)));
    expect(pages.map(hex)).toEqual(bare.map(hex));
    expect(new Set(pages.map(hex)).size).toBe(titles.length);
  });

  it('says so where a page cannot be printed, and prints the next one', async () => {
    const print = openPrinter(() => AT_MS);
    const broken = { ...sheetOf('Broken'), lines: undefined } as unknown as JobSheet;
    const [failed, printed] = await Promise.allSettled([
      print(pageOf(broken, 'letter')),
      print(pageOf(sheetOf('Whole'), 'letter')),
    ]);
    expect(failed.status).toBe('rejected');
    expect(printed.status).toBe('fulfilled');
  });

  it('lets others go on meanwhile: answers are not held up by a page', async () => {
    const print = openPrinter(() => AT_MS);
    let turns = 0;
    const timer = setInterval(() => {
      turns += 1;
    }, 1);
    await print(pageOf(sheetOf('Meanwhile'), 'a4'));
    clearInterval(timer);
    expect(turns).toBeGreaterThan(5);
  });
});

function hex(bytes: Uint8Array): string {
  return Buffer.from(bytes).toString('hex');
}
