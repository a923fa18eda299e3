import type { Kysely } from 'kysely';
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
    return right ? preparing : within(preparing, LONGEST_WAIT_MS);
  };
}

async function within(work: Promise<void>, longestMs: number): Promise<void> {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const late = new Promise<never>((_, reject) => {
    timer = setTimeout(() => reject(new StorageAway('tables')), longestMs);
  });
  try {
    await Promise.race([work, late]);
  } finally {
    clearTimeout(timer);
  }
}
