import { extractText, getDocumentProxy } from 'unpdf';
import { describe, expect, it } from 'vitest';
import { printJobSheet } from '../../adapters/print/job-sheet.ts';
import { sqlite } from '../support/storages.ts';
import { openWorkshop } from '../support/workshop.ts';

describe('job print', () => {
  it('makes one page with the plan, the torques, blanks to sign and the code of the plan', async () => {
    const storage = await sqlite();
    const shop = await openWorkshop(storage);
    await shop.done('anna', 'job open 2x10 36/22 11-36 29er hardtail 104bcd cranktype=pinch boltmaterial=aluminium');
    const reply = await shop.say('anna', 'job print 1 paper=letter');
    if (reply.kind !== 'kept' || reply.print === undefined) throw new Error('nothing to print');
    const { sheet, paper, name } = reply.print;
    expect([paper, name]).toEqual(['letter', 'job-1.pdf']);
    const pdf = await getDocumentProxy(new Uint8Array(await printJobSheet(sheet, paper, 0)));
    expect(pdf.numPages).toBe(1);
    const { text } = await extractText(pdf, { mergePages: true });
    for (const fact of ['Crank pinch bolts', '12–15 N·m', '8–9 N·m', 'page 1 of 1']) expect(text).toContain(fact);
    const code = /#([0-9A-Z]{8})/.exec(text)?.[1];
    const plan = await shop.say('anna', `convert #${code}`);
    expect(plan).toMatchObject({ kind: 'answered', receipt: { again: true } });
  });

  it('says so when there is no such job', async () => {
    const shop = await openWorkshop(await sqlite());
    expect(await shop.refused('anna', 'job print 7')).toContain('7');
  });
});
