import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { type Payload, slash } from '../support/discord-payloads.ts';
import { startPostgres } from '../support/postgres.ts';
import { type GatewayDouble, openGatewayDouble } from './gateway-double.ts';
import { type Compared, compared, nearestToMean, type Side, type Size } from './rounds.ts';
import type { Row } from './row.ts';
import { type Served, startServed } from './served.ts';
import { nthSetup, SETUPS } from './setups.ts';

/** Goal of whoever ordered the program: processor time of a `convert` against that of a bare client's reply. */
const GOAL_RATIO = 1.6;
const TOGETHER = 4;
/** So many that nobody asks faster than people may; most of them come back, as people do. */
const PLACES = 1000;
const PEOPLE = 4000;

let asked = 0;

function payloads(count: number): readonly Payload[] {
  return Array.from({ length: count }, () => {
    asked += 1;
    const who = { id: String(500_000_000_000_000_000n + BigInt(asked % PEOPLE)) };
    const server = String(100_000_000_000_000_000n + BigInt(asked % PLACES));
    return slash(who, 'convert', { setup: nthSetup(asked) }, undefined, { server });
  });
}

function sideOf({ cpuUs }: Served, double: GatewayDouble): Side {
  return {
    cpuUs,
    ask: async (count) => {
      const bodies = await double.tell(payloads(count), TOGETHER);
      // The answer to the last callback is still on its way back.
      await wait(20);
      return bodies.reduce((sum, body) => sum + Buffer.byteLength(body), 0);
    },
  };
}

/** The whole program at a gateway against a bare client of the platform's usual library. */
export async function measureGateway(size: Size): Promise<readonly (Row & Compared)[]> {
  const folder = mkdtempSync(join(tmpdir(), 'ringwright-bench-'));
  const postgres = await startPostgres();
  try {
    return [
      await against('receipt in SQLite', { RINGWRIGHT_DATA: folder }, size),
      await against('receipt in PostgreSQL', { DATABASE_URL: await postgres.database() }, size),
    ];
  } finally {
    await postgres.end();
    rmSync(folder, { recursive: true, force: true });
  }
}

async function against(where: string, records: Readonly<Record<string, string>>, size: Size): Promise<Row & Compared> {
  const [ourDouble, bareDouble] = await Promise.all([openGatewayDouble(), openGatewayDouble()]);
  const token = { DISCORD_API: ourDouble.api, DISCORD_TOKEN: 'a-made-up-token-of-a-bot' };
  const ours = await startServed('adapters/discord/main.ts', { ...token, ...records });
  const callbacks = await ourDouble.tell(payloads(SETUPS.length), 1);
  const { data } = JSON.parse(nearestToMean(callbacks)) as { readonly data: unknown };
  const reply = JSON.stringify(data);
  const bare = await startServed('test/bench/bare-gateway.ts', { BENCH_API: bareDouble.api, BENCH_REPLY: reply });
  const found = await compared(sideOf(ours, ourDouble), sideOf(bare, bareDouble), size);
  await Promise.all([ours.end(), bare.end()]);
  await Promise.all([ourDouble.close(), bareDouble.close()]);
  return {
    what: `Discord over the gateway, convert, ${where}`,
    measured: `${found.oursUs.toFixed(0)} µs`,
    baseline: `${found.bareUs.toFixed(0)} µs, client's reply of ${Buffer.byteLength(reply)} bytes`,
    goal: GOAL_RATIO,
    limitedBy: 'the plan, then its receipt (written as JSON, packed, saved); both send by the same library',
    ...found,
  };
}
