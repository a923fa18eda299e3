import { DatabaseSync } from 'node:sqlite';
import pg from 'pg';
import type { Where } from '../../src/records/where.ts';

/**
 * What replaces something leaves no trace of what stood there. So the database itself, and none of the program's code,
 * writes down every value of a bike and of the settings, in the order in which they were saved: whoever replaces a row
 * holds it, so the numbers of one row rise with its transactions.
 */
const WATCHED = [
  { table: 'settings', on: ['update'], owner: "''" },
  { table: 'bikes', on: ['insert', 'update'], owner: 'new.owner' },
] as const;

const FIELDS = (owner: string, table: string) => `'${table}', new.place, ${owner}, new.content`;

/** Begins to watch; the tables are there already. */
export async function watchSaved(where: Where): Promise<void> {
  if ('path' in where) {
    const db = new DatabaseSync(where.path, { timeout: 5000 });
    db.exec('create table witness (id integer primary key, what text, place text, owner text, content text)');
    for (const { table, on, owner } of WATCHED) {
      for (const event of on) {
        db.exec(`create trigger witness_${table}_${event} after ${event} on ${table} begin
          insert into witness (what, place, owner, content) values (${FIELDS(owner, table)}); end`);
      }
    }
    db.close();
    return;
  }
  const client = new pg.Client(where.url);
  await client.connect();
  await client.query('create table witness (id bigserial, what text, place text, owner text, content text)');
  for (const { table, on, owner } of WATCHED) {
    await client.query(`create function witness_${table}() returns trigger language plpgsql as $$ begin
      insert into witness (what, place, owner, content) values (${FIELDS(owner, table)}); return new; end $$`);
    await client.query(`create trigger witness_${table} after ${on.join(' or ')} on ${table}
      for each row execute function witness_${table}()`);
  }
  await client.end();
}
