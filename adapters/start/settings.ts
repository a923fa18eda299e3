import { parseArgs } from 'node:util';

export type Env = Readonly<Record<string, string | undefined>>;

/** A setting of a platform, and what it is needed for. */
type Setting = { readonly name: string; readonly neededFor: string };

/** A chat platform: its settings, and how it reads them. */
export type Platform = {
  readonly name: string;
  readonly settings: readonly Setting[];
  /** Throws where the settings do not do; the message names settings and never has a value in it. */
  readonly read: (env: Env) => unknown;
};

/** The settings that a platform cannot do without in one way of running it or another. */
export const PLATFORM_SETTINGS = {
  discord: {
    name: 'Discord',
    settings: [
      { name: 'DISCORD_TOKEN', neededFor: 'answering on Discord, and for registering its commands' },
      { name: 'DISCORD_APPLICATION_ID', neededFor: 'registering the commands on Discord' },
      { name: 'DISCORD_PUBLIC_KEY', neededFor: 'Discord over a web address of your own (DISCORD_MODE=http)' },
    ],
  },
  slack: {
    name: 'Slack',
    settings: [
      { name: 'SLACK_BOT_TOKEN', neededFor: 'answering in one Slack workspace' },
      { name: 'SLACK_APP_TOKEN', neededFor: 'Slack without a web address of your own (SLACK_MODE=socket)' },
      { name: 'SLACK_SIGNING_SECRET', neededFor: 'Slack over a web address of your own (SLACK_MODE=http)' },
      { name: 'SLACK_CLIENT_ID', neededFor: 'many Slack workspaces' },
      { name: 'SLACK_CLIENT_SECRET', neededFor: 'many Slack workspaces' },
      { name: 'SLACK_STATE_SECRET', neededFor: 'many Slack workspaces' },
      { name: 'SLACK_PUBLIC_URL', neededFor: 'many Slack workspaces, and for pictures by address' },
    ],
  },
} as const satisfies Readonly<Record<string, Omit<Platform, 'read'>>>;

/** Where the practice room is looked for first. */
const USUAL_PORT = 4179;

export type Told =
  | { readonly kind: 'start'; readonly port: number }
  | { readonly kind: 'doctor' | 'selftest' }
  | { readonly kind: 'refused'; readonly words: string };

/** What the words behind the program ask for. */
export function readArgs(args: readonly string[]): Told {
  const refused: Told = {
    kind: 'refused',
    words: 'Only --port with a number from 0 to 65535 is understood, as in: npm start -- --port 5000',
  };
  try {
    const { values, positionals } = parseArgs({
      args: [...args],
      options: { port: { type: 'string' } },
      allowPositionals: true,
      strict: true,
    });
    const [task, ...more] = positionals;
    if (more.length > 0) return refused;
    if (task === 'doctor' || task === 'selftest') return { kind: task };
    if (task !== undefined) return refused;
    const { port = String(USUAL_PORT) } = values;
    return /^\d{1,5}$/.test(port) && Number(port) <= 65_535 ? { kind: 'start', port: Number(port) } : refused;
  } catch {
    return refused;
  }
}

/** Whether any setting of the platform is there. */
export function isSetUp({ settings }: Pick<Platform, 'settings'>, env: Env): boolean {
  return settings.some(({ name }) => isTold(env[name]));
}

/** A setting that is there and empty is one that nobody has set. */
export function isTold(value: string | undefined): boolean {
  return value !== undefined && value.trim() !== '';
}
