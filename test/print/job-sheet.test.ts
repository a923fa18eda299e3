import { inflateSync } from 'node:zlib';
import { extractText, getDocumentProxy } from 'unpdf';
import { describe, expect, it } from 'vitest';
import { printJobSheet } from '../../adapters/print/job-sheet.ts';
import { jobSheet } from '../../src/card/job-sheet.ts';
import { type JobDeed, replay } from '../../src/records/job-events.ts';
import type { JobView } from '../../src/records/jobs.ts';
import { readPerson } from '../../src/records/place.ts';
import { answered } from '../support/replies.ts';

const AT_MS = Date.UTC(2026, 10, 25, 9, 0);
const RECEIPT = '7K3M9Q2A';
const HEAVY =
  '2x10 36/22 11-36 29er hardtail 104bcd clutch stays=440mm chain=108 cranktype=pinch bar=flat newcassette=11-42';
const BIKES = [
  HEAVY,
  '44/32/22 11-34 26er 104/64 ring=32 cranktype=taper bar=flat',
  '50/34 11-32 700x28 gap=64.7mm bolts=5 ring=42 cranktype=splined bar=drop join=pin',
  'rings=36/26 cassette=11-42 ring=32 mount=direct suspension=rear',
];

/** A job opened from a plan, with what happened since. */
function jobOf(setup: string, title = 'Hardtail to 32', later: readonly JobDeed[] = []) {
  const { answer, card } = answered(setup);
  const rows = (answer.torque ?? []).map(({ fastener, material, lowNm, highNm, source }, index) => ({
    row: index + 1,
    fastener,
    material,
    lowNm,
    highNm,
    source,
    secondPerson: fastener.startsWith('Crank'),
  }));
  const deeds: readonly JobDeed[] = [{ kind: 'opened', title, setup, rows }, ...later];
  const state = replay(deeds.map((deed, index) => ({ sequence: index + 1, atMs: AT_MS, by: 'one', deed })));
  const person = readPerson('mechanic-1');
  if (state === null || person === null) throw new Error('no job');
  const view: JobView = { job: 12, state, signers: new Map([['one', { kind: 'person', person }]]) };
  return { view, card };
}

async function textOf(pdf: Uint8Array): Promise<{ readonly pages: number; readonly text: string }> {
  const { totalPages, text } = await extractText(await getDocumentProxy(new Uint8Array(pdf)), { mergePages: true });
  return { pages: totalPages, text: text.replace(/\s+/g, ' ') };
}

