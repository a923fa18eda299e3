import type { Desk } from './desk.ts';
import type { Delivery } from './records/delivery.ts';

/**
 * Remembers the last `most` ids and says whether one came before: platforms deliver again what they think was lost, and
 * a resumed session tells twice.
 */
export function openTwice(most: number): (id: string) => boolean {
  const seen = new Set<string>();
  return (id) => {
    if (seen.has(id)) return true;
    seen.add(id);
    for (const each of seen) {
      if (seen.size <= most) break;
      seen.delete(each);
    }
    return false;
  };
}

/** A desk for the work of one delivery: what it changes is changed once, also where another process got it as well. */
export function deskFor(delivery: Delivery, desk: Desk): Desk {
  return { ask: (asked) => desk.ask({ ...asked, delivery }) };
}
