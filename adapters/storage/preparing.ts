import type { Kysely } from 'kysely';
import { type Timer, within } from '../../src/patience.ts';
import { StorageAway } from '../../src/records/storage-away.ts';
import type { Engine } from './engine.ts';
import { isUpToDate, migrate } from './migrations.ts';
import type { Tables } from './tables.ts';

/** Who brings the tables up to date: whoever opens the records, or somebody else, who is waited for. */
export type Migrating = 'start' | 'wait';

/** A question is told so after as long as a statement may take; bringing the tables up to date goes on meanwhile. */
const LONGEST_WAIT_MS = 2500;

/**
 * Gives a function that settles when the tables are right. It works at it once, however many wait; what failed is tried
 * again by the next who asks.
 *
 * @throws StorageAway `tables` while they are not right, or what keeps one from looking
 * @throws ConfigError `schema-newer`
 */
export function openPreparing(db: Kysely<Tables>, engine: Engine, migrating: Migrating): () => Promise<void> {
  let right = false;
  let preparing: Promise<void> | null = null;
  const prepare = async () => {
    if (migrating === 'start') await migrate(db, engine);
    else if (!(await isUpToDate(db))) throw new StorageAway('tables');
    right = true;
  };
  return () => {
    preparing ??= prepare().catch((error: unknown) => {
      preparing = null;
      throw error;
    });
    return right ? preparing : inTime(preparing);
  };
}

async function inTime(preparing: Promise<void>): Promise<void> {
  const isRight = await within(
    preparing.then(() => true),
    LONGEST_WAIT_MS,
    timer,
  );
  if (isRight === null) throw new StorageAway('tables');
}

/** Keeps the program from ending: whoever waits is still to be told. */
const timer: Timer = (ms, ring) => {
  const running = setTimeout(ring, ms);
  return () => clearTimeout(running);
};