describe('the printed job sheet', () => {
  it.each(BIKES.flatMap((setup) => [[setup, 'a4'] as const, [setup, 'letter'] as const]))(
    'fills one page and leaves nothing out: %s on %s',
    async (setup, paper) => {
      const { view, card } = jobOf(setup);
      const sheet = jobSheet(view, card, RECEIPT);
      const { pages, text } = await textOf(await printJobSheet(sheet, paper, AT_MS));
      expect(pages).toBe(1);
      const parts = [
        sheet.title,
        ...sheet.lines,
        ...sheet.stops,
        ...sheet.sections.flatMap((section) => [section.title, ...section.items]),
        ...sheet.torque.flatMap((row) => [row.name, row.target]),
        ...sheet.cautions,
        ...sheet.watch,
        ...sheet.sources,
        `plan #${RECEIPT}`,
      ];
      // A line that wraps at a hyphen or a dash comes back with a blank behind it.
      const close = (words: string) => words.replace(/\s+/g, ' ').replaceAll(' ', '');
      for (const part of parts) expect(close(text)).toContain(close(part));
    },
  );

  it('carries the steps, parts, tools, torques and cautions of the plan', () => {
    const { view, card } = jobOf(HEAVY);
    const sheet = jobSheet(view, card, RECEIPT);
    const titles = sheet.sections.map((section) => section.title);
    for (const title of ['Parts you must have', 'Tools', 'Order of work', 'Before the first ride']) {
      expect(titles).toContain(title);
    }
    const cautions = card.blocks.filter((block) => block.kind === 'caution').map((block) => block.text);
    expect(cautions.length).toBeGreaterThan(8);
    expect(new Set([...sheet.stops, ...sheet.cautions])).toEqual(new Set(cautions));
    expect(sheet.torque).toHaveLength(view.state.rows.length);
    const pinch = sheet.torque.find((row) => row.name.includes('pinch'));
    expect(pinch).toMatchObject({ target: '12–15 N·m (106–133 lbf·in)', value: '', wrench: '', first: '', second: '' });
    expect(sheet.torque.find((row) => row.name.includes('Lock-on'))?.second).toBeNull();
  });

  it('shows what is signed, struck out and noted', async () => {
    const { view, card } = jobOf(HEAVY, 'Winter bike', [
      { kind: 'ticked', row: 2, setNm: 13, wrench: { id: 'A1', calibrationDueMs: null }, why: '' },
      { kind: 'struck', row: 1, why: 'a magnet sticks' },
      { kind: 'noted', text: 'a new chain was declined' },
    ]);
    const sheet = jobSheet(view, card, null);
    expect(sheet.torque[1]).toMatchObject({ value: '13 N·m', wrench: 'A1', first: 'mechanic-1 2026-11-25' });
    expect(sheet.torque[0]?.struck).toBe(true);
    expect(sheet.watch.some((line) => line.startsWith('1 '))).toBe(false);
    const { pages, text } = await textOf(await printJobSheet(sheet, 'letter', AT_MS));
    expect(pages).toBe(1);
    for (const part of ['struck out by mechanic-1, a magnet sticks', 'a new chain was declined', '13 N·m']) {
      expect(text).toContain(part);
    }
    expect(text).not.toContain('#');
  });

  it('keeps the safety words where no plan can be worked out any more', () => {
    const sheet = jobSheet(jobOf(HEAVY).view, null, null);
    expect(sheet.sections).toEqual([]);
    expect(sheet.cautions.join(' ')).toContain('A number in chat is not a sign-off.');
  });

  it('goes on overleaf sooner than leave a note out', async () => {
    const notes = Array.from(
      { length: 150 },
      (_, index): JobDeed => ({ kind: 'noted', text: `note number ${index}.` }),
    );
    const { view, card } = jobOf(HEAVY, 'Long story', notes);
    const { pages, text } = await textOf(await printJobSheet(jobSheet(view, card, RECEIPT), 'letter', AT_MS));
    expect(pages).toBeGreaterThan(1);
    for (let index = 0; index < 150; index += 1) expect(text).toContain(`note number ${index}.`);
    expect(text).toContain(`page ${pages} of ${pages}`);
  });

  it('prints hostile words on one line and keeps going', async () => {
    const title = `\u202e\u200b@everyone\n${'🚲'.repeat(20)} **x**\r\u2028[go](javascript:1) عربي`;
    const { view, card } = jobOf(HEAVY, title);
    const { pages, text } = await textOf(await printJobSheet(jobSheet(view, card, RECEIPT), 'a4', AT_MS));
    expect(pages).toBe(1);
    expect(text).toContain('@everyone');
    expect(text).toContain('Torque:');
  });

  it('is the same, byte for byte, when printed at the same moment', async () => {
    const { view, card } = jobOf(HEAVY);
    const sheet = jobSheet(view, card, RECEIPT);
    expect(await printJobSheet(sheet, 'a4', AT_MS)).toEqual(await printJobSheet(sheet, 'a4', AT_MS));
  });

  it('tells whoever has it read out its language and its title', async () => {
    const { view, card } = jobOf(HEAVY);
    const pdf = await printJobSheet(jobSheet(view, card, RECEIPT), 'a4', AT_MS);
    const { info } = await (await getDocumentProxy(new Uint8Array(pdf))).getMetadata();
    expect(info).toMatchObject({ Language: 'en', Title: 'Job 12: Hardtail to 32' });
  });

  it('is black on white: no colour is ever set', async () => {
    const { view, card } = jobOf(HEAVY);
    const pdf = Buffer.from(await printJobSheet(jobSheet(view, card, RECEIPT), 'a4', AT_MS));
    const streams = [...pdf.toString('latin1').matchAll(/stream\r?\n([\s\S]*?)\r?\nendstream/g)].flatMap(
      ([, body = '']) => {
        try {
          return [inflateSync(Buffer.from(body, 'latin1')).toString('latin1')];
        } catch {
          return [];
        }
      },
    );
    const drawing = streams.filter((stream) => stream.includes('BT'));
    expect(drawing.length).toBeGreaterThan(0);
    for (const stream of drawing) expect(stream).not.toMatch(/^[\d. ]+ (?:rg|RG|k|K|g|G|sc|SC|scn|SCN)$/m);
  });
});
