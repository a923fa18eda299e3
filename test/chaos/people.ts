import { setTimeout as wait } from 'node:timers/promises';
import type { Chance } from './chance.ts';
import { type Deed, newScript, question, type Script, settings } from './deeds.ts';
import type { Again, Asker, Front, Shown } from './front.ts';
import type { Entry } from './ledger.ts';
import { STORAGE, type Weather } from './weather.ts';

/** How a text question fared: what it was owed, and what it got. */
export type Asked = {
  readonly front: string;
  /** What was broken meanwhile; `owed` where nothing but the storage was. */
  readonly storage: readonly string[];
  readonly owed: boolean;
  readonly firstMs: number | null;
  readonly wordsMs: number | null;
};

/** Everything that was asked, and what came of it. */
export type Book = { readonly entries: Entry[]; readonly asked: Asked[]; readonly again: Map<Again, number> };

/** How often a delivery comes twice. */
const SHARES = { same: 0.06, other: 0.08, later: 0.05 } as const;

/** As much of an answer as tells which it was. */
const SHOWN = 1500;

/** Who has had no answer does not ask again at once. */
const DISHEARTENED_MS = { low: 300, high: 1000 } as const;

/** Each front has places of its own; in the last of them a second person approves. */
export const PLACES_EACH = 3;
export const APPROVING = PLACES_EACH - 1;

/** Two hundred people a worker, so that nobody asks faster than people may. */
const PEOPLE_EACH = 200;

function againOf(chance: Chance): Again {
  const at = chance.next();
  if (at < SHARES.same) return 'same';
  if (at < SHARES.same + SHARES.other) return 'other';
  return at < SHARES.same + SHARES.other + SHARES.later ? 'later' : 'no';
}

function entered(book: Book, front: Front, deed: Deed, shown: Shown, askedMs: number, again: Again): Entry {
  const { trace, isKept } = deed;
  const isDone = shown.words !== '' && isKept(shown.words);
  const entry: Entry = {
    front: front.name,
    what: deed.action === null ? deed.command : `${deed.command} ${deed.action}`,
    trace,
    told: shown.words === '' ? 'unanswered' : isDone ? 'acknowledged' : 'refused',
    askedMs,
    untilMs: performance.now(),
    code: trace.kind === 'receipt' && isDone ? (/#([0-9A-HJKMNP-TV-Z]{8})\b/.exec(shown.words)?.[1] ?? null) : null,
    processes: shown.processes,
    came: `(asked at ${Math.round(askedMs)} ms, again: ${again}, shown: ${shown.words.slice(0, SHOWN)})`,
  };
  book.entries.push(entry);
  book.again.set(again, (book.again.get(again) ?? 0) + 1);
  return entry;
}

/** Goes through a script, one deed after the other, each with its outcome. */
async function play(script: Script, front: Front, pair: readonly [Asker, Asker], chance: Chance, book: Book) {
  for (let step = script.next(); !step.done; ) {
    const { deed, by } = step.value;
    const askedMs = performance.now();
    const again = againOf(chance);
    const shown = await front.ask(deed, by === 'first' ? pair[0] : pair[1], again);
    const { told } = entered(book, front, deed, shown, askedMs, again);
    if (told === 'unanswered') await wait(chance.between(DISHEARTENED_MS.low, DISHEARTENED_MS.high));
    step = script.next({ kept: told === 'acknowledged', shown: shown.words });
    await wait(chance.between(10, 120));
  }
}

/** Somebody who does one thing after the other until it is over. */
export async function work(
  front: Front,
  worker: number,
  isOver: () => boolean,
  jobs: ReadonlyMap<number, number[]>,
  chance: Chance,
  book: Book,
): Promise<void> {
  for (let turn = 0; !isOver(); turn += 1) {
    const place = chance.pick([...jobs.keys()]);
    const person = worker * PEOPLE_EACH + ((turn * 2) % PEOPLE_EACH);
    const first = { place, person, runsPlace: true };
    const approvals = place % PLACES_EACH === APPROVING;
    const script = newScript({
      place: front.placeName(place),
      person: front.personName(person),
      approvals,
      jobs: jobs.get(place) ?? [],
      chance,
    });
    await play(script, front, [first, { ...first, person: person + 1 }], chance, book);
    await wait(chance.between(10, 120));
  }
}

/** Whoever runs a place changes its settings now and then; nobody else does. */
export async function govern(front: Front, place: number, isOver: () => boolean, chance: Chance, book: Book) {
  for (let turn = 0; !isOver(); turn += 1) {
    const boss = { place, person: 9000 + place * 10 + (turn % 10), runsPlace: true };
    await play(untilOver(settings(front.placeName(place), chance), isOver), front, [boss, boss], chance, book);
    await wait(chance.between(500, 1500));
  }
}

function* untilOver(script: Script, isOver: () => boolean): Script {
  for (let step = script.next(); !step.done && !isOver(); ) step = script.next(yield step.value);
}

/** People who ask about bikes, one every so often, whether or not the ones before have their answers. */
export async function wonder(
  front: Front,
  places: readonly number[],
  everyMs: number,
  isOver: () => boolean,
  { chance, weather, book }: { readonly chance: Chance; readonly weather: Weather; readonly book: Book },
): Promise<void> {
  const waiting = new Set<Promise<void>>();
  for (let turn = 0; !isOver(); turn += 1) {
    const place = chance.pick(places);
    const asker = { place, person: 8000 + (turn % 900), runsPlace: false };
    const one = async () => {
      const deed = question(front.placeName(place));
      const askedMs = performance.now();
      const again = againOf(chance);
      const shown = await front.ask(deed, asker, again);
      entered(book, front, deed, shown, askedMs, again);
      const untilMs = performance.now();
      book.asked.push({
        front: front.name,
        storage: weather.between(STORAGE, askedMs, untilMs),
        owed: weather.between(front.name, askedMs, untilMs).length === 0,
        firstMs: shown.firstMs,
        wordsMs: deed.isKept(shown.words) ? shown.wordsMs : null,
      });
    };
    const asking = one().finally(() => waiting.delete(asking));
    waiting.add(asking);
    await wait(everyMs);
  }
  await Promise.all(waiting);
}
