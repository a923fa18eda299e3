import { describe, expect, it } from 'vitest';
import { openRecords } from '../../adapters/storage/open.ts';
import { DEFAULT_SETTINGS } from '../../src/records/settings.ts';
import { newPlace, person, place } from '../support/storages.ts';
import type { UnderTest } from './contract.ts';
import { BIKE, fill, HOSTILE, JOB, RECEIPT, text, tick } from './examples.ts';

/** What the port promises of people, places and hostile text. */
export function privacyContract(under: UnderTest): void {
  describe('privacy', () => {
    it('shows a person everything that is kept about them', async () => {
      const { ann, bob } = newPlace();
      await fill(under.records(), ann, bob);
      const kept = await under.records().privacy.show(ann);
      expect(kept).toMatchObject({
        person: 'ann',
        lastSeenAtMs: 30,
        bikes: [{ name: 'Winter' }],
        receipts: [{ code: RECEIPT.code, card: RECEIPT.card }],
        answers: [
          { topic: 'hills', version: 1, as: 'author', atMs: 10 },
          { topic: 'flat', version: 1, as: 'author', atMs: 12 },
        ],
        drafts: [{ topic: 'flat', number: 1, as: 'author', atMs: 11 }],
        jobs: [
          { job: 1, event: { sequence: 1, deed: { kind: 'opened' } } },
          { job: 1, event: { sequence: 2, deed: { kind: 'ticked' } } },
        ],
        mayPin: true,
      });
      expect((await under.records().privacy.show(bob)).answers).toEqual([
        { topic: 'flat', version: 1, as: 'approver', atMs: 12 },
      ]);
      expect((await under.records().privacy.show(bob)).drafts).toMatchObject([
        { topic: 'flat', as: 'decider', atMs: 12 },
      ]);
    });

    it('deletes a person so that no byte of their id is left, and keeps what others rely on', async () => {
      const alone = await under.storage().fresh();
      const own = await openRecords(alone);
      const at = place('club:riverside');
      const ann = { place: at, person: person('person-4711-ann') };
      const bob = { place: at, person: person('person-4712-bob') };
      await fill(own, ann, bob);
      expect(await under.storage().everyByte(alone)).toContain('person-4711-ann');

      expect(await own.privacy.delete(ann)).toEqual({ bikes: 1, receipts: 1, madeAnonymous: 5, wiped: true });
      const bytes = await under.storage().everyByte(alone);
      expect(bytes).not.toContain('person-4711-ann');
      expect(bytes).toContain('person-4712-bob');
      expect(await own.privacy.show(ann)).toMatchObject({ lastSeenAtMs: null, bikes: [], receipts: [], answers: [] });
      expect(await own.receipts.read(at, RECEIPT.code)).toBeNull();
      expect(await own.answers.show(at, 'hills')).toMatchObject({ version: { author: { kind: 'gone' } } });
      const view = await own.jobs.load(at, 1);
      const signer = view?.state.rows[1]?.ticks[0]?.by;
      expect(view?.signers.get(signer ?? '')).toEqual({ kind: 'gone' });
      expect((await own.settings.read(at)).pinPeople).toEqual([]);
      expect(await own.privacy.delete(ann)).toEqual({ bikes: 0, receipts: 0, madeAnonymous: 0, wiped: true });
      await own.close();
    });

    it('deletes nothing of somebody of the same id in another place', async () => {
      const here = newPlace();
      const there = newPlace();
      await fill(under.records(), here.ann, here.bob);
      await fill(under.records(), there.ann, there.bob);
      await under.records().privacy.delete(here.ann);
      expect(await under.records().privacy.show(there.ann)).toMatchObject({
        bikes: [{}],
        receipts: [{}],
        mayPin: true,
      });
    });

    it('sweeps more than one page of receipts and people, and passes over who is still named', async () => {
      const own = await openRecords(await under.storage().fresh());
      const { at, ann } = newPlace();
      for (let n = 100; n < 350; n++) {
        const who = { place: at, person: person(`rider-${n}`) };
        await own.receipts.keep(who, { ...RECEIPT, code: `ABCDE${n}` }, 0);
        if (n % 2 === 0) await own.bikes.save(who, BIKE, 0);
      }
      await own.settings.change(ann, { receiptDays: 1 }, 172_800_000);
      // Every second of the 250 riders has a bike, and stays.
      expect(await own.privacy.sweep(172_800_000)).toMatchObject({ receipts: 250, jobs: 0, people: 125 });
      expect(await own.privacy.sweep(172_800_000)).toMatchObject({ receipts: 0, jobs: 0, people: 0 });
      await own.close();
    });

    it('sweeps receipts and people past their days, and closed jobs only where a place says so', async () => {
      const own = await openRecords(await under.storage().fresh());
      const day = 86_400_000;
      const [keeps, sweeps] = [newPlace(), newPlace()];
      for (const { ann, bob } of [keeps, sweeps]) {
        await own.receipts.keep(bob, RECEIPT, 0);
        await own.receipts.keep(ann, { ...RECEIPT, code: 'ABCDEFG2' }, 20 * day);
        await own.jobs.open(ann, { ...JOB, rows: JOB.rows.slice(0, 1) }, 0);
        await own.jobs.act(ann, 1, tick(1, 13), 0);
        await own.jobs.act(ann, 1, { kind: 'closed' }, 0);
        await own.jobs.open(ann, JOB, 0);
      }
      await own.settings.change(sweeps.ann, { receiptDays: 30, jobDays: 30 }, 20 * day);
      expect(await own.privacy.sweep(30 * day)).toMatchObject({ receipts: 0, jobs: 0, people: 0 });
      expect(await own.privacy.sweep(31 * day)).toMatchObject({ receipts: 1, jobs: 1, people: 1 });
      expect(await own.receipts.read(sweeps.at, RECEIPT.code)).toBeNull();
      expect(await own.receipts.read(sweeps.at, 'ABCDEFG2')).not.toBeNull();
      expect(await own.receipts.read(keeps.at, RECEIPT.code)).not.toBeNull();
      expect(await own.jobs.load(sweeps.at, 1)).toBeNull();
      expect(await own.jobs.load(sweeps.at, 2)).not.toBeNull();
      expect(await own.jobs.load(keeps.at, 1)).not.toBeNull();
      expect(await own.privacy.show(sweeps.bob)).toMatchObject({ lastSeenAtMs: null });
      await own.close();
    });
  });
  describe('places', () => {
    it('never see each other', async () => {
      const here = newPlace();
      const there = newPlace();
      await fill(under.records(), here.ann, here.bob);
      await under.records().bikes.save(here.ann, { ...BIKE, name: 'Shared', shared: true }, 1);
      expect(await under.records().bikes.load(there.ann, 'winter')).toBeNull();
      expect(await under.records().bikes.load(there.ann, 'shared')).toBeNull();
      expect(await under.records().bikes.list(there.ann)).toEqual({ own: [], shared: [], moreShared: false });
      expect(await under.records().answers.show(there.at, 'hills')).toEqual({ kind: 'missing', near: [] });
      expect(await under.records().answers.find(there.at, 'hills', 5)).toEqual({ topics: [], near: [] });
      expect(await under.records().answers.list(there.at, '', 5)).toEqual([]);
      expect(await under.records().answers.history(there.at, 'hills', 99, 5)).toEqual([]);
      expect(await under.records().answers.drafts(there.at)).toEqual([]);
      expect(await under.records().jobs.load(there.at, 1)).toBeNull();
      expect(await under.records().jobs.act(there.ann, 1, tick(1, 13), 1)).toEqual({ kind: 'missing' });
      expect(await under.records().jobs.list(there.at, 'open', 99, 5)).toEqual([]);
      expect(await under.records().receipts.read(there.at, RECEIPT.code)).toBeNull();
      expect(await under.records().settings.read(there.at)).toEqual(DEFAULT_SETTINGS);
      expect(await under.records().privacy.show(there.ann)).toMatchObject({ lastSeenAtMs: null, bikes: [], jobs: [] });
    });
  });
  describe('hostile text', () => {
    it.each(HOSTILE)('%j is kept and found as it came', async (hostile) => {
      const { at, ann } = newPlace();
      const name = `n${hostile}`;
      await under.records().bikes.save(ann, { ...BIKE, name, setup: hostile }, 1);
      expect(await under.records().bikes.load(ann, name)).toMatchObject({ name, setup: hostile });
      const body = `marker ${hostile}`;
      await under.records().answers.write(ann, text(`t ${hostile}`.slice(0, 20), body, { why: hostile }), 1);
      expect((await under.records().answers.find(at, 'marker', 5)).topics).toMatchObject([{ body }]);
      expect(await under.records().answers.find(at, hostile, 5)).toHaveProperty('topics');
      expect(await under.records().answers.show(at, hostile)).toHaveProperty('kind');
      await under.records().jobs.open(ann, { ...JOB, title: hostile }, 1);
      await under.records().jobs.act(ann, 1, { kind: 'struck', row: 1, why: `x${hostile}` }, 1);
      const view = await under.records().jobs.load(at, 1);
      expect([view?.state.title, view?.state.rows[0]?.struck?.why]).toEqual([hostile, `x${hostile}`]);
      await under.records().receipts.keep(ann, { ...RECEIPT, setup: hostile, options: { [hostile]: hostile } }, 1);
      expect(await under.records().receipts.read(at, RECEIPT.code)).toMatchObject({ options: { [hostile]: hostile } });
    });
  });
}
