import { type Payload, slash } from '../support/discord-payloads.ts';
import { nthSetup } from './setups.ts';

/** So many that nobody asks faster than people may; most of them come back, as people do. */
const PLACES = 1000;
const PEOPLE = 4000;

/** Who asks next, where, and which line. */
export type Turn = { readonly person: number; readonly place: number; readonly setup: string };

let asked = 0;

/** The next to ask: each is somebody of another club, about another bike. */
export function nextTurns(count: number): readonly Turn[] {
  return Array.from({ length: count }, () => {
    asked += 1;
    return { person: asked % PEOPLE, place: asked % PLACES, setup: nthSetup(asked) };
  });
}

/** The questions of the next to ask, as Discord sends them. */
export function discordPayloads(count: number): readonly Payload[] {
  return nextTurns(count).map(({ person, place, setup }) => {
    const who = { id: String(500_000_000_000_000_000n + BigInt(person)) };
    const server = String(100_000_000_000_000_000n + BigInt(place));
    return slash(who, 'convert', { setup }, undefined, { server });
  });
}
