import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { type Storage, sqlite } from '../support/storages.ts';
import { openWorkshop, type Workshop } from '../support/workshop.ts';

const BIKE = '2x10 36/22 11-36 29er hardtail 104bcd cranktype=pinch boltmaterial=aluminium ring=32';

let storage: Storage;
let shop: Workshop;

beforeAll(async () => {
  storage = await sqlite();
});
afterAll(() => storage.end());
beforeEach(async () => {
  shop = await openWorkshop(storage);
  return () => shop.records.close();
});

/** One of everything by Anna: a private and a shared bike, a receipt, a job with a signature and a note. */
async function filled(): Promise<void> {
  await shop.done('anna', `bike save winter ${BIKE}`);
  await shop.done('anna', 'bike save summer 50/34 11-32');
  await shop.done('anna', 'bike share summer');
  await shop.say('anna', `convert ${BIKE}`);
  await shop.done('anna', `job open ${BIKE} title="Hardtail to 32"`);
  await shop.done('anna', 'job tick 1 3 13 A1');
  await shop.done('anna', 'job note 1 new chain declined');
  await shop.done('boss', 'settings change pinpeople=anna');
}

describe('data show', () => {
  it('shows a person everything that is kept about them, in words and as data', async () => {
    await filled();
    const words = await shop.done('anna', 'data show');
    expect(words).toContain('Kept about you here: 2 bikes, 1 receipt and 3 entries on jobs.');
    expect(words).toContain(`winter, 2026-11-25: ${BIKE}`);
    expect(words).toContain('summer (shared), 2026-11-25: 50/34 11-32');
    expect(words).toMatch(/#[0-9A-Z]{8}, 2026-11-25 09:04 UTC: convert 2x10/);
    expect(words).toContain('Job 1, 2026-11-25 09:06 UTC: row 3 signed: 13 N·m, wrench A1');
    expect(words).toContain('noted: new chain declined');
    expect(words).toContain('The settings name you as somebody who may pin.');
    const reply = await shop.say('anna', 'data show');
    expect(reply.kind === 'kept' && reply.public).toBe(false);
    expect(reply.kind === 'kept' && reply.result).toMatchObject({
      data: { person: 'anna', bikes: [{ name: 'summer' }, { name: 'winter' }], receipts: [{ command: 'convert' }] },
    });
  });

  it('shows nothing of somebody else', async () => {
    await filled();
    expect(await shop.done('ben', 'data show')).toContain('Nothing is kept about you here.');
  });

  it('leaves nothing out: a long kind is shown page by page', async () => {
    await shop.done('anna', `job open ${BIKE}`);
    for (let n = 1; n <= 41; n += 1) await shop.done('anna', `job note 1 note ${n}`);
    const overview = await shop.done('anna', 'data show');
    expect(overview).toContain('What you did on jobs: the last 10');
    expect(overview).toContain('(show jobs)');
    const pages = [await shop.done('anna', 'data show jobs'), await shop.done('anna', 'data show jobs page=2')];
    const notes = pages.join('\n').match(/noted: note \d+/g);
    expect(new Set(notes).size).toBe(41);
    expect(pages[0]).toContain('Next page (show jobs page=2)');
    expect(await shop.done('anna', 'data show jobs page=3')).toContain('Nothing stands on this page.');
    expect(await shop.refused('anna', 'data show everything')).toContain('bikes, receipts, answers, jobs');
  });
});

describe('data delete', () => {
  it('says first what would go and what would stay, and deletes nothing', async () => {
    await filled();
    for (const line of ['data delete', 'data delete confirm=no']) {
      const words = await shop.done('anna', line);
      expect(words).toContain('Nothing is deleted yet. What would go for good: 2 bikes, 1 receipt and your name.');
      expect(words).toContain('1 of these bikes is shared');
      expect(words).toContain('3 entries in standard answers and on jobs would stay');
      expect(words).toContain('Your name in the settings would go');
      expect(words).toContain('data delete confirm=yes');
    }
    expect(await shop.done('anna', 'data show')).toContain('2 bikes, 1 receipt');
  });

  it('leaves nothing that names the person; what others rely on stays, by somebody deleted', async () => {
    await filled();
    const words = await shop.done('anna', 'data delete confirm=yes');
    expect(words).toContain('Deleted: 2 bikes, 1 receipt and your name.');
    expect(words).toContain('3 entries stay');
    expect(await shop.done('anna', 'data show')).toContain('Nothing is kept about you here.');
    const job = await shop.done('ben', 'job show 1');
    expect(job).toContain('13 N·m by somebody deleted, wrench A1; second check open');
    expect(job).toContain('opened 2026-11-25 by somebody deleted');
    expect(job).not.toContain('anna');
    expect(await shop.done('boss', 'settings show')).toContain('People who may pin: nobody');
  });

  it('leaves two deleted signers two people', async () => {
    await filled();
    await shop.done('ben', 'job second 1 3 13 B2');
    await shop.done('ben', 'data delete confirm=yes');
    await shop.done('anna', 'data delete confirm=yes');
    expect(await shop.done('cem', 'job show 1')).toContain(
      '13 N·m by somebody deleted, wrench A1; checked 13 N·m by somebody else deleted, wrench B2',
    );
  });

  it('finds nothing to delete where nothing is kept', async () => {
    expect(await shop.done('ben', 'data delete')).toContain('Nothing is kept about you here.');
  });
});
