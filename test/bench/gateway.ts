import { setTimeout as wait } from 'node:timers/promises';
import { againstBare, type Pair } from './against-bare.ts';
import { type GatewayDouble, openGatewayDouble } from './gateway-double.ts';
import { type Compared, nearestToMean, type Side, type Size } from './rounds.ts';
import type { Row } from './row.ts';
import { type Served, startServed } from './served.ts';
import { SETUPS } from './setups.ts';
import { discordPayloads } from './turns.ts';

const TOGETHER = 4;

function sideOf({ cpuUs }: Served, double: GatewayDouble): Side {
  return {
    cpuUs,
    ask: async (count) => {
      const bodies = await double.tell(discordPayloads(count), TOGETHER);
      // The answer to the last callback is still on its way back.
      await wait(20);
      return bodies.reduce((sum, body) => sum + Buffer.byteLength(body), 0);
    },
  };
}

/** The whole program at a gateway against a bare client of the platform's usual library. */
export function measureGateway(size: Size): Promise<readonly (Row & Compared)[]> {
  const way = {
    name: 'Discord over the gateway',
    bareReply: "client's reply",
    limitedBy: 'the plan, then its receipt (written as JSON, packed, saved); both send by the same library',
    start,
  };
  return againstBare(way, size);
}

async function start(records: Readonly<Record<string, string>>): Promise<Pair> {
  const [ourDouble, bareDouble] = await Promise.all([openGatewayDouble(), openGatewayDouble()]);
  const token = { DISCORD_API: ourDouble.api, DISCORD_TOKEN: 'a-made-up-token-of-a-bot' };
  const ours = await startServed('adapters/discord/main.ts', { ...token, ...records });
  const callbacks = await ourDouble.tell(discordPayloads(SETUPS.length), 1);
  const { data } = JSON.parse(nearestToMean(callbacks)) as { readonly data: unknown };
  const reply = JSON.stringify(data);
  const bare = await startServed('test/bench/bare-gateway.ts', { BENCH_API: bareDouble.api, BENCH_REPLY: reply });
  return {
    ours: sideOf(ours, ourDouble),
    bare: sideOf(bare, bareDouble),
    reply,
    end: async () => {
      await Promise.all([ours.end(), bare.end()]);
      await Promise.all([ourDouble.close(), bareDouble.close()]);
    },
  };
}
