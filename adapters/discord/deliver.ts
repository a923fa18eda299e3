import { z } from 'zod';
import { errorData, type Log } from '../../src/log.ts';
import { LIMITS } from './limits.ts';
import type { Handled } from './ports.ts';
import type { Ids, Interactions } from './rest.ts';
import { FAULT } from './wire.ts';

const Answerable = z.object({ id: z.string(), application_id: z.string(), token: z.string() });

/** By what a payload is answered; null where it is none that can be. */
export function idsOf(payload: unknown): Ids | null {
  const { data } = Answerable.safeParse(payload);
  return data === undefined ? null : { id: data.id, application: data.application_id, token: data.token };
}

/** Not our fault and nothing to mend: the platform gave up waiting, or another session of the same shard was quicker. */
const CALM: Readonly<Record<number, string>> = {
  [FAULT.unknownInteraction]: 'an answer came too late',
  [FAULT.invalidToken]: 'an answer came after its time',
  [FAULT.alreadyAcknowledged]: 'an interaction was answered by somebody else',
};

/** Sends the first answer as a request of its own. */
export async function sendFirst(handled: Handled, ids: Ids, rest: Interactions, log: Log): Promise<boolean> {
  if (handled.first === null) return false;
  const { first } = handled;
  return attempt(() => rest.callback(ids, first), ids, log);
}

/** Sends what comes after the first answer; a failure of the platform ends in the log. */
export async function sendLater(
  { later }: Handled,
  ids: Ids,
  rest: Interactions,
  log: Log,
  ageMs: () => number,
): Promise<void> {
  if (later === null) return;
  const sender = rest.sender(ids);
  // After a quarter of an hour the platform takes nothing more for this interaction.
  const timely =
    <Args extends readonly unknown[], Result>(send: (...args: Args) => Promise<Result>) =>
    (...args: Args): Promise<Result> => {
      if (ageMs() > LIMITS.tokenMs) throw Object.assign(new Error('too late'), { code: FAULT.invalidToken });
      return send(...args);
    };
  await attempt(
    () =>
      later({
        ...sender,
        edit: timely(sender.edit),
        follow: timely(sender.follow),
        remove: timely(sender.remove),
      }),
    ids,
    log,
  );
}

async function attempt(send: () => Promise<void>, { id }: Ids, log: Log): Promise<boolean> {
  try {
    await send();
    return true;
  } catch (error) {
    const calm = CALM[Number((error as { readonly code?: unknown }).code)];
    if (calm === undefined) log.error({ id, ...errorData(error) }, 'an answer could not be sent');
    else log.info({ id }, calm);
    return false;
  }
}
