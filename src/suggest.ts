import { sayBack } from './bike/say-back.ts';
import type { Field } from './commands/kept.ts';
import { nameKey } from './records/names.ts';
import type { Who } from './records/place.ts';
import type { Records } from './records/records.ts';
import { BOLT_CIRCLES } from './tables/bolt-circles.ts';
import { CASSETTE_RANGES, CASSETTES } from './tables/cassettes.ts';
import { TYRE_CIRCUMFERENCES } from './tables/tyre-circumferences.ts';

/** Something a person may pick while typing: what it reads like, and what is then told. */
export type Suggestion = { readonly label: string; readonly value: string };

/** What there is to pick from: what is kept, or what the tables hold. */
export type Suggested = Exclude<Field['suggest'], undefined> | 'cassettes' | 'circles' | 'wheels';

/** As many as the platforms show at once. */
const MOST = 25;

const CASSETTE_LISTS: readonly Suggestion[] = [
  ...CASSETTES.map(({ speeds, sprockets }) => {
    const value = sprockets.join('-');
    return { label: `${sprockets[0]}-${sprockets.at(-1)}, ${speeds}-speed: ${value}`, value };
  }),
  ...[...new Set(CASSETTE_RANGES.map(({ smallestTeeth, largestTeeth }) => `${smallestTeeth}-${largestTeeth}`))].map(
    (range) => ({ label: `${range}, only its ends`, value: range }),
  ),
];

const CIRCLES: readonly Suggestion[] = circles();

const WHEELS: readonly Suggestion[] = TYRE_CIRCUMFERENCES.map(({ widthMm, beadSeatMm }) => ({
  label: `${widthMm}-${beadSeatMm}`,
  value: `${widthMm}-${beadSeatMm}`,
})).reverse();

/** Each circle once, with the bolts it is made with; those on cranks that get converted come first. */
function circles(): readonly Suggestion[] {
  const usualFirst = [...BOLT_CIRCLES].sort((a, b) => usual(b.usualLargestTeeth) - usual(a.usualLargestTeeth));
  const bolts = new Map<number, number[]>();
  for (const { bcdMm, bolts: count } of usualFirst) bolts.set(bcdMm, [...(bolts.get(bcdMm) ?? []), count]);
  return [...bolts].map(([bcdMm, counts]) => ({
    label: `${bcdMm} mm, ${counts.sort().join(' or ')} bolts`,
    value: String(bcdMm),
  }));
}

function usual(largestTeeth: number | null): number {
  return largestTeeth === null ? 0 : 1;
}

/** What fits the words typed so far, at most {@link MOST}. */
export async function suggest(
  what: Suggested,
  typed: string,
  who: Who,
  records: Records,
): Promise<readonly Suggestion[]> {
  if (what === 'topics') return topics(typed, who, records);
  const words = nameKey(typed).split(' ');
  const all = await allOf(what, who, records);
  return all.filter(({ label }) => words.every((word) => nameKey(label).includes(word))).slice(0, MOST);
}

async function allOf(what: Exclude<Suggested, 'topics'>, who: Who, records: Records): Promise<readonly Suggestion[]> {
  switch (what) {
    case 'cassettes':
      return CASSETTE_LISTS;
    case 'circles':
      return CIRCLES;
    case 'wheels':
      return WHEELS;
    case 'bikes': {
      const { own, shared } = await records.bikes.list(who);
      return [...own, ...shared].map(({ name, bike }) => ({ label: `${name}: ${sayBack(bike)}`, value: name }));
    }
    case 'jobs': {
      const heads = await records.jobs.list(who.place, 'open', Number.POSITIVE_INFINITY, MOST);
      return heads.map(({ job, title }) => ({ label: `${job}: ${title}`, value: String(job) }));
    }
    case 'receipts': {
      const heads = await records.receipts.latest(who);
      return heads.map(({ code, command, setup }) => ({ label: `#${code} ${command} ${setup}`, value: `#${code}` }));
    }
  }
}

/** Every topic while nothing is typed, else those whose name or text has the words, else those spelt nearly like them. */
async function topics(typed: string, { place }: Who, { answers }: Records): Promise<readonly Suggestion[]> {
  if (typed.trim() === '') return (await answers.list(place, '', MOST)).map(({ topic }) => named(topic));
  const { topics: found, near } = await answers.find(place, typed, MOST);
  return found.length > 0 ? found.map(({ topic }) => named(topic)) : near.map(named);
}

function named(topic: string): Suggestion {
  return { label: topic, value: topic };
}
