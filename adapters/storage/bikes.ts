import { sql } from 'kysely';
import type { Bikes, BikeTaken, KeptBike, NewBike } from '../../src/records/bikes.ts';
import { type Over, overLimit } from '../../src/records/limits.ts';
import { nameKey } from '../../src/records/names.ts';
import type { Author, Who } from '../../src/records/place.ts';
import { authorsOf, heldKey, keyOf, knownKey } from './people.ts';
import type { Scope } from './scope.ts';
import type { PlaceStore } from './store.ts';
import type { Flag, Tables } from './tables.ts';

type Content = Pick<KeptBike, 'name' | 'setup' | 'bike'>;
type Row = Omit<Tables['bikes'], 'place'>;

/** Shared bikes on one list; more than that is said, and asked for by name. */
const SHARED_LISTED = 50;

export function bikesIn(store: PlaceStore): Bikes {
  return {
    save: async (who, bike, atMs) => {
      const wrong = unfit(bike.name, bike.setup);
      if (wrong !== null) return wrong;
      return store.change(who.place, async ({ scope }) => {
        const owner = await keyOf(scope, who, atMs);
        const name_key = nameKey(bike.name);
        const before = await ownRow(scope, owner, name_key);
        const refused =
          (bike.shared ? await takenBy(scope, owner, name_key) : null) ??
          (before === undefined ? await oneTooMany(scope, owner) : null);
        if (refused !== null) return refused;
        const row = { shared: flag(bike.shared), saved_at: atMs, content: contentOf(bike) };
        await scope
          .insertInto('bikes')
          .values({ owner, name_key, ...row })
          .onConflict((conflict) => conflict.columns(['place', 'owner', 'name_key']).doUpdateSet(row))
          .execute();
        return { kind: 'saved', replaced: before === undefined ? null : keptBike(before, self(who)) };
      });
    },

    load: (who, name) =>
      store.read(who.place, async ({ scope }) => {
        const name_key = nameKey(name);
        const owner = await knownKey(scope, who);
        const own = owner === null ? undefined : await ownRow(scope, owner, name_key);
        if (own !== undefined) return keptBike(own, self(who));
        const shared = await sharedRow(scope, name_key);
        if (shared === undefined) return null;
        return keptBike(shared, (await authorsOf(scope, [shared.owner]))(shared.owner));
      }),

    list: (who) =>
      store.read(who.place, async ({ scope }) => {
        const owner = await knownKey(scope, who);
        const own =
          owner === null
            ? []
            : await scope.selectFrom('bikes').selectAll().where('owner', '=', owner).orderBy('name_key').execute();
        const shared = await scope
          .selectFrom('bikes')
          .selectAll()
          .where('shared', '=', sql.lit<Flag>(1))
          .where('owner', '!=', owner ?? '')
          .orderBy('name_key')
          .limit(SHARED_LISTED + 1)
          .execute();
        const authors = await authorsOf(
          scope,
          shared.map((row) => row.owner),
        );
        return {
          own: own.map((row) => keptBike(row, self(who))),
          shared: shared.slice(0, SHARED_LISTED).map((row) => keptBike(row, authors(row.owner))),
          moreShared: shared.length > SHARED_LISTED,
        };
      }),

    share: (who, name, shared, atMs) =>
      store.change(who.place, async ({ scope }) => {
        const owner = await heldKey(scope, who);
        const row = owner === null ? undefined : await ownRow(scope, owner, nameKey(name));
        if (owner === null || row === undefined) return { kind: 'missing' };
        const refused = shared ? await takenBy(scope, owner, row.name_key) : null;
        if (refused !== null) return refused;
        const now = { shared: flag(shared), saved_at: atMs };
        await scope
          .updateTable('bikes')
          .set(now)
          .where('owner', '=', owner)
          .where('name_key', '=', row.name_key)
          .execute();
        return { kind: 'shared', bike: keptBike({ ...row, ...now }, self(who)) };
      }),

    rename: async (who, from, to) => {
      const wrong = unfit(to, '');
      if (wrong !== null) return wrong;
      return store.change(who.place, async ({ scope }) => {
        const owner = await heldKey(scope, who);
        const row = owner === null ? undefined : await ownRow(scope, owner, nameKey(from));
        if (owner === null || row === undefined) return { kind: 'missing' };
        const name_key = nameKey(to);
        if (name_key !== row.name_key) {
          const other = await ownRow(scope, owner, name_key);
          if (other !== undefined) return { kind: 'yours-already', bike: keptBike(other, self(who)) };
          const refused = row.shared === 1 ? await takenBy(scope, owner, name_key) : null;
          if (refused !== null) return refused;
        }
        const content = contentOf({ ...(JSON.parse(row.content) as Content), name: to });
        await scope
          .updateTable('bikes')
          .set({ name_key, content })
          .where('owner', '=', owner)
          .where('name_key', '=', row.name_key)
          .execute();
        return { kind: 'renamed', bike: keptBike({ ...row, name_key, content }, self(who)) };
      });
    },

    forget: (who, name) =>
      store.change(who.place, async ({ scope }) => {
        const owner = await knownKey(scope, who);
        if (owner === null) return null;
        const row = await scope
          .deleteFrom('bikes')
          .where('owner', '=', owner)
          .where('name_key', '=', nameKey(name))
          .returningAll()
          .executeTakeFirst();
        return row === undefined ? null : keptBike(row, self(who));
      }),
  };
}

/** What is wrong with a name and a setup line by themselves, or null. */
function unfit(name: string, setup: string): Over | { readonly kind: 'nameless' } | null {
  const over = overLimit({ bikeName: name.length, setup: setup.length });
  return over ?? (nameKey(name) === '' ? { kind: 'nameless' } : null);
}

function ownRow(scope: Scope, owner: string, name_key: string): Promise<Row | undefined> {
  return scope
    .selectFrom('bikes')
    .selectAll()
    .where('owner', '=', owner)
    .where('name_key', '=', name_key)
    .executeTakeFirst();
}

function sharedRow(scope: Scope, name_key: string): Promise<Row | undefined> {
  return scope
    .selectFrom('bikes')
    .selectAll()
    .where('shared', '=', sql.lit<Flag>(1))
    .where('name_key', '=', name_key)
    .executeTakeFirst();
}

async function takenBy(scope: Scope, owner: string, name_key: string): Promise<BikeTaken | null> {
  const row = await sharedRow(scope, name_key);
  if (row === undefined || row.owner === owner) return null;
  return { kind: 'taken', by: (await authorsOf(scope, [row.owner]))(row.owner) };
}

async function oneTooMany(scope: Scope, owner: string): Promise<Over | null> {
  const { count } = await scope
    .selectFrom('bikes')
    .select((eb) => eb.fn.countAll<number>().as('count'))
    .where('owner', '=', owner)
    .executeTakeFirstOrThrow();
  return overLimit({ bikesEach: count + 1 });
}

function contentOf({ name, setup, bike }: Pick<NewBike, 'name' | 'setup' | 'bike'>): string {
  return JSON.stringify({ name, setup, bike } satisfies Content);
}

/** A bike as it is kept, back from its row. */
export function keptBike(row: Row, owner: Author): KeptBike {
  const { name, setup, bike } = JSON.parse(row.content) as Content;
  return { name, setup, bike, shared: row.shared === 1, savedAtMs: row.saved_at, owner };
}

function self(who: Who): Author {
  return { kind: 'person', person: who.person };
}

function flag(claim: boolean): Flag {
  return claim ? 1 : 0;
}
