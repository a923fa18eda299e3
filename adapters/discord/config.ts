import { ConfigError } from '../../src/config-error.ts';
import { type Reading, readSettings } from '../settings/reading.ts';
import { checkWatchPort, type Running, runningOf } from '../settings/running.ts';
import type { Env, ReadSecret } from '../settings/secret-files.ts';
import { DiscordSettings } from '../settings/settings.ts';

const ABOUT = { code: 'discord-settings', page: 'deploy/discord.md' };

type Shared = Running & { readonly api: string };

export type GatewayConfig = Shared & {
  readonly kind: 'gateway';
  readonly token: string;
  readonly shards: readonly number[];
  readonly shardCount: number;
};

export type HttpConfig = Shared & {
  readonly kind: 'http';
  readonly publicKey: string;
  /** Only for pinning and for replies at a message; everything else needs none. */
  readonly token: string | null;
  readonly host: string;
  readonly port: number;
};

export type RegisterConfig = {
  readonly api: string;
  readonly token: string;
  readonly application: string;
  readonly server: string | null;
  readonly dryRun: boolean;
};

type Told = ReturnType<typeof readDiscord>['told'];

/** How to run, from the environment. Everything that is missing or wrong is named at once. */
export function readConfig(env: Env, readSecret: ReadSecret): GatewayConfig | HttpConfig {
  const reading = readDiscord(env, readSecret);
  // Which settings are missing depends on the mode.
  if (reading.isWrong('DISCORD_MODE')) return reading.settle<GatewayConfig | HttpConfig>(null);
  return reading.settle(reading.told.DISCORD_MODE === 'http' ? httpOf(reading) : gatewayOf(reading));
}

function readDiscord(env: Env, readSecret: ReadSecret) {
  return readSettings(DiscordSettings, env, readSecret, ABOUT);
}

function httpOf(reading: Reading<Told>): HttpConfig | null {
  const { told, need } = reading;
  const publicKey = need('DISCORD_PUBLIC_KEY');
  checkWatchPort(reading, 'DISCORD_PORT', told.DISCORD_PORT);
  if (publicKey === null) return null;
  return {
    kind: 'http',
    api: told.DISCORD_API,
    ...runningOf(told),
    publicKey,
    token: told.DISCORD_TOKEN ?? null,
    host: told.DISCORD_HOST,
    port: told.DISCORD_PORT,
  };
}

function gatewayOf(reading: Reading<Told>): GatewayConfig | null {
  const token = reading.need('DISCORD_TOKEN');
  const shards = shardsOf(reading);
  if (token === null || shards === null) return null;
  const { told } = reading;
  return {
    kind: 'gateway',
    api: told.DISCORD_API,
    ...runningOf(told),
    token,
    shards: [...new Set(shards)],
    shardCount: told.DISCORD_SHARD_COUNT,
  };
}

/** The shards that run here: those that are listed, or those whose turn it is, or all. */
function shardsOf({ told, isWrong, fault }: Reading<Told>): readonly number[] | null {
  const { DISCORD_SHARDS: listed, DISCORD_ORDINAL: ordinal, DISCORD_SHARDS_EACH: each = 1 } = told;
  if (listed !== undefined && ordinal !== undefined) {
    fault('DISCORD_SHARDS and DISCORD_ORDINAL both say which shards run here; set either');
    return null;
  }
  if (told.DISCORD_SHARDS_EACH !== undefined && ordinal === undefined && !isWrong('DISCORD_ORDINAL')) {
    fault('DISCORD_ORDINAL is missing: DISCORD_SHARDS_EACH counts from it');
  }
  // Numbers are only compared with a count that is right.
  if (isWrong('DISCORD_SHARD_COUNT')) return null;
  const count = told.DISCORD_SHARD_COUNT;
  const all = Array.from({ length: count }, (_, index) => index);
  if (ordinal !== undefined) {
    const own = all.slice(ordinal * each, (ordinal + 1) * each);
    if (own.length === 0) fault('DISCORD_ORDINAL leaves no shard below DISCORD_SHARD_COUNT to run here');
    return own;
  }
  if (listed !== undefined && (listed.length === 0 || listed.some((shard) => shard >= count))) {
    fault('DISCORD_SHARDS names shards from 0 to one less than DISCORD_SHARD_COUNT');
    return null;
  }
  return listed ?? all;
}

const RegisterSettings = DiscordSettings.pick({
  DISCORD_API: true,
  DISCORD_TOKEN: true,
  DISCORD_APPLICATION_ID: true,
  DISCORD_SERVER: true,
});

/** How to register, from the environment and the words behind the command. */
export function readRegisterConfig(env: Env, args: readonly string[], readSecret: ReadSecret): RegisterConfig {
  const unknown = args.filter((arg) => arg !== '--dry-run' && !arg.startsWith('--server='));
  if (unknown.length > 0) throw new ConfigError(ABOUT.code, 'only --dry-run and --server=ID are understood');
  const server = args.find((arg) => arg.startsWith('--server='))?.slice('--server='.length);
  const whole = server === undefined ? env : { ...env, DISCORD_SERVER: server };
  const { told, need, settle } = readSettings(RegisterSettings, whole, readSecret, ABOUT);
  const [token, application] = [need('DISCORD_TOKEN'), need('DISCORD_APPLICATION_ID')];
  if (token === null || application === null) return settle<RegisterConfig>(null);
  return settle({
    api: told.DISCORD_API,
    token,
    application,
    server: told.DISCORD_SERVER ?? null,
    dryRun: args.includes('--dry-run'),
  });
}
