import { createReadStream, createWriteStream, existsSync, renameSync, rmSync } from 'node:fs';
import { dirname } from 'node:path';
import { backup, DatabaseSync } from 'node:sqlite';
import { pipeline } from 'node:stream/promises';
import { parseArgs } from 'node:util';
import { type Kysely, sql } from 'kysely';
import { ConfigError } from '../../src/config-error.ts';
import type { Where } from '../../src/records/where.ts';
import { readSecretFile } from '../settings/secret-files.ts';
import { readWhere } from './config.ts';
import { makeFolder } from './folder.ts';
import { SCHEMA_VERSION } from './migrations.ts';
import { engineAt } from './open.ts';
import { openStore } from './store.ts';
import { TABLE_NAMES, type Tables } from './tables.ts';

/** The tables of one PostgreSQL database, the words of the index among them. */
const COPIED = [...TABLE_NAMES, 'answer_words'] as const;

/** Rows fetched or put in at a time: with every row as long as its limits allow, some twenty megabytes. */
const PAGE = 50;

/** All pages in one step: a step sees one moment and holds no writer up, while several begin again after every write. */
const ALL_PAGES = 2_147_483_647;

/** The first line of a copy of a PostgreSQL database; every other line is a table's name, a tab, and a row as JSON. */
type Heading = { readonly copy: 'ringwright'; readonly schema: number };

/**
 * Makes a consistent copy of the records while they are in use, as they stood at one moment, into a file that did not
 * exist. It comes into being under another name first: a file by the right name is a whole copy.
 *
 * @throws ConfigError `backup` when the file exists
 */
export async function backUp(from: Where, file: string): Promise<void> {
  if (existsSync(file)) throw new ConfigError('backup', `${file} exists; name a new file, so that no copy is lost`);
  await haveFolderOf(file);
  const unfinished = `${file}.part`;
  rmSync(unfinished, { force: true });
  try {
    if ('path' in from) await copySqlite(from.path, unfinished);
    else await copyPostgres(from, unfinished);
    renameSync(unfinished, file);
  } catch (error) {
    rmSync(unfinished, { force: true });
    throw error;
  }
}

/**
 * Brings a copy back to where nothing is: a path without a file, or a database without rows. A copy of one engine goes
 * back to the same engine.
 *
 * @throws ConfigError `backup` when something is there, or the file is no copy that this program can read
 */
export async function restore(file: string, to: Where): Promise<void> {
  if ('path' in to) {
    if (existsSync(to.path)) throw new ConfigError('backup', `${to.path} exists; move it away first`);
    await copySqlite(file, to.path);
  } else {
    await fillPostgres(file, to);
  }
}

async function copySqlite(from: string, to: string): Promise<void> {
  if (!existsSync(from)) throw new ConfigError('backup', `there is no file ${from}`);
  await haveFolderOf(to);
  const source = new DatabaseSync(from, { timeout: 2000 });
  try {
    source.prepare('select version from schema_version').get();
    await backup(source, to, { rate: ALL_PAGES });
  } catch (cause) {
    throw new ConfigError('backup', `${from} could not be copied: is it a database of this program?`, { cause });
  } finally {
    source.close();
  }
}

async function haveFolderOf(file: string): Promise<void> {
  try {
    await makeFolder(dirname(file));
  } catch (cause) {
    throw new ConfigError('backup', `the folder of ${file} cannot be made`, { cause });
  }
}

async function copyPostgres(from: Where, file: string): Promise<void> {
  const store = openStore(await engineAt(from));
  try {
    await store.everywhere((db) =>
      pipeline(lines(db), createWriteStream(file, { flags: 'wx', mode: 0o600, flush: true })),
    );
  } finally {
    await store.close();
  }
}

/** Every row of every table, all as they stood when the transaction began. */
async function* lines(db: Kysely<Tables>): AsyncGenerator<string> {
  const work = await db.startTransaction().setIsolationLevel('repeatable read').setAccessMode('read only').execute();
  try {
    // A large table takes longer than a question may, and writing to a slow disk keeps the server waiting.
    await sql`set local statement_timeout = 0`.execute(work);
    await sql`set local idle_in_transaction_session_timeout = 0`.execute(work);
    const { rows } = await sql<{ version: number }>`select version from schema_version`.execute(work);
    yield `${JSON.stringify({ copy: 'ringwright', schema: rows[0]?.version ?? 0 } satisfies Heading)}\n`;
    for (const table of COPIED) {
      await sql`declare rows_of_table no scroll cursor for
        select to_jsonb(each_row)::text as row from ${sql.table(table)} as each_row`.execute(work);
      for (;;) {
        const page = await sql<{ row: string }>`fetch ${sql.lit(PAGE)} from rows_of_table`.execute(work);
        if (page.rows.length === 0) break;
        yield page.rows.map(({ row }) => `${table}\t${row}\n`).join('');
      }
      await sql`close rows_of_table`.execute(work);
    }
  } finally {
    await work.rollback().execute();
  }
}

