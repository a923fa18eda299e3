import { describe, expect, it } from 'vitest';
import { openRecords } from '../../adapters/storage/open.ts';
import type { NewBike } from '../../src/records/bikes.ts';
import { LIMITS } from '../../src/records/limits.ts';
import { newPlace, person } from '../support/storages.ts';
import type { UnderTest } from './contract.ts';
import { BIKE } from './examples.ts';

/** What the port promises of saved bikes. */
export function bikesContract(under: UnderTest): void {
  describe('bikes', () => {
    it('come back as they were saved, by any spelling of their name', async () => {
      const { ann } = newPlace();
      expect(await under.records().bikes.save(ann, BIKE, 5)).toEqual({ kind: 'saved', replaced: null });
      expect(await under.records().bikes.load(ann, '  WINTER ')).toEqual({
        ...BIKE,
        savedAtMs: 5,
        owner: { kind: 'person', person: 'ann' },
      });
      expect(await under.records().bikes.load(ann, 'summer')).toBeNull();
    });

    it('are their owner’s alone unless shared', async () => {
      const { ann, bob } = newPlace();
      await under.records().bikes.save(ann, BIKE, 1);
      expect(await under.records().bikes.load(bob, 'winter')).toBeNull();
      expect(await under.records().bikes.list(bob)).toEqual({ own: [], shared: [], moreShared: false });
      await under.records().bikes.save(ann, { ...BIKE, shared: true }, 2);
      expect(await under.records().bikes.load(bob, 'winter')).toMatchObject({
        owner: { kind: 'person', person: 'ann' },
      });
      expect((await under.records().bikes.list(bob)).shared).toHaveLength(1);
      expect((await under.records().bikes.list(ann)).shared).toEqual([]);
    });

    it('give back the one they replace', async () => {
      const { ann } = newPlace();
      await under.records().bikes.save(ann, BIKE, 1);
      const saved = await under.records().bikes.save(ann, { ...BIKE, name: 'WINTER', setup: 'rings=34' }, 2);
      expect(saved).toMatchObject({ kind: 'saved', replaced: { name: 'Winter', setup: 'rings=36/22' } });
      expect((await under.records().bikes.list(ann)).own).toMatchObject([{ name: 'WINTER', setup: 'rings=34' }]);
    });

    it('of one’s own come before a shared one of the same name', async () => {
      const { ann, bob } = newPlace();
      await under.records().bikes.save(ann, { ...BIKE, setup: 'shared', shared: true }, 1);
      await under.records().bikes.save(bob, { ...BIKE, setup: 'own' }, 2);
      expect(await under.records().bikes.load(bob, 'winter')).toMatchObject({ setup: 'own' });
    });

    it('are shared under one name by one person', async () => {
      const { ann, bob } = newPlace();
      await under.records().bikes.save(ann, { ...BIKE, shared: true }, 1);
      const taken = { kind: 'taken', by: { kind: 'person', person: 'ann' } };
      expect(await under.records().bikes.save(bob, { ...BIKE, name: 'winter', shared: true }, 2)).toEqual(taken);
      await under.records().bikes.save(bob, { ...BIKE, name: 'Summer', shared: true }, 3);
      expect(await under.records().bikes.rename(bob, 'summer', 'Winter')).toEqual(taken);
      expect(await under.records().bikes.load(bob, 'summer')).toMatchObject({ name: 'Summer' });
    });

    it('change their name and are forgotten, by their owner only', async () => {
      const { ann, bob } = newPlace();
      await under.records().bikes.save(ann, { ...BIKE, shared: true }, 1);
      expect(await under.records().bikes.rename(bob, 'winter', 'mine')).toEqual({ kind: 'missing' });
      expect(await under.records().bikes.forget(bob, 'winter')).toBeNull();
      expect(await under.records().bikes.rename(ann, 'winter', 'Rain')).toMatchObject({ kind: 'renamed' });
      expect(await under.records().bikes.load(ann, 'winter')).toBeNull();
      await under.records().bikes.save(ann, BIKE, 2);
      expect(await under.records().bikes.rename(ann, 'rain', 'winter')).toMatchObject({ kind: 'yours-already' });
      expect(await under.records().bikes.rename(ann, 'rain', 'RAIN')).toMatchObject({ bike: { name: 'RAIN' } });
      expect(await under.records().bikes.forget(ann, 'rain')).toMatchObject({ name: 'RAIN' });
      expect(await under.records().bikes.forget(ann, 'rain')).toBeNull();
    });

    it('over a limit are refused with the limit', async () => {
      const { ann } = newPlace();
      const save = (bike: Partial<NewBike>) => under.records().bikes.save(ann, { ...BIKE, ...bike }, 1);
      expect(await save({ name: 'x'.repeat(LIMITS.bikeName) })).toMatchObject({ kind: 'saved' });
      expect(await save({ name: 'x'.repeat(LIMITS.bikeName + 1) })).toMatchObject({ kind: 'over', limit: 60 });
      expect(await save({ setup: 'x'.repeat(LIMITS.setup + 1) })).toMatchObject({ kind: 'over', limit: 1000 });
      expect(await save({ name: '\u200b' })).toEqual({ kind: 'nameless' });
      for (let at = 1; at < LIMITS.bikesEach; at++) await save({ name: `bike ${at}` });
      expect(await save({ name: 'one more' })).toMatchObject({ kind: 'over', field: 'bikesEach', limit: 50 });
      expect(await save({ name: 'bike 1', setup: 'new' })).toMatchObject({ kind: 'saved' });
    });

    it('are shared as they stand, taken back, and change nothing else', async () => {
      const { ann, bob } = newPlace();
      const { bikes } = under.records();
      expect(await bikes.share(ann, 'winter', true, 1)).toEqual({ kind: 'missing' });
      await bikes.save(ann, BIKE, 1);
      expect(await bikes.share(bob, 'winter', true, 2)).toEqual({ kind: 'missing' });
      expect(await bikes.share(ann, 'WINTER', true, 3)).toMatchObject({ kind: 'shared', bike: { shared: true } });
      expect(await bikes.load(bob, 'winter')).toMatchObject({ name: 'Winter', setup: BIKE.setup, savedAtMs: 3 });
      await bikes.save(bob, BIKE, 4);
      expect(await bikes.share(bob, 'winter', true, 5)).toEqual({
        kind: 'taken',
        by: { kind: 'person', person: ann.person },
      });
      expect(await bikes.share(ann, 'winter', false, 6)).toMatchObject({ kind: 'shared', bike: { shared: false } });
      expect(await bikes.share(bob, 'winter', true, 7)).toMatchObject({ kind: 'shared' });
    });

    it('saved while they are shared or renamed keep what was told last', async () => {
      const other = await openRecords(under.where());
      for (let n = 0; n < 20; n++) {
        const { ann } = newPlace();
        const { bikes } = under.records();
        await bikes.save(ann, { ...BIKE, setup: 'old' }, 1);
        await Promise.all([
          bikes.save(ann, { ...BIKE, setup: 'new' }, 2),
          n % 2 === 0 ? other.bikes.share(ann, 'winter', true, 2) : other.bikes.rename(ann, 'winter', 'rain'),
        ]);
        const { own } = await bikes.list(ann);
        expect(own.map(({ setup }) => setup)).toContain('new');
      }
      await other.close();
    });

    it('saved under one shared name by many at once belong to one of them', async () => {
      const { at } = newPlace();
      const all = await Promise.all(
        Array.from({ length: 8 }, (_, n) =>
          under.records().bikes.save({ place: at, person: person(`rider-${n}`) }, { ...BIKE, shared: true }, n),
        ),
      );
      expect(all.filter(({ kind }) => kind === 'saved')).toHaveLength(1);
      expect(all.filter(({ kind }) => kind === 'taken')).toHaveLength(7);
    });
  });
}
