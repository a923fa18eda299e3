import { REST } from '@discordjs/rest';
import { type SessionInfo, WebSocketManager, WebSocketShardEvents } from '@discordjs/ws';
import { GatewayCloseCodes, GatewayDispatchEvents } from 'discord-api-types/v10';
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

/** "Gateway Close Event Codes": what is marked there as nothing to connect again after. */
const FOR_GOOD: ReadonlySet<number> = new Set([
  GatewayCloseCodes.AuthenticationFailed,
  GatewayCloseCodes.InvalidShard,
  GatewayCloseCodes.ShardingRequired,
  GatewayCloseCodes.InvalidAPIVersion,
  GatewayCloseCodes.InvalidIntents,
  GatewayCloseCodes.DisallowedIntents,
]);

/** A normal end (RFC 6455, section 7.4.1): the platform forgets the session and shows nobody there. */
const CLOSED_BY_US = 1000;

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
  // Kept here, and not where the library keeps it for the whole process.
  const sessions = new Map<number, SessionInfo>();
  const manager = new WebSocketManager({
    token: settings.token,
    rest: new REST({ api: settings.api }).setToken(settings.token),
    intents: 0,
    shardIds: [...settings.shards],
    shardCount: settings.shardCount,
    retrieveSessionInfo: (shard) => sessions.get(shard) ?? null,
    updateSessionInfo: (shard, session) => {
      if (session === null) sessions.delete(shard);
      else sessions.set(shard, session);
    },
  });
  const underWay = openUnderWay(wait);
  const take = async (payload: unknown) => {
    const fromMs = nowMs();
    const ids = idsOf(payload);
    if (ids === null) return;
    const handled = await handle(payload);
    const sent = await sendFirst(handled, ids, ports);
    if (sent) await sendLater(handled, ids, ports, () => nowMs() - fromMs);
  };
  // The payload as it came: the same JSON as the body of a request, so both ways are one. What a whole client library makes
  // of it beside that, and remembers of everybody, nobody here needs.
  manager.on(WebSocketShardEvents.Dispatch, ({ data }) => {
    if (data.t !== GatewayDispatchEvents.InteractionCreate) return;
    const work = take(data.d);
    work.catch((error: unknown) => log.error(errorData(error), 'an interaction was not answered'));
    underWay.add(work);
  });
  const shards = new Map(settings.shards.map((shard) => [shard, false]));
  const turned = (shard: number, isUp: boolean, text: string) => {
    shards.set(shard, isUp);
    log.info({ shard }, text);
  };
  manager.on(WebSocketShardEvents.Ready, ({ shardId }) => turned(shardId, true, 'a shard is ready'));
  manager.on(WebSocketShardEvents.Resumed, ({ shardId }) => turned(shardId, true, 'a shard goes on where it was'));
  manager.on(WebSocketShardEvents.Closed, ({ code, shardId }) => {
    if (closing) return;
    if (!FOR_GOOD.has(code)) return turned(shardId, false, 'a shard connects again');
    shards.set(shardId, false);
    log.error({ shard: shardId, code }, 'a shard was disconnected for good');
    lost();
  });
  manager.on(WebSocketShardEvents.Error, ({ error, shardId }) =>
    log.warn({ shard: shardId, ...errorData(error) }, 'a shard had an error'),
  );
  await manager.connect();
  return {
    shards: () => shards,
    underWay: underWay.count,
    close: async () => {
      // Closed first, so that nothing new comes in; answers go out by a client of their own.
      closing = true;
      await manager.destroy({ code: CLOSED_BY_US });
      if (!(await underWay.finish(OURS.farewellMs))) log.warn({}, 'some answers were not finished');
    },
  };
}
