import { Client, Events } from 'discord.js';
import { errorData, type Log } from '../../src/log.ts';
import type { Notice } from '../../src/notice.ts';
import { idsOf, sendFirst, sendLater } from './deliver.ts';
import { OURS } from './limits.ts';
import type { Handled } from './ports.ts';
import type { Interactions } from './rest.ts';
import { openUnderWay } from './under-way.ts';

export type Gateway = {
  /** The shards of this program, and whether each has its connection. */
  readonly shards: () => ReadonlyMap<number, boolean>;
  /** How many interactions are being answered. */
  readonly underWay: () => number;
  /** Takes no more interactions, finishes those under way, and closes. */
  readonly close: () => Promise<void>;
};

/** Keeps a connection to the platform and answers what comes over it; the way that needs no address of one's own. */
export async function openGateway(
  settings: {
    readonly api: string;
    readonly token: string;
    readonly shards: readonly number[];
    readonly shardCount: number;
  },
  ports: {
    readonly handle: (payload: unknown) => Promise<Handled>;
    readonly rest: Interactions;
    readonly log: Log;
    readonly notice?: Notice | undefined;
    readonly nowMs: () => number;
    readonly wait: (ms: number) => Promise<void>;
    /** Called when the platform lets no connection back in: a token taken back, shards that are too few. */
    readonly lost: () => void;
  },
): Promise<Gateway> {
  const { handle, log, nowMs, wait, lost } = ports;
  let closing = false;
  const client = new Client({
    intents: [],
    shards: [...settings.shards],
    shardCount: settings.shardCount,
    rest: { api: settings.api },
    allowedMentions: { parse: [] },
  });
  silence(client);
  const underWay = openUnderWay(wait);
  const take = async (payload: unknown) => {
    const fromMs = nowMs();
    const ids = idsOf(payload);
    if (ids === null) return;
    const handled = await handle(payload);
    const sent = await sendFirst(handled, ids, ports);
    if (sent) await sendLater(handled, ids, ports, () => nowMs() - fromMs);
  };
  // The payload as it came: the same JSON as the body of a request, so both ways are one.
  client.ws.on('INTERACTION_CREATE' as Parameters<typeof client.ws.on>[0], (payload: unknown) => {
    const work = take(payload);
    work.catch((error: unknown) => log.error(errorData(error), 'an interaction was not answered'));
    underWay.add(work);
  });
  const shards = new Map(settings.shards.map((shard) => [shard, false]));
  const turned = (shard: number, isUp: boolean, text: string) => {
    shards.set(shard, isUp);
    log.info({ shard }, text);
  };
  client.on(Events.ShardReady, (shard) => turned(shard, true, 'a shard is ready'));
  client.on(Events.ShardReconnecting, (shard) => turned(shard, false, 'a shard connects again'));
  client.on(Events.ShardResume, (shard) => turned(shard, true, 'a shard goes on where it was'));
  client.on(Events.ShardDisconnect, ({ code }, shard) => {
    shards.set(shard, false);
    if (closing) return;
    log.error({ shard, code }, 'a shard was disconnected for good');
    lost();
  });
  client.on(Events.ShardError, (error, shard) => log.warn({ shard, ...errorData(error) }, 'a shard had an error'));
  client.on(Events.Error, (error) => log.error(errorData(error), 'the connection had an error'));
  await client.login(settings.token);
  return {
    shards: () => shards,
    underWay: underWay.count,
    close: async () => {
      // Closed first, so that nothing new comes in; answers go out by a client of their own.
      closing = true;
      await client.destroy();
      if (!(await underWay.finish(OURS.farewellMs))) log.warn({}, 'some answers were not finished');
    },
  };
}

/**
 * Keeps the library from making an object of every interaction beside us. Nobody here looks at it, and one of a shape
 * that the library does not know would throw where only the end of the program can catch it.
 */
function silence(client: Client): void {
  const { actions } = client as unknown as { readonly actions: { readonly InteractionCreate: { handle: () => void } } };
  actions.InteractionCreate.handle = () => {};
}
