import { randomBytes } from 'node:crypto';
import type { Author, Person, Who } from '../../src/records/place.ts';
import type { Scope } from './scope.ts';
import { statement } from './statements.ts';

/** Random, so that a key says nothing about a person once the row that names them is gone. */
const KEY_BYTES = 16;

const see = statement<{ person: string; key: string; seen_at: number }, { key: string }>(
  ['person', 'key', 'seen_at'],
  (scope, row) =>
    scope
      .insertInto('people')
      .values(row)
      // Seen again. The row is then held until the change is saved, so a sweep cannot take it away in between.
      .onConflict((conflict) =>
        conflict.columns(['place', 'person']).doUpdateSet((eb) => ({
          seen_at: eb
            .case()
            .when('people.seen_at', '>', eb.ref('excluded.seen_at'))
            .then(eb.ref('people.seen_at'))
            .else(eb.ref('excluded.seen_at'))
            .end(),
        })),
      )
      .returning('key'),
);

/** The key of a person who does something that is kept, made when they have none; call it within a change. */
export async function keyOf(scope: Scope, { person }: Who, atMs: number): Promise<string> {
  const fresh = randomBytes(KEY_BYTES).toString('base64url');
  const [seen] = await see(scope, { person, key: fresh, seen_at: atMs });
  const key = seen?.key ?? fresh;
  if (key === fresh) {
    const after_gone = await lastGone(scope);
    if (after_gone > 0) await scope.updateTable('people').set({ after_gone }).where('person', '=', person).execute();
  }
  return key;
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
