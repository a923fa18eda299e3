import { setTimeout as wait } from 'node:timers/promises';
import { openRecords } from '../../adapters/storage/open.ts';
import { readPerson, readPlace } from '../../src/records/place.ts';
import type { Where } from '../../src/records/where.ts';
import type { Breakage, Stage } from './breakages.ts';
import { type Chance, openChance } from './chance.ts';
import { type Crew, openCrew } from './crew.ts';
import { DISCORD_TOKEN, discordGateway, discordHttp } from './discord-fronts.ts';
import { foundByRecords, foundBySql } from './found.ts';
import { LATER_MS } from './front.ts';
import { type Audit, audit } from './ledger.ts';
import { errorsIn, logFaults } from './logs.ts';
import { APPROVING, type Book, govern, PLACES_EACH, wonder, work } from './people.ts';
import { SLACK_SECRETS, slackHttp, slackSocket } from './slack-fronts.ts';
import { openSurroundings, type Surroundings } from './surroundings.ts';
import { until } from './waiting.ts';
import { openWeather, type Weather } from './weather.ts';
import { watchSaved } from './witness.ts';

export type Plan = {
  readonly seed: number;
  readonly engine: 'PostgreSQL' | 'SQLite';
  readonly forMs: number;
  /** How many processes serve each way in. */
  readonly processes: number;
  /** How many people keep things at each way in, at the same time. */
  readonly workers: number;
  readonly questionEveryMs: number;
  readonly brokenMs: Stage['brokenMs'];
  /** How long nothing of a list is broken, before the next of it is. */
  readonly calmMs: { readonly low: number; readonly high: number };
  /** What may be broken; two at the same time at most, one of each list. */
  readonly breakages: readonly [readonly Breakage[], readonly Breakage[]];
  /** Whether every breakage comes once, in order, or any of them by chance until the time is over. */
  readonly order: 'each once' | 'by chance';
};

export type Outcome = {
  readonly plan: Plan;
  readonly book: Book;
  readonly weather: Weather;
  /** The store as plain SQL finds it, and as the program's own records do. */
  readonly bySql: Audit;
  readonly byRecords: Audit;
  /** Whatever else went wrong: ends, logs, requests taken wrongly, memory. */
  readonly faults: readonly string[];
  readonly held: readonly string[];
  /** What the programs logged as faults of ours, with how often. */
  readonly errors: ReadonlyMap<string, number>;
};

/** Nothing breaks before something is kept by every way in: the first of everything takes longest. */
const WARM_MS = 20_000;
/** A process is whole again and calm after this. */
const CALM_MS = 1500;
/** Goals of our own: a small board has this much for a process, and a process this many files and sockets. */
const MOST_MEMORY_MB = 400;
const MOST_HANDLES = 150;

/** Runs the programs, people and breakages of a plan, and then looks what is there. */
export async function run(plan: Plan): Promise<Outcome> {
  const opened = new AsyncDisposableStack();
  try {
    return await ran(plan, await openSurroundings(plan.engine, opened), opened);
  } finally {
    await opened.disposeAsync();
  }
}

