import { z } from 'zod';
import { type Where, whereKept } from '../../src/records/where.ts';

/** The set-up is wrong, and trying again will not help. The message names settings and never shows their values. */
export class ConfigError extends Error {
  override readonly name = 'ConfigError';
  readonly code = 'slack-settings';
}

const Whole = (low: number, high: number) =>
  z
    .string()
    .regex(/^\d{1,6}$/, `is a whole number from ${low} to ${high}`)
    .transform(Number)
    .refine((value) => value >= low && value <= high, `is a whole number from ${low} to ${high}`);
const Secret = (least: number) => z.string().min(least, `has at least ${least} characters`);
const Address = z
  .url({ protocol: /^https?$/, error: 'is an address that begins with http' })
  .transform((address) => address.replace(/\/+$/, ''));
const PublicAddress = z
  .url({ protocol: /^https$/, error: 'is an address that begins with https' })
  .transform((address) => address.replace(/\/+$/, ''));

const Settings = z.object({
  SLACK_MODE: z.enum(['socket', 'http'], 'is either socket or http').default('socket'),
  SLACK_API: Address.default('https://slack.com/api'),
  LOG_LEVEL: z.enum(['debug', 'info', 'warn', 'error', 'silent']).default('info'),
  DATABASE_URL: z.string().optional(),
  RINGWRIGHT_DATA: z.string().optional(),
  SLACK_APP_TOKEN: z.string().startsWith('xapp-', 'begins with xapp-').optional(),
  SLACK_SIGNING_SECRET: Secret(16).optional(),
  SLACK_BOT_TOKEN: z.string().startsWith('xoxb-', 'begins with xoxb-').optional(),
  SLACK_CLIENT_ID: z.string().optional(),
  SLACK_CLIENT_SECRET: Secret(16).optional(),
  SLACK_STATE_SECRET: Secret(32).optional(),
  SLACK_HOST: z.string().default('127.0.0.1'),
  SLACK_PORT: Whole(0, 65_535).default(3000),
  /** Where the platform reaches our own server, without a path. */
  SLACK_PUBLIC_URL: PublicAddress.optional(),
  SLACK_PICTURES: z.enum(['address', 'upload', 'off'], 'is address, upload or off').optional(),
});

export type Env = Readonly<Record<string, string | undefined>>;

/** Whose tokens are used: those of one workspace, or of every workspace that installs the program. */
export type Tenancy =
  | { readonly kind: 'one'; readonly botToken: string }
  | {
      readonly kind: 'many';
      readonly clientId: string;
      readonly clientSecret: string;
      readonly stateSecret: string;
    };

export type Receiving =
  | { readonly kind: 'socket'; readonly appToken: string }
  | { readonly kind: 'http'; readonly signingSecret: string };

export type PictureWay =
  | { readonly kind: 'address'; readonly base: string; readonly secret: string }
  | { readonly kind: 'upload' | 'none' };

export type Config = {
  readonly api: string;
  readonly logLevel: string;
  readonly records: Where;
  readonly receiving: Receiving;
  readonly tenancy: Tenancy;
  readonly host: string;
  readonly port: number;
  readonly pictures: PictureWay;
  readonly publicUrl: string | null;
};

type Told = z.infer<typeof Settings>;

/** How to run, from the environment. Every setting that is missing or wrong is named at once. */
export function readConfig(env: Env): Config {
  const told = Object.fromEntries(
    Object.entries(env).filter(([, value]) => value !== undefined && value.trim() !== ''),
  );
  const result = Settings.safeParse(told);
  const faults = result.success ? [] : result.error.issues.map(({ path, message }) => `${String(path[0])} ${message}`);
  if (!result.success) throw refused(faults);
  const settings = result.data;
  const receiving = receivingOf(settings, faults);
  const tenancy = tenancyOf(settings, faults);
  const pictures = picturesOf(settings, receiving, faults);
  if (receiving === null || tenancy === null || pictures === null || faults.length > 0) throw refused(faults);
  return {
    api: `${settings.SLACK_API}/`,
    logLevel: settings.LOG_LEVEL,
    records: whereKept(settings),
    receiving,
    tenancy,
    host: settings.SLACK_HOST,
    port: settings.SLACK_PORT,
    pictures,
    publicUrl: settings.SLACK_PUBLIC_URL ?? null,
  };
}

function refused(faults: readonly string[]): ConfigError {
  return new ConfigError(`${[...new Set(faults)].join('; ')}. What each means stands in deploy/slack.md.`);
}

function receivingOf({ SLACK_MODE, SLACK_APP_TOKEN, SLACK_SIGNING_SECRET }: Told, faults: string[]): Receiving | null {
  if (SLACK_MODE === 'http') {
    if (SLACK_SIGNING_SECRET !== undefined) return { kind: 'http', signingSecret: SLACK_SIGNING_SECRET };
    faults.push('SLACK_SIGNING_SECRET is missing');
    return null;
  }
  if (SLACK_APP_TOKEN !== undefined) return { kind: 'socket', appToken: SLACK_APP_TOKEN };
  faults.push('SLACK_APP_TOKEN is missing');
  return null;
}

function tenancyOf(told: Told, faults: string[]): Tenancy | null {
  const { SLACK_BOT_TOKEN, SLACK_CLIENT_ID, SLACK_CLIENT_SECRET, SLACK_STATE_SECRET, SLACK_PUBLIC_URL } = told;
  const many = [SLACK_CLIENT_ID, SLACK_CLIENT_SECRET, SLACK_STATE_SECRET].some((each) => each !== undefined);
  if (SLACK_BOT_TOKEN !== undefined && many) {
    faults.push('SLACK_BOT_TOKEN is for one workspace, SLACK_CLIENT_ID for many; set either');
    return null;
  }
  if (SLACK_BOT_TOKEN !== undefined) return { kind: 'one', botToken: SLACK_BOT_TOKEN };
  if (!many) {
    faults.push('SLACK_BOT_TOKEN is missing (or, for many workspaces, SLACK_CLIENT_ID)');
    return null;
  }
  const needed = { SLACK_CLIENT_ID, SLACK_CLIENT_SECRET, SLACK_STATE_SECRET, SLACK_PUBLIC_URL };
  for (const [name, value] of Object.entries(needed)) if (value === undefined) faults.push(`${name} is missing`);
  if (SLACK_CLIENT_ID === undefined || SLACK_CLIENT_SECRET === undefined || SLACK_STATE_SECRET === undefined)
    return null;
  return {
    kind: 'many',
    clientId: SLACK_CLIENT_ID,
    clientSecret: SLACK_CLIENT_SECRET,
    stateSecret: SLACK_STATE_SECRET,
  };
}

/** An address where there is a public one, else uploads; the address is signed with what every process shares. */
function picturesOf(
  { SLACK_PICTURES, SLACK_PUBLIC_URL }: Told,
  receiving: Receiving | null,
  faults: string[],
): PictureWay | null {
  const way = SLACK_PICTURES ?? (SLACK_PUBLIC_URL === undefined ? 'upload' : 'address');
  if (way === 'off') return { kind: 'none' };
  if (way === 'upload') return { kind: 'upload' };
  if (SLACK_PUBLIC_URL === undefined) {
    faults.push('SLACK_PUBLIC_URL is missing: SLACK_PICTURES=address needs it');
    return null;
  }
  if (receiving === null) return null;
  const secret = receiving.kind === 'http' ? receiving.signingSecret : receiving.appToken;
  return { kind: 'address', base: SLACK_PUBLIC_URL, secret };
}
