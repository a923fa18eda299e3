import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { statement } from '../../adapters/storage/statements.ts';
import type { Store } from '../../adapters/storage/store.ts';
import { newPlace, openBoth, STORAGES, type Storage } from '../support/storages.ts';
import { BIKE } from './examples.ts';

const named = statement<{ name: string; most: number }, { content: string; shared: number }>(
  ['name', 'most'],
  (scope, { name, most }) =>
    scope.selectFrom('bikes').select(['content', 'shared']).where('name_key', '=', name).where('saved_at', '<=', most),
);

describe.each(Object.entries(STORAGES))('a statement built once on %s', (_, start) => {
  let storage: Storage;
  let store: Store;
  const [first, second] = [newPlace(), newPlace()];
  beforeAll(async () => {
    storage = await start();
    const both = await openBoth(await storage.fresh());
    store = both.store;
    await both.records.bikes.save(first.ann, { ...BIKE, setup: 'of the first' }, 5);
    await both.records.bikes.save(second.bob, { ...BIKE, setup: 'of the second' }, 5);
  });
  afterAll(async () => {
    await store.close();
    await storage.end();
  });

  it('sees in each place only what is there, whichever place it was built for', async () => {
    const setups = async ({ at }: typeof first) => {
      const rows = await store.read(at, ({ scope }) => named(scope, { name: 'winter', most: 9 }));
      return rows.map(({ content }) => JSON.parse(content).setup);
    };
    expect(await setups(first)).toEqual(['of the first']);
    expect(await setups(second)).toEqual(['of the second']);
    expect(await setups(newPlace())).toEqual([]);
  });

  it('runs with the values it is given each time, in a change too', async () => {
    const found = (name: string, most: number) =>
      store.change(first.at, async ({ scope }) => (await named(scope, { name, most })).length);
    expect([await found('winter', 9), await found('winter', 4), await found('summer', 9)]).toEqual([1, 0, 0]);
  });
});