async function ran(plan: Plan, around: Surroundings, opened: AsyncDisposableStack): Promise<Outcome> {
  const { discord, slack, storage, where, settings } = around;
  const chance = openChance(plan.seed);
  const crews: Crew[] = [];
  const portsOf = (at: number) => () => crews[at]?.serving().flatMap((each) => each.port() ?? []) ?? [];
  const count = plan.processes;
  const onDiscord = (at: number) => ({
    double: discord.double,
    origin: discord.proxy.origin,
    ports: portsOf(at),
    count,
    chance: chance.apart(`front ${at}`),
  });
  const onSlack = (at: number) => ({ ...slack, ports: portsOf(at), count, chance: chance.apart(`front ${at}`) });
  const fronts = [
    discordHttp(onDiscord(0)),
    discordGateway(onDiscord(1)),
    slackHttp(onSlack(2)),
    slackSocket(onSlack(3)),
  ];
  const placesOf = (at: number) => Array.from({ length: PLACES_EACH }, (_, each) => at * PLACES_EACH + each);
  await prepared(
    where,
    fronts.map((front, at) => front.placeName(at * PLACES_EACH + APPROVING)),
  );
  for (const front of fronts) crews.push(openCrew(front, settings));
  opened.defer(() => {
    for (const each of crews.flatMap((crew) => crew.all)) each.kill('SIGKILL');
  });
  await Promise.all(crews.map((crew) => crew.ready()));

  const weather = openWeather();
  const stage: Stage = {
    crews,
    discord,
    slack,
    storage,
    weather,
    chance: chance.apart('breakages'),
    brokenMs: plan.brokenMs,
  };
  const book: Book = { entries: [], asked: [], again: new Map() };
  const faults: string[] = [];

  let over = false;
  const isOver = () => over;
  const jobs = fronts.map((_, at) => new Map(placesOf(at).map((place) => [place, [] as number[]])));
  const busy = fronts.flatMap((front, at) => {
    const own = chance.apart(front.name);
    const workers = Array.from({ length: plan.workers }, (_, each) =>
      work(front, each + 1, isOver, jobs[at] ?? new Map(), own.apart(`${each}`), book),
    );
    const boss = govern(front, at * PLACES_EACH, isOver, own.apart('boss'), book);
    const asking = wonder(front, placesOf(at), plan.questionEveryMs, isOver, { chance: own, weather, book });
    return [...workers, boss, asking, litter(front, isOver, own, faults)];
  });
  await until(() => (fronts.every(({ name }) => isWarm(book, name)) ? true : null), WARM_MS);
  await Promise.all(
    plan.breakages.map((list, at) => breaking(list, plan, { ...stage, chance: chance.apart(`${at}`) })),
  );
  over = true;
  await Promise.all(busy);
  await wait(LATER_MS.high + CALM_MS);

  const held = crews.flatMap(({ front, serving }) => serving().map((each) => ({ front, held: each.held() })));
  await Promise.all(crews.map((crew) => crew.end()));
  const places = fronts.flatMap((front, at) => placesOf(at).map(front.placeName));
  const found = await foundBySql(where);
  const bySql = audit(book.entries, found);
  const byRecords = audit(book.entries, await foundByRecords(where, places, book.entries, found.history));
  for (const each of held) {
    if (each.held === null) continue;
    if (each.held.memoryMb > MOST_MEMORY_MB) faults.push(`${each.front.name} holds ${each.held.memoryMb} MB`);
    if (each.held.handles > MOST_HANDLES)
      faults.push(`${each.front.name} holds ${each.held.handles} files and sockets`);
  }
  const secrets = [DISCORD_TOKEN, ...SLACK_SECRETS, 'only-for-tests'];
  faults.push(
    ...crews.flatMap((crew) => [
      ...crew.faults,
      ...crew.all.flatMap((each) => logFaults(crew.front.name, each, secrets)),
    ]),
    ...discord.double.faults.map((fault) => `Discord would refuse: ${fault}`),
    ...slack.double.platform.faults.map((fault) => `Slack would refuse: ${fault}`),
  );
  return {
    plan,
    book,
    weather,
    bySql,
    byRecords,
    faults,
    errors: errorsIn(crews.flatMap((crew) => crew.all)),
    held: held.flatMap((each) =>
      each.held === null
        ? []
        : [`${each.front.name}: ${each.held.memoryMb} MB, ${each.held.handles} files and sockets`],
    ),
  };
}

function isWarm({ entries }: Book, front: string): boolean {
  return entries.some((each) => each.front === front && each.trace.kind !== 'receipt' && each.told === 'acknowledged');
}

/** The tables, and the places in which a second person approves. */
async function prepared(where: Where, approving: readonly string[]): Promise<void> {
  const records = await openRecords(where);
  for (const name of approving) {
    const place = readPlace(name);
    const person = readPerson('whoever-runs-it');
    if (place === null || person === null) throw new Error('a place and a person are needed');
    await records.settings.change({ place, person }, { approvals: true }, Date.now());
  }
  await records.close();
  await watchSaved(where);
}

/** One breakage after the other, with a calm moment in between. */
async function breaking(list: readonly Breakage[], plan: Plan, stage: Stage): Promise<void> {
  const endMs = performance.now() + plan.forMs;
  const pause = () => wait(stage.chance.between(plan.calmMs.low, plan.calmMs.high));
  if (plan.order === 'each once') {
    for (const each of list) {
      await pause();
      await each.run(stage);
    }
    return;
  }
  while (performance.now() < endMs) {
    await pause();
    await stage.chance.pick(list).run(stage);
  }
}

async function litter(front: Crew['front'], isOver: () => boolean, chance: Chance, faults: string[]) {
  while (!isOver()) {
    await wait(chance.between(50, 400));
    const fault = await front.garbage(chance.between(0, 10_000));
    if (fault !== null) faults.push(`${front.name}: ${fault}`);
  }
}
