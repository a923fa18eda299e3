import { Kysely, sql } from 'kysely';
import { ConfigError } from '../../src/config-error.ts';
import type { Engine } from './engine.ts';
import type { Tables } from './tables.ts';
import { awayCode } from './trouble.ts';

/** The statements that bring the tables one version on. Only ever add to the list: what ran somewhere stays as it ran. */
type Migration = (engine: Engine) => readonly string[];

const first: Migration = (engine) => [
  `create table people (
     place text not null, person text not null, key text not null, seen_at bigint not null,
     primary key (place, person))`,
  'create unique index people_by_key on people (place, key)',
  `create table bikes (
     place text not null, owner text not null, name_key text not null, shared smallint not null,
     saved_at bigint not null, content text not null,
     primary key (place, owner, name_key))`,
  'create unique index bikes_shared on bikes (place, name_key) where shared = 1',
  `create table answers (
     id ${engine.numberedKey}, place text not null, topic text not null, version bigint not null,
     pinned smallint not null, asks smallint not null,
     unique (place, topic))`,
  `create table answer_names (
     place text not null, name text not null, topic text not null,
     primary key (place, name))`,
  'create index answer_names_by_topic on answer_names (place, topic)',
  `create table answer_versions (
     place text not null, topic text not null, version bigint not null, deed text not null, restored bigint,
     author text not null, approver text, at bigint not null, content text not null,
     primary key (place, topic, version))`,
  'create index answer_versions_by_author on answer_versions (place, author)',
  'create index answer_versions_by_approver on answer_versions (place, approver) where approver is not null',
  `create table answer_drafts (
     place text not null, topic text not null, number bigint not null, status text not null, deed text not null,
     restored bigint, based_on bigint not null, author text not null, at bigint not null, content text not null,
     decider text, decided_at bigint, decided_why text,
     primary key (place, topic, number))`,
  `create unique index answer_drafts_open on answer_drafts (place, topic) where status = 'open'`,
  'create index answer_drafts_by_author on answer_drafts (place, author)',
  'create index answer_drafts_by_decider on answer_drafts (place, decider) where decider is not null',
  `create table jobs (
     place text not null, job bigint not null, closed smallint not null, sequence bigint not null,
     opened_at bigint not null, closed_at bigint, content text not null,
     primary key (place, job))`,
  'create index jobs_by_state on jobs (place, closed, job)',
  `create table job_events (
     place text not null, job bigint not null, sequence bigint not null, "by" text not null, at bigint not null,
     content text not null,
     primary key (place, job, sequence))`,
  'create index job_events_by_person on job_events (place, "by")',
  ...engine.eventGuard,
  `create table wrenches (
     place text not null, wrench text not null, due_at bigint not null,
     primary key (place, wrench))`,
  `create table receipts (
     place text not null, code text not null, owner text not null, at bigint not null, content text not null,
     primary key (place, code))`,
  'create index receipts_by_owner on receipts (place, owner, at)',
  'create index receipts_by_age on receipts (place, at)',
  `create table settings (
     place text not null primary key, content text not null, changed_by text not null, changed_at bigint not null)`,
  'create table setting_people (place text not null, key text not null, primary key (place, key))',
  ...engine.wordIndexTables,
];

const installations: Migration = () => [
  'create table installations (place text not null primary key, content text not null, at bigint not null)',
];

const deliveries: Migration = () => [
  `create table deliveries (
     place text not null, delivery text not null, taker text not null, at bigint not null,
     primary key (place, delivery))`,
  'create index deliveries_by_age on deliveries (place, at)',
];

const gonePeople: Migration = () => [
  'alter table people add column after_gone bigint not null default 0',
  `create table gone_people (
     place text not null, key text not null, number bigint not null,
     primary key (place, key), unique (place, number))`,
];

const MIGRATIONS: readonly Migration[] = [first, installations, deliveries, gonePeople];

/** The version of the tables that this program knows. */
export const SCHEMA_VERSION = MIGRATIONS.length;

/** The version that the tables had, and the one that they have now; 0 where there were none. */
export type Migrated = { readonly from: number; readonly to: number };

/**
 * Brings the tables up to date in one transaction, under a lock, so that of ten processes starting together one does it
 * and nine wait. Tables made by a newer program are left alone.
 *
 * @throws ConfigError `schema-newer`
 */
export async function migrate(db: Kysely<Tables>, engine: Engine): Promise<Migrated> {
  // The usual start needs no lock, and no right to write.
  if (await isUpToDate(db)) return { from: SCHEMA_VERSION, to: SCHEMA_VERSION };
  if (engine.unhurried === null) return brought(db, engine);
  const unhurried = new Kysely<Tables>({ dialect: engine.unhurried() });
  try {
    return await brought(unhurried, engine);
  } finally {
    await unhurried.destroy();
  }
}

function brought(db: Kysely<Tables>, engine: Engine): Promise<Migrated> {
  return db.transaction().execute(async (work) => {
    if (engine.migrationLock !== null) await sql.raw(engine.migrationLock).execute(work);
    await sql`create table if not exists schema_version (id integer primary key, version integer not null)`.execute(
      work,
    );
    const { rows } = await sql<{ version: number }>`select version from schema_version`.execute(work);
    const from = rows[0]?.version ?? 0;
    if (from > SCHEMA_VERSION) throw newer(from);
    for (const migration of MIGRATIONS.slice(from)) {
      for (const statement of migration(engine)) await sql.raw(statement).execute(work);
    }
    if (from < SCHEMA_VERSION) {
      await sql`insert into schema_version (id, version) values (1, ${SCHEMA_VERSION})
        on conflict (id) do update set version = excluded.version`.execute(work);
    }
    return { from, to: SCHEMA_VERSION };
  });
}

/**
 * Whether the tables are those that this program knows; it changes nothing.
 *
 * @throws ConfigError `schema-newer`
 */
export async function isUpToDate(db: Kysely<Tables>): Promise<boolean> {
  const version = await versionOf(db);
  if (version > SCHEMA_VERSION) throw newer(version);
  return version === SCHEMA_VERSION;
}

async function versionOf(db: Kysely<Tables>): Promise<number> {
  try {
    const { rows } = await sql<{ version: number }>`select version from schema_version`.execute(db);
    return rows[0]?.version ?? 0;
  } catch (error) {
    const code = awayCode(error);
    if (code !== null && code !== 'tables') throw error;
    // No such table yet.
    return 0;
  }
}

function newer(found: number): ConfigError {
  return new ConfigError(
    'schema-newer',
    `the records were written by a newer version of this program (tables ${found}, this one knows ${SCHEMA_VERSION}); start the newer one, or restore a backup made before`,
  );
}
