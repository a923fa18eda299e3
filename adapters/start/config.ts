import { parseArgs } from 'node:util';
import type { z } from 'zod';
import { factsOf } from '../settings/facts.ts';
import { type Env, fileNameOf, isTold } from '../settings/secret-files.ts';
import { GROUPS } from '../settings/settings.ts';

/** A chat platform: the settings that say it is wanted, and how it reads them. */
export type Platform = {
  readonly name: string;
  readonly settings: readonly Wanted[];
  /** Throws where the settings do not do; the message names settings and never has a value in it. */
  readonly read: (env: Env) => unknown;
};

/** A setting that its platform cannot do without in one way of running it or another. */
export type Wanted = {
  readonly name: string;
  readonly neededFor: string;
  /** Where to get it; null where whoever runs the program decides. */
  readonly from: string | null;
  /** Whether it may stand in a file that another setting names. */
  readonly secret: boolean;
};

/** The platforms there are, with what each cannot do without. */
export const PLATFORMS = {
  discord: { name: GROUPS.discord.title, settings: wanted(GROUPS.discord.settings) },
  slack: { name: GROUPS.slack.title, settings: wanted(GROUPS.slack.settings) },
} as const satisfies Readonly<Record<string, Omit<Platform, 'read'>>>;

function wanted(settings: Readonly<Record<string, z.ZodType>>): readonly Wanted[] {
  return Object.entries(settings).flatMap(([name, shape]) => {
    const { neededFor, from = null, secret = false } = factsOf(shape);
    return neededFor === undefined ? [] : [{ name, neededFor, from, secret }];
  });
}

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
  return settings.some((setting) => howTold(setting, env) !== null);
}

/** How a setting is told; null where it is not. */
export function howTold({ name, secret }: Wanted, env: Env): 'itself' | 'in a file' | null {
  if (isTold(env[name])) return 'itself';
  return secret && isTold(env[fileNameOf(name)]) ? 'in a file' : null;
}

/** Why platforms cannot be started beside each other as they are set up; null where they can. */
export function togetherFault(platforms: readonly Pick<Platform, 'settings'>[], env: Env): string | null {
  const count = platforms.filter((platform) => isSetUp(platform, env)).length;
  // At 0 every program finds a port of its own.
  if (count < 2 || !isTold(env.WATCH_PORT) || Number(env.WATCH_PORT) === 0) return null;
  return 'WATCH_PORT is one port and several programs would be watched at it; start each by itself, with its own';
}
