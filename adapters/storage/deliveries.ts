import { createHash } from 'node:crypto';
import { DeliveredBefore, type Delivery } from '../../src/records/delivery.ts';
import type { Scope } from './scope.ts';
import type { PlaceStore } from './store.ts';

/**
 * A store for the work of one delivery: its changes also keep, in the same transaction, that it was taken, or are undone
 * because somebody else took it. What only reads is as before.
 */
export function onceStore(store: PlaceStore, delivery: Delivery, atMs: number): PlaceStore {
  return {
    ...store,
    change: (place, work) =>
      store.change(place, async (at) => {
        await take(at.scope, delivery, atMs);
        return work(at);
      }),
  };
}

/** Two who take it at once come one after the other: the second waits here until the first has saved, or given up. */
async function take(scope: Scope, delivery: Delivery, atMs: number): Promise<void> {
  const taken = await scope
    .insertInto('deliveries')
    .values({ delivery: digest(delivery), taker: delivery.taker, at: atMs })
    .onConflict((conflict) => conflict.columns(['place', 'delivery']).doNothing())
    .returning('taker')
    .executeTakeFirst();
  if (taken === undefined && (await isOthers(scope, delivery))) throw new DeliveredBefore();
}

/** Whether somebody else took a delivery. */
export async function isOthers(scope: Scope, delivery: Delivery): Promise<boolean> {
  const taken = await scope
    .selectFrom('deliveries')
    .select('taker')
    .where('delivery', '=', digest(delivery))
    .executeTakeFirst();
  return taken !== undefined && taken.taker !== delivery.taker;
}

/** The digest of a platform's id has one length, and says nothing of whoever the id names. */
function digest({ id }: Delivery): string {
  return createHash('sha256').update(id).digest('base64url');
}
