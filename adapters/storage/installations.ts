import type { Installations } from '../../src/records/installations.ts';
import type { PlaceStore } from './store.ts';

export function installationsIn(store: PlaceStore): Installations {
  return {
    keep: (place, content, atMs) =>
      store.change(place, async ({ scope }) => {
        await scope
          .insertInto('installations')
          .values({ content, at: atMs })
          .onConflict((conflict) => conflict.column('place').doUpdateSet({ content, at: atMs }))
          .execute();
      }),

    read: (place) =>
      store.read(place, async ({ scope }) => {
        const row = await scope.selectFrom('installations').select('content').executeTakeFirst();
        return row?.content ?? null;
      }),

    remove: (place) =>
      store.change(place, async ({ scope }) => {
        const { numDeletedRows } = await scope.deleteFrom('installations').executeTakeFirst();
        return numDeletedRows > 0n;
      }),
  };
}
