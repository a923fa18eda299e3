import type { OpenRecords } from '../../adapters/storage/open.ts';
import type { Place } from '../../src/records/place.ts';
import type { Settings } from '../../src/records/settings.ts';

type Receipts = OpenRecords['receipts'];
type Kept = Awaited<ReturnType<Receipts['read']>>;

/**
 * Records whose receipts stay in memory, and whose settings are read once: most of the time of a line would else go to
 * writing down what nobody comes back to. All else is kept as ever.
 */
export function lightRecords(records: OpenRecords): OpenRecords {
  const receipts = new Map<string, Kept>();
  const settings = new Map<Place, Promise<Settings>>();
  return {
    ...records,
    receipts: {
      ...records.receipts,
      keep: ({ place, person }, receipt, atMs) => {
        receipts.set(`${place} ${receipt.code}`, { ...receipt, owner: { kind: 'person', person }, atMs });
        return Promise.resolve({ kind: 'kept' });
      },
      read: async (place, code) => receipts.get(`${place} ${code}`) ?? records.receipts.read(place, code),
    },
    settings: {
      ...records.settings,
      read: (place) => {
        const read = settings.get(place) ?? records.settings.read(place);
        settings.set(place, read);
        return read;
      },
      change: async (...told) => {
        settings.clear();
        return records.settings.change(...told);
      },
    },
  };
}
