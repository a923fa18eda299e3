import { performance } from 'node:perf_hooks';
import { DeliveredBefore } from '../../src/records/delivery.ts';
import type { Records } from '../../src/records/records.ts';
import { StorageAway } from '../../src/records/storage-away.ts';
import type { Metrics } from './metrics.ts';

type Store = Pick<Metrics, 'store' | 'storeError'>;

/** Records whose operations are timed, and counted where they fail; what else an opened storage can do stays as it is. */
export function watchedRecords<Opened extends Records>(records: Opened, store: Store): Opened {
  return { ...records, ...watchedParts(records, store) };
}

function watchedParts(records: Records, store: Store): Records {
  const { deliveries } = records;
  const { isOthers } = watched('deliveries', { isOthers: deliveries.isOthers }, store);
  return {
    bikes: watched('bikes', records.bikes, store),
    answers: watched('answers', records.answers, store),
    jobs: watched('jobs', records.jobs, store),
    receipts: watched('receipts', records.receipts, store),
    settings: watched('settings', records.settings, store),
    privacy: watched('privacy', records.privacy, store),
    installations: watched('installations', records.installations, store),
    deliveries: { once: (delivery, atMs) => watchedParts(deliveries.once(delivery, atMs), store), isOthers },
  };
}

type Operation = (...told: readonly never[]) => Promise<unknown>;

/** One part of the records: every function of it is an operation, named by the part and itself. */
function watched<Part extends Readonly<Record<string, Operation>>>(name: string, part: Part, store: Store): Part {
  const timed = Object.entries(part).map(([each, work]) => [each, timedAs(`${name}.${each}`, work, store)] as const);
  return Object.fromEntries(timed) as Part;
}

function timedAs(operation: string, work: Operation, { store, storeError }: Store): Operation {
  return async (...told) => {
    const fromMs = performance.now();
    try {
      return await work(...told);
    } catch (error) {
      // That somebody else was quicker is no failure.
      if (error instanceof StorageAway) storeError(operation, error.code);
      else if (!(error instanceof DeliveredBefore)) storeError(operation, 'other');
      throw error;
    } finally {
      store(operation, (performance.now() - fromMs) / 1000);
    }
  };
}
