import { parseArgs } from 'node:util';
import type { Refusal } from '../../src/bike/reading.ts';
import { readPerson } from '../../src/records/place.ts';
import type { Where } from '../../src/records/where.ts';
import { recordPlace } from '../settings/record-place.ts';
import { readSecretFile } from '../settings/secret-files.ts';
import { NARROWEST_COLUMNS, USUAL_COLUMNS, WIDEST_COLUMNS } from './limits.ts';
import type { Sitter } from './records.ts';
import type { Look } from './render.ts';

/** What the program was started with and in, as far as it matters here. */
export type Surroundings = {
  readonly args: readonly string[];
  readonly env: Readonly<Record<string, string | undefined>>;
  /** Whether the answer goes to a terminal, and how many columns that has. */
  readonly screen: { readonly isTTY: boolean; readonly columns: number | undefined };
};

export type Config = {
  readonly output: 'text' | 'json';
  readonly look: Look;
  /** Whether the text also shows how every number came about. */
  readonly why: boolean;
} & (
  | {
      readonly kind: 'run';
      readonly words: readonly string[];
      /** The folder that pictures are written to; null where none are wanted. */
      readonly picturesTo: string | null;
      readonly where: Where;
      readonly sitter: Sitter;
    }
  | { readonly kind: 'refused'; readonly refusal: Refusal }
);

const OPTIONS = {
  json: { type: 'boolean' },
  plain: { type: 'boolean' },
  why: { type: 'boolean' },
  width: { type: 'string' },
  pictures: { type: 'string' },
  as: { type: 'string' },
  role: { type: 'string', multiple: true },
  help: { type: 'boolean', short: 'h' },
} as const;

/** Who sits here until `--as` says otherwise. */
const USUAL_PERSON = 'me';

const ALLOWED = `--json, --plain, --why, --width ${NARROWEST_COLUMNS} to ${WIDEST_COLUMNS}, --pictures DIR, --as NAME, --role NAME, --help`;
const EXAMPLE = 'convert 2x10 36/22 11-36 29er hardtail --width 60';

/** Reads the arguments. A flag that is not known or contradicts another is refused in one sentence. */
export function readConfig({ args, env, screen }: Surroundings): Config {
  // Where the flags cannot be read, what was asked for is still answered in its own form.
  const asked = args.includes('--json') ? 'json' : 'text';
  const usual = look(args.includes('--plain'), undefined, env, screen);
  const refuse = (message: string): Config => ({
    kind: 'refused',
    output: asked,
    look: usual,
    why: false,
    refusal: { field: 'command', message, allowed: ALLOWED, example: EXAMPLE },
  });

  const parsed = parseFlags(args);
  if (parsed === undefined) return refuse(wrongFlag(args));
  const { values, positionals } = parsed;
  if (values.json && (values.plain || values.why || values.width !== undefined)) {
    return refuse('--json is for machines and always whole; --plain, --why and --width are for readers. Choose one.');
  }
  const width = values.width === undefined ? undefined : columns(values.width);
  if (width === null) return refuse(`--width is a whole number from ${NARROWEST_COLUMNS} to ${WIDEST_COLUMNS}.`);
  const picturesTo = values.pictures ?? null;
  if (picturesTo !== null && (picturesTo.trim() === '' || positionals.length === 0)) {
    return refuse('--pictures needs a folder, and a question on the same line.');
  }
  const person = readPerson(values.as ?? USUAL_PERSON);
  if (person === null) return refuse('--as is a name of up to 100 characters without blanks.');
  const place = recordPlace(env, readSecretFile);
  if (place.kind === 'fault') return refuse(`${place.words}.`);
  return {
    kind: 'run',
    picturesTo,
    where: place.where,
    sitter: { person, roles: values.role ?? [] },
    output: asked,
    why: values.why ?? false,
    look: look(values.plain ?? false, width, env, screen),
    words: values.help ? ['help', ...positionals] : positionals,
  };
}

function parseFlags(args: readonly string[]) {
  // "-32" is a number somebody typed, not a flag: with a true minus sign it reaches the reader of setup lines.
  const told = args.map((arg) => (/^-[\d.]/.test(arg) ? `−${arg.slice(1)}` : arg));
  try {
    return parseArgs({ args: told, options: OPTIONS, allowPositionals: true, strict: true });
  } catch {
    return undefined;
  }
}

function wrongFlag(args: readonly string[]): string {
  const unknown = args.find((arg) => /^--?[^-\d.]/.test(arg) && arg !== '-h' && !(flagName(arg) in OPTIONS));
  if (unknown === undefined) return 'A flag lacks its value, or has one that it does not take.';
  return `"${[...unknown].slice(0, 40).join('')}" is not a flag here. Words about the bike need no dashes in front.`;
}

function flagName(arg: string): string {
  return arg.replace(/^--?/, '').replace(/=.*$/s, '');
}

function columns(text: string): number | null {
  if (!/^\d{1,3}$/.test(text)) return null;
  const width = Number(text);
  return width < NARROWEST_COLUMNS || width > WIDEST_COLUMNS ? null : width;
}

function look(
  plain: boolean,
  wanted: number | undefined,
  env: Surroundings['env'],
  screen: Surroundings['screen'],
): Look {
  const fitted = screen.columns && Math.min(Math.max(screen.columns, NARROWEST_COLUMNS), WIDEST_COLUMNS);
  const width = wanted ?? (screen.isTTY ? fitted : undefined);
  // Sentences in a file or a pipe are left whole: whatever reads them wraps them.
  if (plain) return { kind: 'spoken', width: width ?? null };
  const colour = screen.isTTY && !env.NO_COLOR && env.TERM !== 'dumb';
  return { kind: 'screen', width: width ?? USUAL_COLUMNS, colour };
}
