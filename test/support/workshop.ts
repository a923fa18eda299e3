import { randomBytes } from 'node:crypto';
import { type OpenRecords, openRecords } from '../../adapters/storage/open.ts';
import { openDesk } from '../../src/desk.ts';
import type { Person, Place } from '../../src/records/place.ts';
import type { Reply } from '../../src/request.ts';
import { cardText } from './card-text.ts';
import { person, place, type Storage } from './storages.ts';

const NINE_MS = Date.UTC(2026, 10, 25, 9);

export type Workshop = {
  readonly records: OpenRecords;
  /** Asks as somebody of the place; the word "boss" runs it. Every question comes a minute after the one before. */
  readonly say: (who: string, line: string) => Promise<Reply>;
  /** The same, and the reply must be of that kind: its words come back, or the refusal as one string. */
  readonly done: (who: string, line: string) => Promise<string>;
  readonly refused: (who: string, line: string) => Promise<string>;
  readonly at: Place;
  readonly as: (who: string) => { readonly place: Place; readonly person: Person };
};

/** A desk over real records in a file of its own, for as long as the storage lasts. */
export async function openWorkshop(storage: Storage): Promise<Workshop> {
  const records = await openRecords(await storage.fresh());
  const at = place('terminal');
  let minutes = 0;
  const desk = openDesk({
    records,
    nowMs: () => NINE_MS + minutes * 60_000,
    randomBytes: (bytes) => randomBytes(bytes),
  });
  const as = (who: string) => ({ place: at, person: person(who) });
  const say = (who: string, line: string) => {
    minutes += 1;
    const [command = ''] = line.split(' ', 1);
    const visitor = { who: as(who), roles: [], runsPlace: who === 'boss' };
    return desk.ask({ request: { command, setup: line.slice(command.length).trim() }, visitor });
  };
  return {
    records,
    say,
    at,
    as,
    done: async (who, line) => {
      const reply = await say(who, line);
      if (reply.kind !== 'kept') throw new Error(`${line}: ${reply.kind}, ${reply.card.answer}`);
      return cardText(reply.card);
    },
    refused: async (who, line) => {
      const reply = await say(who, line);
      if (reply.kind !== 'refused') throw new Error(`${line}: ${reply.kind}, ${reply.card.answer}`);
      const { field, message, allowed, example } = reply.refusal;
      return `${field}: ${message} ${allowed} ${example}`;
    },
  };
}
