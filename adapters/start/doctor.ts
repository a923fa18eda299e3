import { ConfigError } from '../../src/config-error.ts';
import type { Env } from '../settings/secret-files.ts';
import type { Stranger } from '../settings/strangers.ts';
import { howTold, isSetUp, type Platform, togetherFault } from './config.ts';

/**
 * One thing looked at: how it stands, in words. A `wrong` one keeps the program from working as it is set up, a
 * `doubtful` one may be meant so.
 */
export type Finding = {
  readonly kind: 'good' | 'optional' | 'doubtful' | 'wrong';
  readonly what: string;
  readonly words: string;
};

/** What is looked at; `main` brings what reaches other parts. */
export type Patient = {
  readonly env: Env;
  readonly runtime: string;
  readonly nowMs: number;
  /** Opens the records, changes nothing, and closes them again; says in words how that went, or throws. */
  readonly tryStorage: () => Promise<string>;
  readonly platforms: readonly Platform[];
  /** Names in the environment that were perhaps meant as settings. */
  readonly strangers: readonly Stranger[];
};

const LEAST_RUNTIME = 24;

/** A clock before this was never set: calibration days and kept days would be counted wrongly. */
const NEVER_SET_BEFORE_MS = Date.UTC(2025, 0, 1);
const NEVER_SET_AFTER_MS = Date.UTC(2100, 0, 1);

/**
 * Looks at everything that must be right for the program to run here. Of the values of settings it tells none but where
 * the file lies.
 */
export async function examine(patient: Patient): Promise<readonly Finding[]> {
  return [
    runtime(patient.runtime),
    await storage(patient.tryStorage),
    clock(patient.nowMs),
    ...patient.platforms.flatMap((platform) => platformFindings(platform, patient.env)),
    ...together(patient),
    ...patient.strangers.map(strangerFinding),
  ];
}

export function findingLine({ kind, what, words }: Finding): string {
  const mark = { good: 'good    ', optional: 'optional', doubtful: 'doubtful', wrong: 'WRONG   ' }[kind];
  return `${mark}  ${what}: ${words}`;
}

function runtime(version: string): Finding {
  const major = Number(/^v?(\d+)/.exec(version)?.[1] ?? 0);
  return major >= LEAST_RUNTIME
    ? { kind: 'good', what: 'Runtime', words: `Node ${version}` }
    : {
        kind: 'wrong',
        what: 'Runtime',
        words: `Node ${version} is too old; ${LEAST_RUNTIME} or newer. Start through npm, which brings its own.`,
      };
}

async function storage(tryStorage: Patient['tryStorage']): Promise<Finding> {
  try {
    return { kind: 'good', what: 'Storage', words: await tryStorage() };
  } catch (error) {
    if (error instanceof ConfigError) {
      return { kind: 'wrong', what: 'Storage', words: error.message };
    }
    const code = error instanceof Error && 'code' in error ? ` (${String(error.code)})` : '';
    return {
      kind: 'wrong',
      what: 'Storage',
      words: `cannot be opened and written${code}. Questions are answered all the same; nothing can be kept.`,
    };
  }
}

function clock(nowMs: number): Finding {
  const day = new Date(nowMs).toISOString().slice(0, 16).replace('T', ' ');
  return nowMs > NEVER_SET_BEFORE_MS && nowMs < NEVER_SET_AFTER_MS
    ? { kind: 'good', what: 'Clock', words: `${day} UTC; please compare it with yours` }
    : { kind: 'wrong', what: 'Clock', words: `${day} UTC cannot be; days of calibration would be counted wrongly` };
}

function platformFindings(platform: Platform, env: Env): readonly Finding[] {
  const { name, settings, read } = platform;
  const listed = settings.map((setting): Finding => {
    const told = howTold(setting, env);
    if (told !== null) {
      return { kind: 'good', what: setting.name, words: told === 'itself' ? 'is set' : 'is set, in a file' };
    }
    const from = setting.from === null ? '' : `; from: ${setting.from.replaceAll('`', '')}`;
    return {
      kind: 'optional',
      what: setting.name,
      words: `missing: optional, needed for ${setting.neededFor}${from}`,
    };
  });
  if (!isSetUp(platform, env)) {
    return [{ kind: 'optional', what: name, words: 'is not set up, and need not be' }, ...listed];
  }
  try {
    read(env);
    return [{ kind: 'good', what: name, words: 'its settings are complete' }, ...listed];
  } catch (error) {
    const why = error instanceof ConfigError ? error.message : 'its settings cannot be read';
    return [{ kind: 'wrong', what: name, words: why }, ...listed];
  }
}

function together({ platforms, env }: Patient): readonly Finding[] {
  const why = togetherFault(platforms, env);
  return why === null ? [] : [{ kind: 'wrong', what: 'Watching', words: why }];
}

function strangerFinding({ name, meant }: Stranger): Finding {
  const words = meant === null ? 'is not a setting of any program here' : `is not a setting; did you mean ${meant}?`;
  return { kind: 'doubtful', what: name, words };
}
