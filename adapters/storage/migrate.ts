import { setTimeout as wait } from 'node:timers/promises';
import { Kysely } from 'kysely';
import { ConfigError } from '../../src/config-error.ts';
import { StorageAway } from '../../src/records/storage-away.ts';
import type { Where } from '../../src/records/where.ts';
import { readSecretFile } from '../settings/secret-files.ts';
import { readWhere } from './config.ts';
import { type Migrated, migrate } from './migrations.ts';
import { engineAt } from './open.ts';
import type { Tables } from './tables.ts';
import { awayCode, orAway } from './trouble.ts';

/** As long as a database takes to start beside this program, with room to spare (goal). */
const USUAL_WAIT_S = 60;

const PAUSE_MS = 500;

/**
 * Brings the tables up to date. A server that is not there yet, or one that somebody else is bringing up to date, is
 * tried again until the wait is over.
 *
 * @throws StorageAway when it was away until then
 * @throws ConfigError when the tables were made by a newer program, the URL is none, or the folder can never be made
 */
export async function bringUpToDate(where: Where, longestWaitMs: number): Promise<Migrated> {
  const engine = await engineAt(where);
  const db = new Kysely<Tables>({ dialect: engine.dialect });
  const deadlineMs = performance.now() + longestWaitMs;
  try {
    for (;;) {
      try {
        return await orAway(() => migrate(db, engine));
      } catch (error) {
        if (awayCode(error) === null || performance.now() + PAUSE_MS > deadlineMs) throw error;
        await wait(PAUSE_MS);
      }
    }
  } finally {
    await db.destroy();
  }
}

function said({ from, to }: Migrated): string {
  if (from === to) return `the tables are up to date (version ${to})`;
  return from === 0 ? `the tables are made (version ${to})` : `the tables are brought from version ${from} to ${to}`;
}

const USAGE = `Bring the tables of the records up to date.

  npm run migrate
  npm run migrate -- --wait <seconds>

A database that is not there yet is waited for: ${USUAL_WAIT_S} seconds, or as many as are named.`;

function readWait(args: readonly string[]): number {
  const [option, seconds = '', ...more] = args;
  if (option === undefined) return USUAL_WAIT_S;
  if (option !== '--wait' || !/^\d{1,5}$/.test(seconds) || more.length > 0) throw new ConfigError('migrate', USAGE);
  return Number(seconds);
}

/** Why it could not be done, in words that hold no setting. */
function why(error: unknown): string {
  if (error instanceof StorageAway) return `the records could not be used in time (${error.code}); begin again later`;
  if (error instanceof ConfigError) return error.message;
  const code = error instanceof Error && 'code' in error ? ` (${String(error.code)})` : '';
  return `the tables could not be brought up to date, and are as they were${code}`;
}

async function main(): Promise<void> {
  const waitS = readWait(process.argv.slice(2));
  process.stdout.write(
    `Ringwright: ${said(await bringUpToDate(readWhere(process.env, readSecretFile), waitS * 1000))}\n`,
  );
}

if (import.meta.main) {
  main().catch((error: unknown) => {
    process.stderr.write(`Ringwright: ${why(error)}\n`);
    process.exitCode = 1;
  });
}
