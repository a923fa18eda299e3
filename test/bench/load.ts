import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { SIGNING_SECRET } from '../support/slack-double.ts';
import type { Asked, Asking, Ready } from './asker.ts';
import { openPeer, type Peer } from './peer.ts';
import { percentile, type Row } from './row.ts';
import { type Served, startServed } from './served.ts';
import type { Came, Fetching, Sink } from './sink.ts';

/** How long, and how many a second. The short form only shows that the benchmark runs and counts right. */
export type Pressure = { readonly seconds: number; readonly perSecond: number; readonly warmUp: number };

/** The rate is the goal's own. */
export const STEADY: Pressure = { seconds: 60, perSecond: 200, warmUp: 3000 };
export const SHORT_PRESSURE: Pressure = { seconds: 1, perSecond: 60, warmUp: 20 };

/** Until the last picture came; those that were refused because too many waited never come. */
const MOST_LOOKS = 240;
const LOOK_MS = 250;

/** A quarter of the questions draw. */
const PICTURES_EVERY = 4;

export type LoadRow = Row & {
  readonly asked: number;
  readonly answered: number;
  /** Asked for and seen by whoever asked. */
  readonly picturesAsked: number;
  readonly pictures: number;
};

type Platform = Asking['platform'];
type Heard = Asked & { readonly pictures: readonly number[]; readonly asked: number };

/**
 * Answers at a steady rate with a quarter of the questions drawing pictures, against the same with every question in
 * text, and against a server that only checks the signature and says always the same. The server, whoever asks and the
 * platform are processes of their own. Every time counts from when the question was due.
 */
export async function measureLoad(pressure: Pressure = STEADY): Promise<readonly LoadRow[]> {
  const folder = mkdtempSync(join(tmpdir(), 'ringwright-bench-'));
  const [sink, asker] = await Promise.all([openPeer<Sink>('./sink.ts'), openPeer<Ready>('./asker.ts')]);
  const { publicKey } = asker.told;
  const bareEnv = { BENCH_KEY: publicKey, BENCH_REPLY: 'x'.repeat(REPLY_BYTES) };
  const run = async (platform: Platform, start: () => Promise<Served>, picturesEvery: number) => {
    const served = await start();
    try {
      return await heard(platform, served, picturesEvery, pressure, { sink, asker });
    } finally {
      await served.end();
    }
  };
  try {
    const rows: LoadRow[] = [];
    const bare = await run('discord', () => startServed('test/bench/bare-discord-http.ts', bareEnv), 0);
    for (const platform of ['discord', 'slack'] as const) {
      const env = { ...envOf(platform, sink.told.base, publicKey), RINGWRIGHT_DATA: folder };
      const start = () => startServed(`adapters/${platform}/main.ts`, env);
      const on = await run(platform, start, PICTURES_EVERY);
      const off = await run(platform, start, 0);
      rows.push(...rowsOf(platform, on, off, bare, pressure));
    }
    return rows;
  } finally {
    sink.end();
    asker.end();
    rmSync(folder, { recursive: true, force: true });
  }
}

/** About as long as a card is on the wire. */
const REPLY_BYTES = 4000;

function envOf(platform: Platform, base: string, publicKey: string): Readonly<Record<string, string>> {
  if (platform === 'discord') {
    return { DISCORD_MODE: 'http', DISCORD_PORT: '0', DISCORD_PUBLIC_KEY: publicKey, DISCORD_API: `${base}/api` };
  }
  return {
    SLACK_MODE: 'http',
    SLACK_PORT: '0',
    SLACK_API: `${base}/api`,
    SLACK_SIGNING_SECRET: SIGNING_SECRET,
    SLACK_BOT_TOKEN: 'xoxb-made-up',
    SLACK_PUBLIC_URL: 'https://shop.example.org',
  };
}

async function heard(
  platform: Platform,
  { port }: Served,
  picturesEvery: number,
  { seconds, perSecond, warmUp }: Pressure,
  { sink, asker }: { readonly sink: Peer<Sink>; readonly asker: Peer<Ready> },
): Promise<Heard> {
  const common = { platform, port, base: sink.told.base, picturesEvery, keptEvery: 0, perSecond };
  const ask = (from: number, until: number) => asker.ask<Asked>({ ...common, from, until } satisfies Asking);
  const fetching = { port } satisfies Fetching;
  await sink.ask<Came>(fetching);
  await ask(0, warmUp);
  // What is still being drawn for the warm-up is not in the way of what is measured.
  await wait(LOOK_MS * 4);
  await sink.ask<Came>(fetching);
  const until = warmUp + seconds * perSecond;
  const asked = await ask(warmUp, until);
  const came = new Map(await sink.ask<Came>(fetching));
  for (let looks = 0; looks < MOST_LOOKS && came.size < asked.tokens.length; looks += 1) {
    await wait(LOOK_MS);
    for (const [token, atMs] of await sink.ask<Came>(fetching)) came.set(token, atMs);
  }
  const sent = asked.tokens.flatMap(([token, plannedMs]) => {
    const atMs = came.get(token);
    return atMs === undefined ? [] : [atMs - plannedMs];
  });
  return { ...asked, pictures: sent, asked: until - warmUp };
}

function rowsOf(platform: Platform, on: Heard, off: Heard, bare: Heard, { perSecond }: Pressure): readonly LoadRow[] {
  const name = platform === 'discord' ? 'Discord' : 'Slack';
  const head = `${name} over HTTP, ${perSecond} a second`;
  const row = (what: string, times: readonly number[], than: readonly number[], beside: string, limitedBy: string) => ({
    what: `${head}, ${what}`,
    measured: spread(times),
    baseline: `${spread(than)}, ${beside}`,
    ratio: percentile(times, 0.99) / percentile(than, 0.99),
    goal: null,
    limitedBy,
    asked: on.asked,
    answered: on.answered,
    picturesAsked: on.tokens.length,
    pictures: on.pictures.length,
  });
  const cores = 'two cores for the server, its picture thread, whoever asks and the platform';
  const receipt = 'a receipt kept for each, and how late the asker itself is';
  const thread = 'one picture after the other in one thread';
  return [
    row('text while a quarter draws', on.textMs, off.textMs, 'all in text', cores),
    row('all in text', off.textMs, bare.textMs, 'a bare signed reply', receipt),
    row('first answer to a picture', on.firstMs, on.textMs, 'text beside it', thread),
    row('the picture itself', on.pictures, on.textMs, 'text beside it', thread),
  ];
}

function spread(times: readonly number[]): string {
  const [p50, p99, p999] = [0.5, 0.99, 0.999].map((share) => percentile(times, share).toFixed(1));
  return `p50 ${p50}, p99 ${p99}, p99.9 ${p999} ms`;
}
