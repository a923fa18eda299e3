import { describe, expect, it } from 'vitest';
import { type OpenRecords, openRecords } from '../../adapters/storage/open.ts';
import { newPlace } from '../support/storages.ts';
import type { UnderTest } from './contract.ts';
import { BIKE, JOB, tick } from './examples.ts';

const DAY_MS = 86_400_000;
const deliveredBefore = expect.objectContaining({ name: 'DeliveredBefore' });

/** What the port promises of deliveries. */
export function deliveriesContract(under: UnderTest): void {
  describe('deliveries', () => {
    const once = (id: string, taker: string, records: OpenRecords = under.records()) =>
      records.deliveries.once({ id, taker }, 5);

    it('change what they ask for once, whoever takes them', async () => {
      const { at, ann } = newPlace();
      await under.records().jobs.open(ann, JOB, 1);
      expect(await once('press 1', 'here').jobs.act(ann, 1, tick(1, 13), 2)).toMatchObject({ kind: 'recorded' });
      await expect(once('press 1', 'there').jobs.act(ann, 1, tick(2, 40), 3)).rejects.toEqual(deliveredBefore);
      expect(await under.records().jobs.log(at, 1)).toHaveLength(2);
      expect(await once('press 2', 'there').jobs.act(ann, 1, tick(2, 40), 3)).toMatchObject({ kind: 'recorded' });
    });

    it('may change several things for the one who took them', async () => {
      const { ann } = newPlace();
      const records = once('press', 'here');
      await records.bikes.save(ann, BIKE, 1);
      await records.bikes.save(ann, { ...BIKE, name: 'Summer' }, 2);
      expect((await records.bikes.list(ann)).own).toHaveLength(2);
      expect((await once('press', 'there').bikes.list(ann)).own).toHaveLength(2);
    });

    it('are others’ once somebody else has changed something for them, and in no other place', async () => {
      const here = newPlace();
      const there = newPlace();
      const mine = { id: 'press', taker: 'here' };
      const { isOthers } = under.records().deliveries;
      expect(await isOthers(here.at, mine)).toBe(false);
      await once('press', 'there').bikes.save(here.ann, BIKE, 1);
      expect(await isOthers(here.at, mine)).toBe(true);
      expect(await isOthers(here.at, { ...mine, taker: 'there' })).toBe(false);
      expect(await isOthers(there.at, mine)).toBe(false);
      expect(await once('press', 'here').bikes.save(there.ann, BIKE, 1)).toMatchObject({ kind: 'saved' });
    });

    it('that came to nothing can be taken again', async () => {
      const { ann } = newPlace();
      const failing = { ...BIKE, bike: { rings: [1n] } } as unknown as typeof BIKE;
      await expect(once('press', 'here').bikes.save(ann, failing, 1)).rejects.toThrow(TypeError);
      expect(await once('press', 'there').bikes.save(ann, BIKE, 2)).toMatchObject({ kind: 'saved', replaced: null });
    });

    it('at once through two doors are taken by one of them, a hundred times', async () => {
      const { at, ann } = newPlace();
      const other = await openRecords(under.where());
      await under.records().jobs.open(ann, JOB, 1);
      let taken = 0;
      for (let n = 0; n < 100; n++) {
        const both = await Promise.allSettled(
          [under.records(), other].map((records, door) =>
            once(`press ${n}`, `door ${door}`, records).jobs.act(ann, 1, { kind: 'noted', text: `note ${n}` }, n),
          ),
        );
        taken += both.filter(({ status }) => status === 'fulfilled').length;
        const refused = both.flatMap((each) => (each.status === 'rejected' ? [each.reason] : []));
        expect(refused).toEqual([deliveredBefore]);
      }
      await other.close();
      expect(taken).toBe(100);
      const log = await under.records().jobs.log(at, 1);
      const notes = log.flatMap(({ deed }) => (deed.kind === 'noted' ? [deed.text] : []));
      expect(notes).toEqual(Array.from({ length: 100 }, (_, n) => `note ${n}`));
    });

    it('are known for a day, hold nothing of the platform’s id, and are swept after that', async () => {
      const where = await under.storage().fresh();
      const own = await openRecords(where);
      const { ann, bob } = newPlace();
      // More than one page of the sweep, and one in a place where nothing else is.
      for (let n = 0; n < 120; n++) {
        await own.deliveries.once({ id: `old ${n} of-somebody`, taker: 'here' }, 0).bikes.forget(ann, 'none');
      }
      await own.deliveries.once({ id: 'new of-somebody', taker: 'here' }, DAY_MS).bikes.save(bob, BIKE, DAY_MS);
      expect(await under.storage().everyByte(where)).not.toContain('of-somebody');
      const again = () => own.deliveries.once({ id: 'new of-somebody', taker: 'there' }, DAY_MS).bikes.forget(bob, 'x');
      await expect(again()).rejects.toEqual(deliveredBefore);
      expect(await own.privacy.sweep(DAY_MS + 1)).toMatchObject({ deliveries: 120 });
      await expect(again()).rejects.toEqual(deliveredBefore);
      expect(await own.privacy.sweep(2 * DAY_MS + 1)).toMatchObject({ deliveries: 1 });
      expect(await again()).toBeNull();
      await own.close();
    });
  });
}
