import { z } from 'zod';
import { type KeptEnv, whereKept } from '../../src/records/where.ts';

/** The set-up is wrong, and trying again will not help. The message names settings and never shows their values. */
export class ConfigError extends Error {
  override readonly name = 'ConfigError';
  readonly code = 'discord-settings';
}

const Id = z.string().regex(/^\d{15,20}$/, 'is an id of 15 to 20 digits');
const Whole = (low: number, high: number) =>
  z
    .string()
    .regex(/^\d{1,6}$/, `is a whole number from ${low} to ${high}`)
    .transform(Number)
    .refine((value) => value >= low && value <= high, `is a whole number from ${low} to ${high}`);
const Token = z.string().min(20, 'is the token of the bot');
const Key = z.string().regex(/^[0-9a-f]{64}$/i, 'is the public key of the application, 64 hexadecimal digits');
const Address = z.url({ protocol: /^https?$/, error: 'is an address that begins with http' });

/** "0,1,5-7" as a list of numbers. */
const ShardList = z
  .string()
  .regex(/^\d{1,5}(-\d{1,5})?(,\d{1,5}(-\d{1,5})?)*$/, 'is a list such as 0,1 or 0-3')
  .transform((text) =>
    text.split(',').flatMap((part) => {
      const [from = 0, to = from] = part.split('-').map(Number);
      return Array.from({ length: Math.max(0, Math.min(to - from + 1, 10_000)) }, (_, index) => from + index);
    }),
  );

const Kept = {
  DATABASE_URL: z.string().optional(),
  RINGWRIGHT_DATA: z.string().optional(),
};
const Common = {
  DISCORD_API: Address.default('https://discord.com/api'),
  LOG_LEVEL: z.enum(['debug', 'info', 'warn', 'error', 'silent']).default('info'),
};

const Gateway = z.object({
  ...Common,
  ...Kept,
  DISCORD_MODE: z.literal('gateway').default('gateway'),
  DISCORD_TOKEN: Token,
  DISCORD_SHARD_COUNT: Whole(1, 10_000).default(1),
  DISCORD_SHARDS: ShardList.optional(),
});
const Http = z.object({
  ...Common,
  ...Kept,
  DISCORD_MODE: z.literal('http'),
  DISCORD_PUBLIC_KEY: Key,
  /** Only for pinning and for replies at a message; everything else needs none. */
  DISCORD_TOKEN: Token.optional(),
  DISCORD_HOST: z.string().default('127.0.0.1'),
  DISCORD_PORT: Whole(0, 65_535).default(8080),
});
const Register = z.object({
  ...Common,
  DISCORD_TOKEN: Token,
  DISCORD_APPLICATION_ID: Id,
  /** Register in this server only, where changes show at once; without it everywhere. */
  DISCORD_SERVER: Id.optional(),
});

export type Env = Readonly<Record<string, string | undefined>>;

export type Where = { readonly path: string } | { readonly url: string };

type Shared = { readonly api: string; readonly logLevel: string; readonly records: Where };

export type GatewayConfig = Shared & {
  readonly kind: 'gateway';
  readonly token: string;
  readonly shards: readonly number[];
  readonly shardCount: number;
};

export type HttpConfig = Shared & {
  readonly kind: 'http';
  readonly publicKey: string;
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

/** How to run, from the environment. */
export function readConfig(env: Env): GatewayConfig | HttpConfig {
  const told = withoutEmpty(env);
  const mode = told.DISCORD_MODE ?? 'gateway';
  if (mode === 'http') {
    const http = read(Http, told);
    return {
      kind: 'http',
      ...shared(http),
      publicKey: http.DISCORD_PUBLIC_KEY,
      token: http.DISCORD_TOKEN ?? null,
      host: http.DISCORD_HOST,
      port: http.DISCORD_PORT,
    };
  }
  if (mode !== 'gateway') throw new ConfigError('DISCORD_MODE is either gateway or http');
  const gateway = read(Gateway, told);
  const shardCount = gateway.DISCORD_SHARD_COUNT;
  const shards = gateway.DISCORD_SHARDS ?? Array.from({ length: shardCount }, (_, index) => index);
  if (shards.length === 0 || shards.some((shard) => shard >= shardCount)) {
    throw new ConfigError('DISCORD_SHARDS names shards from 0 to one less than DISCORD_SHARD_COUNT');
  }
  return {
    kind: 'gateway',
    ...shared(gateway),
    token: gateway.DISCORD_TOKEN,
    shards: [...new Set(shards)],
    shardCount,
  };
}

/** How to register, from the environment and the words behind the command. */
export function readRegisterConfig(env: Env, args: readonly string[]): RegisterConfig {
  const unknown = args.filter((arg) => arg !== '--dry-run' && !arg.startsWith('--server='));
  if (unknown.length > 0) throw new ConfigError('only --dry-run and --server=ID are understood');
  const server = args.find((arg) => arg.startsWith('--server='))?.slice('--server='.length);
  const told = read(Register, withoutEmpty(server === undefined ? env : { ...env, DISCORD_SERVER: server }));
  return {
    api: told.DISCORD_API,
    token: told.DISCORD_TOKEN,
    application: told.DISCORD_APPLICATION_ID,
    server: told.DISCORD_SERVER ?? null,
    dryRun: args.includes('--dry-run'),
  };
}

function shared(told: KeptEnv & { readonly DISCORD_API: string; readonly LOG_LEVEL: string }): Shared {
  return { api: told.DISCORD_API, logLevel: told.LOG_LEVEL, records: whereKept(told) };
}

/** A setting that is there and empty is one that nobody has set. */
function withoutEmpty(env: Env): Env {
  return Object.fromEntries(Object.entries(env).filter(([, value]) => value !== undefined && value.trim() !== ''));
}

/** Every setting that is missing or wrong at once, in words. */
function read<Shape extends z.ZodType>(shape: Shape, env: Env): z.infer<Shape> {
  const result = shape.safeParse(env);
  if (result.success) return result.data;
  const faults = result.error.issues.map(({ path, message }) => {
    const name = String(path[0] ?? 'a setting');
    return env[name] === undefined ? `${name} is missing` : `${name} ${message}`;
  });
  throw new ConfigError(`${[...new Set(faults)].join('; ')}. What each means stands in deploy/discord.md.`);
}
