import { randomBytes } from 'node:crypto';
import type { OnConflictBuilder } from 'kysely';
import type { Author, Person, Place, Who } from '../../src/records/place.ts';
import type { Scope } from './scope.ts';
import { rowsStatement, statement } from './statements.ts';
import type { Together } from './store.ts';
import type { Tables } from './tables.ts';

/** Random, so that a key says nothing about a person once the row that names them is gone. */
const KEY_BYTES = 16;

type Seen = { person: string; key: string; seen_at: number };
const SEEN = ['person', 'key', 'seen_at'] as const;

/** Seen again. The row is then held until the change is saved, so a sweep cannot take it away in between. */
const again = (conflict: OnConflictBuilder<Tables, 'people'>) =>
  conflict.columns(['place', 'person']).doUpdateSet((eb) => ({
    seen_at: eb
      .case()
      .when('people.seen_at', '>', eb.ref('excluded.seen_at'))
      .then(eb.ref('people.seen_at'))
      .else(eb.ref('excluded.seen_at'))
      .end(),
  }));

const see = statement<Seen, { key: string }>(SEEN, (scope, row) =>
  scope.insertInto('people').values(row).onConflict(again).returning('key'),
);

const seeAll = rowsStatement<Seen, { place: string; person: string; key: string }>(SEEN, (into, rows) =>
  into.insertInto('people').values(rows).onConflict(again).returning(['place', 'person', 'key']),
);

/** The key of a person who does something that is kept, made when they have none; call it within a change. */
export async function keyOf(scope: Scope, { person }: Who, atMs: number): Promise<string> {
  const fresh = freshKey();
  const [seen] = await see(scope, { person, key: fresh, seen_at: atMs });
  const key = seen?.key ?? fresh;
  if (key === fresh) await afterGone(scope, person);
  return key;
}

/** The same for many people at once, in whichever places. */
export async function keysOf(
  { into, scopeOf }: Together,
  seen: readonly { readonly who: Who; readonly atMs: number }[],
): Promise<(who: Who) => string> {
  const rows = new Map<string, Seen & { readonly place: Place }>();
  for (const { who, atMs } of seen) {
    const before = rows.get(nameOf(who));
    const seen_at = Math.max(atMs, before?.seen_at ?? atMs);
    rows.set(nameOf(who), { ...who, key: before?.key ?? freshKey(), seen_at });
  }
  // In order of name, as in every process: two that hold some of the same people then never wait for each other.
  const inOrder = [...rows].sort(([first], [second]) => (first < second ? -1 : 1)).map(([, row]) => row);
  const keys = new Map<string, string>();
  for (const { place, person, key } of await seeAll(into, inOrder)) {
    const who = { place, person } as Who;
    keys.set(nameOf(who), key);
    if (rows.get(nameOf(who))?.key === key) await afterGone(scopeOf(who.place), person);
  }
  return (who) => {
    const key = keys.get(nameOf(who));
    if (key === undefined) throw new TypeError('whoever was seen has a key');
    return key;
  };
}

/** Neither of them holds a blank, so that no two names are alike. */
function nameOf({ place, person }: Who): string {
  return `${place} ${person}`;
}

function freshKey(): string {
  return randomBytes(KEY_BYTES).toString('base64url');
}

/** Keeps of somebody new who was deleted last before them. */
async function afterGone(scope: Scope, person: string): Promise<void> {
  const after_gone = await lastGone(scope);
  if (after_gone > 0) await scope.updateTable('people').set({ after_gone }).where('person', '=', person).execute();
}

async function lastGone(scope: Scope): Promise<number> {
  const { last } = await scope
    .selectFrom('gone_people')
    .select((eb) => eb.fn.max('number').as('last'))
    .executeTakeFirstOrThrow();
  return last ?? 0;
}

/** Keeps that the person behind a key was deleted now, after whoever was before; nothing of who it was. */
export async function goes(scope: Scope, key: string): Promise<void> {
  await scope
    .insertInto('gone_people')
    .values({ key, number: (await lastGone(scope)) + 1 })
    .execute();
}

/**
 * Which of some keys may have been this very person's, who had their data deleted and came back: keys of somebody gone,
 * unless this person was seen here before that. Nothing is kept by which a person could be known again, so whoever was
 * first seen afterwards may be anybody.
 */
export async function perhapsOwn(scope: Scope, key: string, keys: readonly string[]): Promise<ReadonlySet<string>> {
  const asked = keys.filter((each) => each !== key);
  if (asked.length === 0) return new Set();
  const here = await scope
    .selectFrom('people')
    .select(['key', 'after_gone'])
    .where('key', 'in', [key, ...asked])
    .execute();
  const gone = asked.filter((each) => here.every((row) => row.key !== each));
  if (gone.length === 0) return new Set();
  const after = here.find((row) => row.key === key)?.after_gone ?? Number.POSITIVE_INFINITY;
  const rows = await scope.selectFrom('gone_people').select(['key', 'number']).where('key', 'in', gone).execute();
  const earlier = new Set(rows.filter((row) => after < row.number).map((row) => row.key));
  return new Set(gone.filter((each) => !earlier.has(each)));
}

/** The key of a person who only asks; null when nothing is kept of them. */
export async function knownKey(scope: Scope, { person }: Who): Promise<string | null> {
  const row = await scope.selectFrom('people').select('key').where('person', '=', person).executeTakeFirst();
  return row?.key ?? null;
}

/**
 * The key of a person whose other changes then wait until this one is saved: what is read of theirs stands until then.
 * Null when nothing is kept of them.
 */
export async function heldKey(scope: Scope, { person }: Who): Promise<string | null> {
  const row = await scope
    .updateTable('people')
    .set((eb) => ({ seen_at: eb.ref('seen_at') }))
    .where('person', '=', person)
    .returning('key')
    .executeTakeFirst();
  return row?.key ?? null;
}

/** Who is behind each of some keys; a key without a person belongs to somebody deleted. */
export async function authorsOf(scope: Scope, keys: readonly (string | null)[]): Promise<(key: string) => Author> {
  const asked = [...new Set(keys.filter((key) => key !== null))];
  const named = new Map<string, Author>();
  if (asked.length > 0) {
    const rows = await scope.selectFrom('people').select(['key', 'person']).where('key', 'in', asked).execute();
    for (const row of rows) named.set(row.key, { kind: 'person', person: row.person as Person });
  }
  return (key) => named.get(key) ?? { kind: 'gone' };
}
