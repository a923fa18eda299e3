import { keys } from '../support/discord-transports.ts';
import { againstBare, type Pair, pairOf } from './against-bare.ts';
import { planUs } from './plan.ts';
import { askAll, postRequest } from './requests.ts';
import { type Compared, nearestToMean, type Side, type Size } from './rounds.ts';
import type { Row } from './row.ts';
import { type Served, startServed } from './served.ts';
import { SETUPS } from './setups.ts';
import { discordPayloads } from './turns.ts';

const CONNECTIONS = 4;

const { publicKey, sign } = keys();

/** Questions that no server has seen, signed now. */
export function questions(count: number): readonly Buffer[] {
  return discordPayloads(count).map((payload) => {
    const { body, timestamp, signature } = sign(JSON.stringify(payload));
    const headers = { 'x-signature-ed25519': signature, 'x-signature-timestamp': timestamp };
    return postRequest('/interactions', { ...headers, 'content-type': 'application/json' }, body);
  });
}

/** The whole program as people start it, over HTTP, with records where the settings say. */
export function startOurs(records: Readonly<Record<string, string>>): Promise<Served> {
  const settings = { DISCORD_MODE: 'http', DISCORD_PORT: '0', DISCORD_PUBLIC_KEY: publicKey };
  return startServed('adapters/discord/main.ts', { ...settings, ...records });
}

export function startBare(reply: string): Promise<Served> {
  return startServed('test/bench/bare-discord-http.ts', { BENCH_KEY: publicKey, BENCH_REPLY: reply });
}

function sideOf({ port, cpuUs }: Served): Side {
  return { cpuUs, ask: async (count) => (await askAll([port], questions(count), CONNECTIONS)).bytes };
}

/** What the program says most like: one of its own answers. */
export async function usualReply({ port }: Served): Promise<string> {
  const replies: string[] = [];
  await askAll([port], questions(SETUPS.length), 1, (body) => replies.push(body.toString('utf8')));
  return nearestToMean(replies);
}

/** The whole program over HTTP against a server that checks the signature and no more. */
export async function measureDiscordHttp(size: Size): Promise<readonly (Row & Partial<Compared>)[]> {
  const way = {
    name: 'Discord over HTTP',
    bareReply: 'signed reply',
    limitedBy:
      'the plan, then its receipt (written as JSON, packed, saved); the transport alone costs what the bare one does',
    start,
  };
  const [file, server] = await againstBare(way, size);
  return [file, server, planRow(file, size)];
}

/** What no adapter and no storage can save: the plan itself, against the same bare reply. */
function planRow({ bareUs }: Compared, size: Size): Row {
  const us = planUs(size);
  return {
    what: 'of that the plan alone, nothing kept, no platform',
    measured: `${us.toFixed(0)} µs`,
    baseline: `${bareUs.toFixed(0)} µs`,
    ratio: us / bareUs,
    goal: null,
    limitedBy: 'its words and numbers, a little everywhere',
  };
}

async function start(records: Readonly<Record<string, string>>): Promise<Pair> {
  const ours = await startOurs(records);
  const reply = await usualReply(ours);
  const bare = await startBare(reply);
  return pairOf(ours, bare, reply, sideOf);
}
