import type { OpenRecords } from '../../adapters/storage/open.ts';
import type { Place } from '../../src/records/place.ts';
import type { Records } from '../../src/records/records.ts';
import type { Settings } from '../../src/records/settings.ts';

type Kept = Awaited<ReturnType<Records['receipts']['read']>>;

/**
 * Records whose receipts stay in memory, and whose settings are read once: most of the time of a line would else go to
 * writing down what nobody comes back to. All else is kept as ever.
 */
export function lightRecords(records: OpenRecords): OpenRecords {
  const receipts = new Map<string, Kept>();
  const settings = new Map<Place, Promise<Settings>>();
  // The records for the work of a delivery change the same settings, and so are made light with the same memory.
  const light = (kept: Records): Records => ({
    ...kept,
    receipts: {
      ...kept.receipts,
      keep: ({ place, person }, receipt, atMs) => {
        receipts.set(`${place} ${receipt.code}`, { ...receipt, owner: { kind: 'person', person }, atMs });
        return Promise.resolve({ kind: 'kept' });
      },
      read: async (place, code) => receipts.get(`${place} ${code}`) ?? kept.receipts.read(place, code),
    },
    settings: {
      ...kept.settings,
      read: (place) => {
        const read = settings.get(place) ?? kept.settings.read(place);
        settings.set(place, read);
        return read;
      },
      change: async (...told) => {
        try {
          return await kept.settings.change(...told);
        } finally {
          // Not before: somebody may read while they are being changed.
          settings.clear();
        }
      },
    },
    deliveries: { ...kept.deliveries, once: (...told) => light(kept.deliveries.once(...told)) },
  });
  return { ...records, ...light(records) };
}