async function fillPostgres(file: string, to: Where): Promise<void> {
  const store = openStore(await engineAt(to));
  try {
    await store.everywhere((db) =>
      db.transaction().execute(async (work) => {
        const { rows } = await sql`select from people limit 1`.execute(work);
        if (rows.length > 0) throw new ConfigError('backup', 'the database holds records already; name an empty one');
        let heading = '';
        let page: { table: string; rows: string[] } = { table: '', rows: [] };
        for await (const line of linesOf(file)) {
          if (heading === '') {
            heading = line;
            checkHeading(file, heading);
            continue;
          }
          const tab = line.indexOf('\t');
          const table = line.slice(0, tab);
          if (table !== page.table || page.rows.length === PAGE) {
            await put(work, file, page);
            page = { table, rows: [] };
          }
          page.rows.push(line.slice(tab + 1));
        }
        checkHeading(file, heading);
        await put(work, file, page);
        await sql`select setval(pg_get_serial_sequence('answers', 'id'), max(id)) from answers`.execute(work);
      }),
    );
  } finally {
    await store.close();
  }
}

async function put(work: Kysely<Tables>, file: string, page: { table: string; rows: string[] }): Promise<void> {
  if (page.rows.length === 0) return;
  const table = COPIED.find((name) => name === page.table);
  if (table === undefined) throw new ConfigError('backup', `${file} holds a table this program does not know`);
  const to = sql.table(table);
  await sql`insert into ${to} select (jsonb_populate_record(null::${to}, each_row)).*
    from jsonb_array_elements(${`[${page.rows.join(',')}]`}::jsonb) as each_row`.execute(work);
}

/** The lines of a file. Only a line feed ends one: a text may hold the other signs that some readers take for an end. */
async function* linesOf(file: string): AsyncGenerator<string> {
  let rest = '';
  for await (const chunk of createReadStream(file, 'utf8')) {
    const parts = `${rest}${String(chunk)}`.split('\n');
    rest = parts.pop() ?? '';
    yield* parts;
  }
  if (rest !== '') yield rest;
}

function checkHeading(file: string, line: string): void {
  let heading: Partial<Heading> = {};
  try {
    heading = JSON.parse(line) as Partial<Heading>;
  } catch {
    // Said below: it is no copy.
  }
  if (heading.copy !== 'ringwright') throw new ConfigError('backup', `${file} is no copy of the records`);
  if (heading.schema !== SCHEMA_VERSION) {
    throw new ConfigError(
      'backup',
      `${file} has tables of version ${heading.schema}, this program ${SCHEMA_VERSION}: restore it with the program that wrote it, then start this one`,
    );
  }
}

const USAGE = `Make a copy of the records while they are in use, or bring one back.

  npm run backup -- save <new file>
  npm run backup -- restore <file>

The records are at DATABASE_URL if that is set, else the file records.db in the folder RINGWRIGHT_DATA or data; --path
names another file.`;

async function main(): Promise<void> {
  const { values, positionals } = parseArgs({ allowPositionals: true, options: { path: { type: 'string' } } });
  const [deed, file, ...more] = positionals;
  if (file === undefined || more.length > 0 || (deed !== 'save' && deed !== 'restore')) {
    throw new ConfigError('backup', USAGE);
  }
  const where = values.path === undefined ? readWhere(process.env, readSecretFile) : { path: values.path };
  await (deed === 'save' ? backUp(where, file) : restore(file, where));
  process.stdout.write(deed === 'save' ? `saved to ${file}\n` : `restored from ${file}\n`);
}

if (import.meta.main) {
  main().catch((error: unknown) => {
    process.stderr.write(`${error instanceof Error ? error.message : String(error)}\n`);
    process.exitCode = 1;
  });
}
