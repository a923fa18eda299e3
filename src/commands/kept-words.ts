import type { Request } from '../request.ts';

/** The commands about what is kept; a test holds this list to `kept-list.ts`, which is dear to load. */
export const KEPT_NAMES: readonly string[] = ['bike', 'answer', 'job', 'data', 'settings'];

/** `bike=winter` or `bike="my winter bike"` anywhere in a setup line. */
export const BIKE_NAMED = /(?:^|[\s,])bike\s*=\s*(?:"([^"]*)"|“([^”]*)”|(\S+?))(?=$|[\s,])/iu;

/** `#7K3M9Q2A` at the start of a setup line. */
export const RECEIPT_NAMED = /^\s*#(\S+)\s*/u;

/** Whether a request speaks of something kept, so that it cannot be answered without the records. */
export function asksOfKept({ command, setup, options }: Request): boolean {
  return (
    KEPT_NAMES.includes(command.trim().toLowerCase()) ||
    options?.bike !== undefined ||
    BIKE_NAMED.test(setup) ||
    RECEIPT_NAMED.test(setup)
  );
}
