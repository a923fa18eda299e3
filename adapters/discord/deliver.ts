import { z } from 'zod';
import { errorData, type Log } from '../../src/log.ts';
import type { Notice } from '../../src/notice.ts';
import { LIMITS } from './limits.ts';
import type { Handled } from './ports.ts';
import { type Ids, type Interactions, isBusyOrDown } from './rest.ts';
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

/** The ways to the platform, and who is told of what it refuses. */
export type Delivery = { readonly rest: Interactions; readonly notice?: Notice | undefined };

/** Sends the first answer as a request of its own. */
export async function sendFirst({ first, log }: Handled, ids: Ids, { rest, notice }: Delivery): Promise<boolean> {
  return first !== null && attempt(() => rest.callback(ids, first), log, notice);
}

/** Sends what comes after the first answer; a failure of the platform ends in the log. */
export async function sendLater(
  { later, log }: Handled,
  ids: Ids,
  { rest, notice }: Delivery,
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
    log,
    notice,
  );
}

/** What an error of the platform, or of the way there, may say of itself. */
type Told = { readonly code?: unknown; readonly status?: unknown };

async function attempt(send: () => Promise<void>, log: Log, notice: Notice | undefined): Promise<boolean> {
  try {
    await send();
    return true;
  } catch (error) {
    const told = (error ?? {}) as Told;
    const fault = faultCode(told);
    if (fault !== null) notice?.({ kind: 'fault', code: fault });
    const calm = CALM[Number(told.code)];
    if (calm === undefined) log.error(errorData(error), 'an answer could not be sent');
    else log.info({}, calm);
    return false;
  }
}

const CODES: ReadonlySet<unknown> = new Set(Object.values(FAULT));

/**
 * Why the platform did not take something: a code of its own that is known here, the status of its response, or neither.
 * Null where each of its responses was told already.
 */
function faultCode({ code, status }: Told): string | null {
  if (CODES.has(code)) return String(code);
  if (typeof status !== 'number') return 'unreachable';
  return isBusyOrDown(status) ? null : String(status);
}
