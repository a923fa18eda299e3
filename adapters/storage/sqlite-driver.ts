import { mkdirSync, statSync } from 'node:fs';
import { dirname } from 'node:path';
import { DatabaseSync, type SQLInputValue, type StatementSync } from 'node:sqlite';
import { setTimeout as wait } from 'node:timers/promises';
import {
  type CompiledQuery,
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

/** How long somebody waits for others who are writing before being told so. */
const LONGEST_WAIT_MS = 2000;

/** Short, because the engine waits with the whole process; the rest of the wait lets others go on. */
const ENGINE_WAIT_MS = 5;

/** More statements than the program has, those for one to 32 receipts among them, so that each is prepared once. */
const STATEMENTS_KEPT = 300;

/**
 * - WAL: readers and a writer do not wait for each other.
 * - FULL: what was acknowledged is on the disk, also when the power fails at that moment.
 * - secure_delete: what was deleted is overwritten, so that nobody finds it in the file.
 */
const SETTINGS = ['journal_mode = wal', 'synchronous = full', 'secure_delete = on', 'temp_store = memory'];

type Handle = { readonly db: DatabaseSync; readonly statements: Map<string, StatementSync> };

/** The file, opened twice: whoever reads then never waits for whoever writes. */
type Open = { readonly file: string; readonly reader: Handle; readonly writer: Handle };

/** What the query builder holds while it runs a query, or a transaction. */
type Connection = DatabaseConnection & { handle: Handle };

/** The SQLite that comes with the runtime, as a dialect of the query builder. */
export function sqliteDialect(path: string): Dialect {
  return {
    createAdapter: () => Object.defineProperty(new SqliteAdapter(), 'supportsMultipleConnections', { value: true }),
    createDriver: () => sqliteDriver(path),
    createIntrospector: (db) => new SqliteIntrospector(db),
    createQueryCompiler: () => new SqliteQueryCompiler(),
  };
}

function sqliteDriver(path: string): Driver {
  const turns = takeTurns();
  let open: Open | null = null;
  /** Set once a file was there: a missing one is then a loss, not a beginning. */
  let begun = false;

  const current = async (): Promise<Open> => {
    const file = fileOf(path);
    if (open !== null && file !== open.file) {
      close(open);
      open = null;
    }
    if (open === null) {
      if (begun && file === null) throw new StorageAway('gone');
      open = await opened(path);
      begun = true;
    }
    return open;
  };

  return {
    init: () => Promise.resolve(),
    acquireConnection: async () => connectionOn((await current()).reader),
    // Every transaction is one that writes: taking the lock at once, it cannot fail half-way for want of it.
    beginTransaction: async (connection) => {
      const deadlineMs = performance.now() + LONGEST_WAIT_MS;
      await turns.take(deadlineMs);
      try {
        const { writer } = await current();
        await patiently(deadlineMs, () => writer.db.exec('begin immediate'));
        (connection as Connection).handle = writer;
      } catch (error) {
        turns.give();
        throw error;
      }
    },
    commitTransaction: async (connection) => {
      // Into a file that was taken away, a commit would succeed and be lost with it.
      if (open === null || fileOf(path) !== open.file) throw new StorageAway('gone');
      (connection as Connection).handle.db.exec('commit');
      turns.give();
    },
    rollbackTransaction: async (connection) => {
      const { db } = (connection as Connection).handle;
      try {
        // The engine has undone the work by itself after a full disk or a failed write.
        if (db.isOpen && db.isTransaction) db.exec('rollback');
      } finally {
        turns.give();
      }
    },
    releaseConnection: () => Promise.resolve(),
    destroy: async () => {
      if (open !== null) close(open);
      open = null;
    },
  };
}

function connectionOn(reader: Handle): Connection {
  const connection: Connection = {
    handle: reader,
    executeQuery: async <R>(query: CompiledQuery): Promise<QueryResult<R>> => run<R>(connection.handle, query),
    streamQuery: () => {
      throw new Error('rows are read whole or in pages');
    },
  };
  return connection;
}

/** Lets one in at a time, in order of coming; whoever has waited past their deadline is told that it is busy. */
function takeTurns(): { readonly take: (deadlineMs: number) => Promise<void>; readonly give: () => void } {
  const waiting: (() => void)[] = [];
  let taken = false;
  const give = () => {
    const next = waiting.shift();
    taken = next !== undefined;
    next?.();
  };
  const take = async (deadlineMs: number) => {
    if (taken) await new Promise<void>((resolve) => waiting.push(resolve));
    taken = true;
    if (performance.now() <= deadlineMs) return;
    give();
    throw new StorageAway('busy');
  };
  return { take, give };
}

/** Which file lies at a path; null when there is none. */
function fileOf(path: string): string | null {
  const stat = statSync(path, { throwIfNoEntry: false });
  return stat === undefined ? null : `${stat.dev}:${stat.ino}`;
}

async function opened(path: string): Promise<Open> {
  mkdirSync(dirname(path), { recursive: true });
  const writer = await handleOn(path);
  try {
    return { file: fileOf(path) ?? '', writer, reader: await handleOn(path) };
  } catch (error) {
    writer.db.close();
    throw error;
  }
}

async function handleOn(path: string): Promise<Handle> {
  const db = new DatabaseSync(path, { timeout: ENGINE_WAIT_MS });
  try {
    const deadlineMs = performance.now() + LONGEST_WAIT_MS;
    for (const setting of SETTINGS) await patiently(deadlineMs, () => db.exec(`pragma ${setting}`));
  } catch (error) {
    db.close();
    throw error;
  }
  return { db, statements: new Map() };
}

function close({ reader, writer }: Open): void {
  reader.db.close();
  writer.db.close();
}

/** Tries again while another process holds the lock, until the deadline, and lets others go on between. */
async function patiently(deadlineMs: number, work: () => void): Promise<void> {
  for (let pauseMs = 2; ; pauseMs = Math.min(pauseMs * 2, 50)) {
    try {
      work();
      return;
    } catch (error) {
      if (awayCode(error) !== 'busy' || performance.now() > deadlineMs) throw error;
    }
    await wait(pauseMs);
  }
}

function run<R>(handle: Handle, query: CompiledQuery): QueryResult<R> {
  const statement = prepared(handle, query.sql);
  const values = query.parameters as readonly SQLInputValue[];
  if (statement.columns().length > 0) return { rows: statement.all(...values) as R[] };
  return { rows: [], numAffectedRows: BigInt(statement.run(...values).changes) };
}

function prepared({ db, statements }: Handle, sql: string): StatementSync {
  const kept = statements.get(sql);
  if (kept !== undefined) return kept;
  const statement = db.prepare(sql);
  if (statements.size < STATEMENTS_KEPT) statements.set(sql, statement);
  return statement;
}
