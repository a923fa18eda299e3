import { startPostgres } from '../support/postgres.ts';
import { questions, startBare, startOurs, usualReply } from './discord-http.ts';
import { openServerTime } from './processor-time.ts';
import { askAll } from './requests.ts';
import type { Size } from './rounds.ts';
import { median, percentile, type Row } from './row.ts';
import type { Served } from './served.ts';

/** Goal of whoever ordered the program: questions a second of two processes against one, on two cores. */
const GOAL_RATIO = 1.7;
/** Enough that no process ever waits for the next question. */
const CONNECTIONS = 16;

/** Questions a second with one server and with two, and where a question's processor time went with two, in microseconds. */
type Found = {
  readonly one: number;
  readonly two: number;
  readonly ratio: number;
  readonly spread: readonly [number, number];
  readonly asked: number;
  readonly answered: number;
  readonly serversUs: number;
  readonly askerUs: number;
};

type Round = {
  readonly aSecond: number;
  readonly answered: number;
  readonly serversUs: number;
  readonly askerUs: number;
};

/**
 * Two servers on one PostgreSQL against one of them. The database and whoever asks run on the same cores, so two servers
 * never have both to themselves: a bare server that needs no database is measured in the same way, as what can be had.
 */
export async function measureProcesses(size: Size): Promise<readonly (Row & Found)[]> {
  const postgres = await startPostgres();
  try {
    const url = await postgres.database();
    const databaseUs = await openServerTime(url);
    const ours = [await startOurs({ DATABASE_URL: url }), await startOurs({ DATABASE_URL: url })] as const;
    const reply = await usualReply(ours[0]);
    const bare = [await startBare(reply), await startBare(reply)] as const;
    const begunUs = databaseUs();
    const our = await found(ours, size);
    const perQuestionUs = (databaseUs() - begunUs) / our.answered;
    const their = await found(bare, size);
    await Promise.all([...ours, ...bare].map((each) => each.end()));
    return [
      row('Discord over HTTP on one PostgreSQL', GOAL_RATIO, our, [`PostgreSQL ${perQuestionUs.toFixed(0)} µs`]),
      row('the same with bare servers and no database', null, their, []),
    ];
  } finally {
    await postgres.end();
  }
}

async function found(servers: readonly [Served, Served], { warmUp, rounds, each }: Size): Promise<Found> {
  await round(servers, warmUp);
  const [ones, twos]: [Round[], Round[]] = [[], []];
  for (let index = 0; index < rounds; index += 1) {
    ones.push(await round(servers.slice(0, 1), each));
    twos.push(await round(servers, each));
  }
  const ratios = twos.map(({ aSecond }, index) => aSecond / (ones[index]?.aSecond ?? Number.NaN));
  return {
    one: median(ones.map(({ aSecond }) => aSecond)),
    two: median(twos.map(({ aSecond }) => aSecond)),
    ratio: median(ratios),
    spread: [percentile(ratios, 0.25), percentile(ratios, 0.75)],
    asked: warmUp + 2 * rounds * each,
    answered: warmUp + [...ones, ...twos].reduce((sum, { answered }) => sum + answered, 0),
    serversUs: median(twos.map(({ serversUs }) => serversUs)),
    askerUs: median(twos.map(({ askerUs }) => askerUs)),
  };
}

async function round(servers: readonly Served[], count: number): Promise<Round> {
  const requests = questions(count);
  const usedUs = async () => (await Promise.all(servers.map(({ cpuUs }) => cpuUs()))).reduce((sum, us) => sum + us, 0);
  const serversFrom = await usedUs();
  const askerFrom = process.cpuUsage();
  const from = performance.now();
  const { count: answered } = await askAll(
    servers.map(({ port }) => port),
    requests,
    CONNECTIONS,
  );
  const tookS = (performance.now() - from) / 1000;
  const { user, system } = process.cpuUsage(askerFrom);
  const serversUs = ((await usedUs()) - serversFrom) / count;
  return { aSecond: answered / tookS, answered, serversUs, askerUs: (user + system) / count };
}

function row(what: string, goal: number | null, all: Found, more: readonly string[]): Row & Found {
  const spent = [`server ${all.serversUs.toFixed(0)} µs`, ...more, `whoever asks ${all.askerUs.toFixed(0)} µs`];
  return {
    what: `Two processes, ${what}`,
    measured: `${all.two.toFixed(0)} a second`,
    baseline: `${all.one.toFixed(0)} a second, one process`,
    goal,
    better: 'more',
    limitedBy: `two cores for all: a question takes ${spent.join(', ')}`,
    ...all,
  };
}
