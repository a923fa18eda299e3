import { DummyDriver, Kysely, PostgresAdapter, PostgresIntrospector, PostgresQueryCompiler, sql } from 'kysely';
import { describe, expect, it } from 'vitest';
import { across, inPlace } from '../../adapters/storage/scope.ts';
import type { Tables } from '../../adapters/storage/tables.ts';
import { place } from '../support/storages.ts';

const db = new Kysely<Tables>({
  dialect: {
    createAdapter: () => new PostgresAdapter(),
    createDriver: () => new DummyDriver(),
    createIntrospector: (of) => new PostgresIntrospector(of),
    createQueryCompiler: () => new PostgresQueryCompiler(),
  },
});
const scope = inPlace(db, place('club:1'));

describe('a query in a place', () => {
  it('reads only the place’s rows, of joined tables too', () => {
    const query = scope
      .selectFrom('bikes')
      .leftJoin('people as owners', 'owners.key', 'bikes.owner')
      .select('bikes.content')
      .where('bikes.name_key', '=', 'a')
      .compile();
    expect(query.sql).toBe(
      'select "bikes"."content" from "bikes" left join "people" as "owners" ' +
        'on "owners"."key" = "bikes"."owner" and "owners"."place" = $1 ' +
        'where "bikes"."name_key" = $2 and "bikes"."place" = $3',
    );
    expect(query.parameters).toEqual(['club:1', 'a', 'club:1']);
  });

  it('keeps the place outside of what is said with "or"', () => {
    const query = scope
      .selectFrom('bikes')
      .select('content')
      .where((eb) => eb.or([eb('owner', '=', 'x'), eb('shared', '=', 1)]))
      .compile();
    expect(query.sql).toBe(
      'select "content" from "bikes" where ("owner" = $1 or "shared" = $2) and "bikes"."place" = $3',
    );
  });

  it('changes and deletes only the place’s rows, also without any other condition', () => {
    expect(scope.updateTable('settings').set({ content: '' }).compile()).toMatchObject({
      sql: 'update "settings" set "content" = $1 where "settings"."place" = $2',
      parameters: ['', 'club:1'],
    });
    expect(scope.deleteFrom('setting_people').compile()).toMatchObject({
      sql: 'delete from "setting_people" where "setting_people"."place" = $1',
      parameters: ['club:1'],
    });
  });

  it('puts rows into the place', () => {
    const rows = [{ key: 'a' }, { key: 'b' }];
    expect(scope.insertInto('setting_people').values(rows).compile()).toMatchObject({
      sql: 'insert into "setting_people" ("key", "place") values ($1, $2), ($3, $4)',
      parameters: ['a', 'club:1', 'b', 'club:1'],
    });
  });

  it('is not run when its place cannot be said', async () => {
    const bikes = scope.selectFrom('bikes').select('owner');
    const outside = [
      () => sql`select * from bikes`.execute(scope),
      () => bikes.union(db.selectFrom('bikes').select('owner')).execute(),
      () =>
        scope
          .with('b', (of) => of.selectFrom('bikes').selectAll())
          .selectFrom('b')
          .selectAll()
          .execute(),
      () => scope.selectFrom(db.selectFrom('bikes').selectAll().as('b')).selectAll().execute(),
      () =>
        scope.insertInto('setting_people').columns(['key']).expression(db.selectFrom('people').select('key')).execute(),
      () => scope.updateTable('jobs').from('people').set({ closed: 1 }).execute(),
      () => scope.deleteFrom('jobs').using('people').execute(),
      () => scope.schema.dropTable('bikes').execute(),
    ];
    for (const query of outside) await expect(query()).rejects.toThrow('cannot be kept within one place');
  });

  it('is not run with a query inside that could look elsewhere', async () => {
    const inner = scope
      .selectFrom('bikes')
      .select('content')
      .where('owner', 'in', (eb) => eb.selectFrom('people').select('key'));
    await expect(inner.execute()).rejects.toThrow('cannot be kept within one place');
  });
});

describe('rows of several places', () => {
  const into = across(db, [place('club:1'), place('club:2')]);
  const rows = [{ key: 'a' }, { key: 'b' }];

  it('go each into its own', () => {
    expect(into.insertInto('setting_people').values(rows).compile()).toMatchObject({
      sql: 'insert into "setting_people" ("key", "place") values ($1, $2), ($3, $4)',
      parameters: ['a', 'club:1', 'b', 'club:2'],
    });
  });

  it('are all that can be asked for, and as many as there are places', () => {
    const one = rows.slice(0, 1);
    expect(() => into.insertInto('setting_people').values(one).compile()).toThrow(TypeError);
    expect(() => across(db, []).insertInto('setting_people').values(one).compile()).toThrow(TypeError);
    expect(() => into.selectFrom('bikes').selectAll().compile()).toThrow(TypeError);
    expect(() => into.deleteFrom('bikes').compile()).toThrow(TypeError);
    expect(() => into.updateTable('settings').set({ content: '' }).compile()).toThrow(TypeError);
    const copied = into.insertInto('setting_people').columns(['key']);
    expect(() => copied.expression((eb) => eb.selectFrom('people').select('key')).compile()).toThrow(TypeError);
  });
});
