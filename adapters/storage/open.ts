import { dirname } from 'node:path';
import { ConfigError } from '../../src/config-error.ts';
import type { Records } from '../../src/records/records.ts';
import { StorageAway } from '../../src/records/storage-away.ts';
import type { Where } from '../../src/records/where.ts';
import { answersIn } from './answers.ts';
import { bikesIn } from './bikes.ts';
import { isOthers, onceStore } from './deliveries.ts';
import type { Engine } from './engine.ts';
import { makeFolder } from './folder.ts';
import { installationsIn } from './installations.ts';
import { jobsIn } from './jobs.ts';
import type { Migrating } from './preparing.ts';
import { privacyIn } from './privacy.ts';
import { type Keep, keepingAlone, keepingTogether } from './receipt-keeping.ts';
import { receiptsIn } from './receipts.ts';
import { settingsIn } from './settings.ts';
import { openStore, type PlaceStore, type Store, type TablesState } from './store.ts';

export type OpenRecords = Records & {
  /** How the storage was found last; asks nobody and takes no time. */
  readonly tables: () => TablesState;
  readonly close: () => Promise<void>;
};

/**
 * Opens the records. A storage that is away now does not stand in the way, nor do tables that somebody else is to bring
 * up to date (`migrating` is `wait`): the records are tried again with every question, and come back by themselves.
 *
 * @throws ConfigError when the tables were made by a newer program, the URL is none, or the folder can never be made
 */
export async function openRecords(where: Where, migrating: Migrating = 'start'): Promise<OpenRecords> {
  const store = openStore(await engineAt(where), { migrating });
  try {
    await store.everywhere(() => Promise.resolve());
  } catch (error) {
    if (!(error instanceof StorageAway)) {
      await store.close();
      throw error;
    }
  }
  return { ...recordsIn(store), tables: store.tables, close: store.close };
}

/**
 * The engine for a place to keep things; only the one that is asked for is loaded.
 *
 * @throws ConfigError when the URL is none, or the folder can never be made
 */
export async function engineAt(where: Where): Promise<Engine> {
  if ('url' in where) return (await import('./postgres.ts')).postgresEngine(where.url);
  await haveFolder(dirname(where.path));
  return (await import('./sqlite.ts')).sqliteEngine(where.path);
}

/** Makes the folder of the file. What else keeps one from it may pass, as a disk that is away does: it is tried again. */
async function haveFolder(folder: string): Promise<void> {
  try {
    await makeFolder(folder);
  } catch (error) {
    if (error instanceof ConfigError) throw error;
  }
}

export function recordsIn(store: Store): Records {
  return recordsOf(store, keepingTogether(store));
}

function recordsOf(store: PlaceStore, keep: Keep): Records {
  return {
    bikes: bikesIn(store),
    answers: answersIn(store),
    jobs: jobsIn(store),
    receipts: receiptsIn(store, keep),
    settings: settingsIn(store),
    privacy: privacyIn(store),
    installations: installationsIn(store),
    deliveries: {
      once: (delivery, atMs) => {
        const claiming = onceStore(store, delivery, atMs);
        return recordsOf(claiming, keepingAlone(claiming));
      },
      isOthers: (place, delivery) => store.read(place, ({ scope }) => isOthers(scope, delivery)),
    },
  };
}
