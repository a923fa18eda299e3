import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { slash } from '../support/discord-payloads.ts';
import { keys } from '../support/discord-transports.ts';
import { startPostgres } from '../support/postgres.ts';
import { planUs } from './plan.ts';
import { askAll, postRequest } from './requests.ts';
import { type Compared, compared, nearestToMean, type Side, type Size } from './rounds.ts';
import type { Row } from './row.ts';
import { type Served, startServed } from './served.ts';
import { nthSetup, SETUPS } from './setups.ts';

/** Goal of whoever ordered the program: processor time of a signed `convert` against that of a bare signed reply. */
const GOAL_RATIO = 1.6;
const LIMITED_BY =
  'the plan, then its receipt (written as JSON, packed, saved); the transport alone costs what the bare one does';
const CONNECTIONS = 4;
/** So many that nobody asks faster than people may; most of them come back, as people do. */
const PLACES = 1000;
const PEOPLE = 4000;

const { publicKey, sign } = keys();
let asked = 0;

/** Questions that no server has seen, signed now: each by somebody of another club, about another bike. */
export function questions(count: number): readonly Buffer[] {
  return Array.from({ length: count }, () => {
    asked += 1;
    const who = { id: String(500_000_000_000_000_000n + BigInt(asked % PEOPLE)) };
    const server = String(100_000_000_000_000_000n + BigInt(asked % PLACES));
    const payload = slash(who, 'convert', { setup: nthSetup(asked) }, undefined, { server });
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

export function sideOf({ port, cpuUs }: Served): Side {
  return { cpuUs, ask: async (count) => (await askAll([port], questions(count), CONNECTIONS)).bytes };
}

/** What the program says most like: one of its own answers. */
export async function usualReply({ port }: Served): Promise<string> {
  const replies: string[] = [];
  await askAll([port], questions(SETUPS.length), 1, (body) => replies.push(body.toString('utf8')));
  return nearestToMean(replies);
}

export async function measureDiscordHttp(size: Size): Promise<readonly (Row & Partial<Compared>)[]> {
  const folder = mkdtempSync(join(tmpdir(), 'ringwright-bench-'));
  const postgres = await startPostgres();
  try {
    const file = await against('receipt in SQLite', { RINGWRIGHT_DATA: folder }, size);
    const server = await against('receipt in PostgreSQL', { DATABASE_URL: await postgres.database() }, size);
    return [file, server, planRow(file, size)];
  } finally {
    await postgres.end();
    rmSync(folder, { recursive: true, force: true });
  }
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

async function against(where: string, records: Readonly<Record<string, string>>, size: Size): Promise<Row & Compared> {
  const ours = await startOurs(records);
  const reply = await usualReply(ours);
  const bare = await startBare(reply);
  const found = await compared(sideOf(ours), sideOf(bare), size);
  await Promise.all([ours.end(), bare.end()]);
  return {
    what: `Discord over HTTP, convert, ${where}`,
    measured: `${found.oursUs.toFixed(0)} µs`,
    baseline: `${found.bareUs.toFixed(0)} µs, signed reply of ${Buffer.byteLength(reply)} bytes`,
    goal: GOAL_RATIO,
    limitedBy: LIMITED_BY,
    ...found,
  };
}
