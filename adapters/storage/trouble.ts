import { type AwayCode, StorageAway } from '../../src/records/storage-away.ts';

/** SQLite's primary result codes (its documentation, "Result and Error Codes"); the rest are our own mistakes. */
const SQLITE_AWAY: Readonly<Record<number, AwayCode>> = {
  5: 'busy',
  6: 'busy',
  8: 'read-only',
  10: 'gone',
  11: 'damaged',
  13: 'full',
  14: 'gone',
  26: 'damaged',
};

/** "Disk I/O error, write": what SQLite says when the system refuses to let the file grow. */
const SQLITE_IOERR_WRITE = 778;

/** PostgreSQL's error codes (its documentation, appendix A), by code or by class of two characters. */
const POSTGRES_AWAY: Readonly<Record<string, AwayCode>> = {
  '08': 'gone',
  '57': 'gone',
  '53': 'full',
  '53300': 'busy',
  '57014': 'busy',
  '55P03': 'busy',
  '40': 'busy',
  '25006': 'read-only',
  '28': 'gone',
  '3D': 'gone',
  '58': 'gone',
  // No such table: whoever runs the server has it made anew, or filled from a copy.
  '42P01': 'tables',
  XX: 'damaged',
};

/** What the system says when a server or a file cannot be reached. */
const SYSTEM_AWAY: Readonly<Record<string, AwayCode>> = {
  ENOSPC: 'full',
  EDQUOT: 'full',
  EROFS: 'read-only',
  EACCES: 'gone',
  ENOENT: 'gone',
  ENOTDIR: 'gone',
  EEXIST: 'gone',
  ECONNREFUSED: 'gone',
  ECONNRESET: 'gone',
  EPIPE: 'gone',
  ETIMEDOUT: 'gone',
  EHOSTUNREACH: 'gone',
  ENETUNREACH: 'gone',
  ENOTFOUND: 'gone',
  EAI_AGAIN: 'gone',
  // A file that was closed because another one lies in its place.
  ERR_INVALID_STATE: 'gone',
};

/** What the PostgreSQL client says without a code when the connection is lost or not had in time. */
const LOST_CONNECTION = ['terminat', 'timeout', 'not queryable', 'connection error', 'Connection ended'];

/** Why storage is away, when that is what an error means; null for any other error. */
export function awayCode(error: unknown): AwayCode | null {
  if (error instanceof StorageAway) return error.code;
  if (!(error instanceof Error)) return null;
  if ('errcode' in error && typeof error.errcode === 'number') {
    if (error.errcode === SQLITE_IOERR_WRITE) return 'full';
    return SQLITE_AWAY[error.errcode & 0xff] ?? null;
  }
  if ('code' in error && typeof error.code === 'string') {
    const { code } = error;
    return SYSTEM_AWAY[code] ?? POSTGRES_AWAY[code] ?? POSTGRES_AWAY[code.slice(0, 2)] ?? null;
  }
  if (error instanceof AggregateError) return awayCode(error.errors[0]);
  return LOST_CONNECTION.some((words) => error.message.includes(words)) ? 'gone' : null;
}

/** Runs work and turns the engine's errors that mean "storage is away" into the one the desk knows. */
export async function orAway<Result>(work: () => Promise<Result>): Promise<Result> {
  try {
    return await work();
  } catch (error) {
    if (error instanceof StorageAway) throw error;
    const code = awayCode(error);
    throw code === null ? error : new StorageAway(code, { cause: error });
  }
}
