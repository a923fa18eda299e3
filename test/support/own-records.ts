import { afterAll, beforeAll } from 'vitest';
import { type OpenRecords, openRecords } from '../../adapters/storage/open.ts';
import { type Storage, sqlite } from './storages.ts';

/** Records for the tests of one file, which are gone after the last of them. */
export function ownRecords(): () => OpenRecords {
  let storage: Storage;
  let records: OpenRecords;
  beforeAll(async () => {
    storage = await sqlite();
    records = await openRecords(await storage.fresh());
  });
  afterAll(async () => {
    await records.close();
    await storage.end();
  });
  return () => records;
}
