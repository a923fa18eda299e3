import { mkdirSync, statSync } from 'node:fs';
import { dirname } from 'node:path';
import { DatabaseSync, type SQLInputValue, type StatementSync } from 'node:sqlite';
import { setTimeout as wait } from 'node:timers/promises';
import {
  CompiledQuery,
  type DatabaseConnection,
  type Dialect,
  type Driver,
  type QueryResult,
  SqliteAdapter,
  SqliteIntrospector,
  SqliteQueryCompiler,
} from 'kysely';
import { StorageAway } from '../../src/records/storage-away.ts';
import { awayCode } from './trouble.ts';

/** How long somebody waits for another process that is writing before being told so. */
const LONGEST_WAIT_MS = 2000;

/** Short, because the engine waits with the whole process; the rest of the wait lets others go on. */
const ENGINE_WAIT_MS = 5;

/** More statements than the program has, so that each is prepared once. */
const STATEMENTS_KEPT = 200;

/**
 * - WAL: readers and a writer do not wait for each other.
 * - FULL: what was acknowledged is on the disk, also when the power fails at that moment.
 * - secure_delete: what was deleted is overwritten, so that nobody finds it in the file.
 */
const SETTINGS = ['journal_mode = wal', 'synchronous = full', 'secure_delete = on', 'temp_store = memory'];

type Open = { readonly db: DatabaseSync; readonly file: string; readonly statements: Map<string, StatementSync> };

/** The SQLite that comes with the runtime, as a dialect of the query builder. */
export function sqliteDialect(path: string): Dialect {
  return {
    createAdapter: () => new SqliteAdapter(),
    createDriver: () => sqliteDriver(path),
    createIntrospector: (db) => new SqliteIntrospector(db),
    createQueryCompiler: () => new SqliteQueryCompiler(),
  };
}

function sqliteDriver(path: string): Driver {
  let open: Open | null = null;
  /** Set once a file was there: a missing one is then a loss, not a beginning. */
  let begun = false;

  const current = async (): Promise<Open> => {
    if (open !== null && fileOf(path) !== open.file) {
      open.db.close();
      open = null;
    }
    if (open === null) {
      if (begun && fileOf(path) === null) throw new StorageAway('gone');
      open = await opened(path);
      begun = true;
    }
    return open;
  };

  const connection: DatabaseConnection = {
    executeQuery: async <R>(query: CompiledQuery): Promise<QueryResult<R>> => {
      if (open === null) throw new StorageAway('gone');
      return run<R>(open, query);
    },
    streamQuery: () => {
      throw new Error('rows are read whole or in pages');
    },
  };
  const execute = (sql: string) => connection.executeQuery(CompiledQuery.raw(sql));

  return {
    init: () => Promise.resolve(),
    acquireConnection: async () => {
      await current();
      return connection;
    },
    // Every transaction is one that writes: taking the lock at once, it cannot fail half-way for want of it.
    beginTransaction: () => patiently(() => execute('begin immediate')),
    commitTransaction: async () => {
      await execute('commit');
    },
    rollbackTransaction: async () => {
      // The engine has undone the work by itself after a full disk or a failed write.
      if (open?.db.isTransaction) await execute('rollback');
    },
    releaseConnection: () => Promise.resolve(),
    destroy: async () => {
      open?.db.close();
      open = null;
    },
  };
}

/** Which file lies at a path; null when there is none. */
function fileOf(path: string): string | null {
  const stat = statSync(path, { throwIfNoEntry: false });
  return stat === undefined ? null : `${stat.dev}:${stat.ino}`;
}

async function opened(path: string): Promise<Open> {
  mkdirSync(dirname(path), { recursive: true });
  const db = new DatabaseSync(path, { timeout: ENGINE_WAIT_MS });
  try {
    for (const setting of SETTINGS) await patiently(async () => db.exec(`pragma ${setting}`));
  } catch (error) {
    db.close();
    throw error;
  }
  return { db, file: fileOf(path) ?? '', statements: new Map() };
}

/** Tries again while another process holds the lock, up to the longest wait, and lets others go on between. */
async function patiently(work: () => Promise<unknown>): Promise<void> {
  for (let waitedMs = 0, pauseMs = 2; ; waitedMs += pauseMs + ENGINE_WAIT_MS, pauseMs = Math.min(pauseMs * 2, 50)) {
    try {
      await work();
      return;
    } catch (error) {
      if (awayCode(error) !== 'busy' || waitedMs >= LONGEST_WAIT_MS) throw error;
    }
    await wait(pauseMs);
  }
}

function run<R>(open: Open, query: CompiledQuery): QueryResult<R> {
  const statement = prepared(open, query.sql);
  const values = query.parameters as readonly SQLInputValue[];
  if (statement.columns().length > 0) return { rows: statement.all(...values) as R[] };
  return { rows: [], numAffectedRows: BigInt(statement.run(...values).changes) };
}

function prepared({ db, statements }: Open, sql: string): StatementSync {
  const kept = statements.get(sql);
  if (kept !== undefined) return kept;
  const statement = db.prepare(sql);
  if (statements.size < STATEMENTS_KEPT) statements.set(sql, statement);
  return statement;
}
