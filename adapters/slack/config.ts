import { type Reading, readSettings } from '../settings/reading.ts';
import { checkWatchPort, type Running, runningOf } from '../settings/running.ts';
import type { Env, ReadSecret } from '../settings/secret-files.ts';
import { SlackSettings } from '../settings/settings.ts';

const ABOUT = { code: 'slack-settings', page: 'deploy/slack.md' };

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

export type Config = Running & {
  readonly api: string;
  readonly receiving: Receiving;
  readonly tenancy: Tenancy;
  readonly host: string;
  readonly port: number;
  readonly pictures: PictureWay;
  readonly publicUrl: string | null;
};

type Told = ReturnType<typeof readSlack>['told'];

/** Whether a server opens: over a socket only for whoever installs the program, and for pictures by their address. */
function isListening(reading: Reading<Told>): boolean {
  return reading.told.SLACK_MODE === 'http' || isForMany(reading) || picturesTold(reading.told) === 'address';
}

/** How to run, from the environment. Every setting that is missing or wrong is named at once. */
export function readConfig(env: Env, readSecret: ReadSecret): Config {
  const reading = readSlack(env, readSecret);
  const { told } = reading;
  const receiving = receivingOf(reading);
  const tenancy = tenancyOf(reading);
  const pictures = picturesOf(reading, receiving);
  if (isListening(reading)) checkWatchPort(reading, 'SLACK_PORT', told.SLACK_PORT);
  if (receiving === null || tenancy === null || pictures === null) return reading.settle<Config>(null);
  return reading.settle({
    ...runningOf(told),
    api: `${told.SLACK_API}/`,
    receiving,
    tenancy,
    host: told.SLACK_HOST,
    port: told.SLACK_PORT,
    pictures,
    publicUrl: told.SLACK_PUBLIC_URL ?? null,
  });
}

function readSlack(env: Env, readSecret: ReadSecret) {
  return readSettings(SlackSettings, env, readSecret, ABOUT);
}

function receivingOf({ told, isWrong, need }: Reading<Told>): Receiving | null {
  // Which of the two is missing depends on the mode.
  if (isWrong('SLACK_MODE')) return null;
  if (told.SLACK_MODE === 'http') {
    const signingSecret = need('SLACK_SIGNING_SECRET');
    return signingSecret === null ? null : { kind: 'http', signingSecret };
  }
  const appToken = need('SLACK_APP_TOKEN');
  return appToken === null ? null : { kind: 'socket', appToken };
}

const REGISTRATION = ['SLACK_CLIENT_ID', 'SLACK_CLIENT_SECRET', 'SLACK_STATE_SECRET'] as const;

function isForMany({ told, isWrong }: Reading<Told>): boolean {
  return REGISTRATION.some((name) => told[name] !== undefined || isWrong(name));
}

function tenancyOf(reading: Reading<Told>): Tenancy | null {
  const { told, isWrong, need, fault } = reading;
  if (!isForMany(reading)) {
    const botToken = need('SLACK_BOT_TOKEN', 'SLACK_BOT_TOKEN is missing (or, for many workspaces, SLACK_CLIENT_ID)');
    return botToken === null ? null : { kind: 'one', botToken };
  }
  if (told.SLACK_BOT_TOKEN !== undefined || isWrong('SLACK_BOT_TOKEN')) {
    fault('SLACK_BOT_TOKEN is for one workspace, SLACK_CLIENT_ID for many; set either');
    return null;
  }
  const [clientId, clientSecret, stateSecret] = [
    need('SLACK_CLIENT_ID'),
    need('SLACK_CLIENT_SECRET'),
    need('SLACK_STATE_SECRET'),
  ];
  need('SLACK_PUBLIC_URL');
  if (clientId === null || clientSecret === null || stateSecret === null) return null;
  return { kind: 'many', clientId, clientSecret, stateSecret };
}

/** An address where there is a public one, else uploads. */
function picturesTold({ SLACK_PICTURES, SLACK_PUBLIC_URL }: Told): 'address' | 'upload' | 'off' {
  return SLACK_PICTURES ?? (SLACK_PUBLIC_URL === undefined ? 'upload' : 'address');
}

/** The address is signed with what every process shares. */
function picturesOf({ told, need }: Reading<Told>, receiving: Receiving | null): PictureWay | null {
  const way = picturesTold(told);
  if (way === 'off') return { kind: 'none' };
  if (way === 'upload') return { kind: 'upload' };
  const base = need('SLACK_PUBLIC_URL', 'SLACK_PUBLIC_URL is missing: SLACK_PICTURES=address needs it');
  if (base === null || receiving === null) return null;
  const secret = receiving.kind === 'http' ? receiving.signingSecret : receiving.appToken;
  return { kind: 'address', base, secret };
}
