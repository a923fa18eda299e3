import { expect } from 'vitest';
import { type OpenRecords, openRecords } from '../../adapters/storage/open.ts';
import { openDesk } from '../../src/desk.ts';
import type { Place, Who } from '../../src/records/place.ts';
import type { Reply } from '../../src/request.ts';
import { cardText } from './card-text.ts';
import { person, place, type Storage, sqlite } from './storages.ts';

/** Noon on 25 November 2026, in universal time. */
export const NOON_MS = Date.UTC(2026, 10, 25, 12);

/** A club of its own with a desk: people talk to it by name, the clock stands at noon. */
export type Club = {
  readonly at: Place;
  readonly records: OpenRecords;
  readonly who: (name: string) => Who;
  /** What the desk replies to a line like `answer show hills` typed by somebody. */
  readonly says: (name: string, line: string, options?: Readonly<Record<string, string>>) => Promise<Reply>;
};

/** SQLite records in a file of their own, and as many clubs in them as are asked for. */
export async function openClubs(): Promise<{ readonly club: () => Club; readonly end: () => Promise<void> }> {
  const storage: Storage = await sqlite();
  const records = await openRecords(await storage.fresh());
  let clubs = 0;
  let byte = 0;
  const desk = openDesk({
    records,
    nowMs: () => NOON_MS,
    randomBytes: (count) => Uint8Array.from({ length: count }, (_, at) => (at === 0 ? ++byte : 7)),
  });
  return {
    club: () => {
      const at = place(`club:${++clubs}`);
      const who = (name: string): Who => ({ place: at, person: person(name) });
      return {
        at,
        records,
        who,
        says: async (name, line, options) => {
          const [command = '', ...rest] = line.split(' ');
          const request = { command, setup: rest.join(' '), ...(options === undefined ? {} : { options }) };
          const visitor = { who: who(name), roles: name.startsWith('mod') ? ['mods'] : [], runsPlace: false };
          const reply = await desk.ask({ request, visitor });
          expect(reply.card.answer.length, reply.card.answer).toBeLessThanOrEqual(120);
          expect(reply.card.lines.length, reply.card.lines.join('\n')).toBeLessThanOrEqual(5);
          return reply;
        },
      };
    },
    end: async () => {
      await records.close();
      await storage.end();
    },
  };
}

/** The data and the words of a reply about what is kept, or the test ends here saying what came instead. */
export function kept(reply: Reply): { readonly result: unknown; readonly words: string } {
  if (reply.kind !== 'kept') throw new Error(`${reply.kind}: ${cardText(reply.card)}`);
  return { result: reply.result, words: cardText(reply.card) };
}

/** The refusal in a reply, or the test ends here saying what came instead. */
export function refusal(reply: Reply) {
  if (reply.kind !== 'refused') throw new Error(`${reply.kind}: ${cardText(reply.card)}`);
  return reply.refusal;
}

/** The code an answer is kept under. */
export function codeOf(reply: Reply): string {
  if (reply.kind !== 'answered' || reply.receipt === undefined || reply.receipt === null) throw new Error(reply.kind);
  return reply.receipt.code;
}
