import { afterAll, beforeAll, describe } from 'vitest';
import { type OpenRecords, openRecords } from '../../adapters/storage/open.ts';
import type { Where } from '../../src/records/where.ts';
import type { Storage } from '../support/storages.ts';
import { answersContract } from './contract-answers.ts';
import { bikesContract } from './contract-bikes.ts';
import { deliveriesContract } from './contract-deliveries.ts';
import { installationsContract } from './contract-installations.ts';
import { jobsContract } from './contract-jobs.ts';
import { privacyContract } from './contract-privacy.ts';
import { receiptsContract } from './contract-receipts.ts';

/** The records under test, to be asked for within a test: they are opened only when the tests run. */
export type UnderTest = {
  readonly records: () => OpenRecords;
  readonly where: () => Where;
  readonly storage: () => Storage;
};

/** What the port promises, whatever is beneath it. */
export function contract(name: string, start: () => Promise<Storage>): void {
  describe(`records on ${name}`, () => {
    let storage: Storage;
    let where: Where;
    let records: OpenRecords;
    beforeAll(async () => {
      storage = await start();
      where = await storage.fresh();
      records = await openRecords(where);
    });
    afterAll(async () => {
      await records.close();
      await storage.end();
    });
    const under: UnderTest = { records: () => records, where: () => where, storage: () => storage };

    bikesContract(under);
    answersContract(under);
    jobsContract(under);
    receiptsContract(under);
    privacyContract(under);
    installationsContract(under);
    deliveriesContract(under);
  });
}
