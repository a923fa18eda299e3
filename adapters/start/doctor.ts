import { type Env, isSetUp, isTold, type Platform } from './settings.ts';

/** One thing looked at: how it stands, in words. A `wrong` one keeps the program from working as it is set up. */
export type Finding = { readonly kind: 'good' | 'optional' | 'wrong'; readonly what: string; readonly words: string };

/** What is looked at; `main` brings what reaches other parts. */
export type Patient = {
  readonly env: Env;
  readonly runtime: string;
  readonly nowMs: number;
  /** Opens the records and closes them again; says in words how that went, or throws. */
  readonly tryStorage: () => Promise<string>;
  readonly platforms: readonly Platform[];
};

const LEAST_RUNTIME = 24;

/** A clock before this was never set: calibration days and kept days would be counted wrongly. */
const NEVER_SET_BEFORE_MS = Date.UTC(2025, 0, 1);
const NEVER_SET_AFTER_MS = Date.UTC(2100, 0, 1);

/** Looks at everything that must be right for the program to run here. Never tells the value of a setting. */
export async function examine(patient: Patient): Promise<readonly Finding[]> {
  return [
    runtime(patient.runtime),
    await storage(patient.tryStorage),
    clock(patient.nowMs),
    ...patient.platforms.flatMap((platform) => platformFindings(platform, patient.env)),
  ];
}

export function findingLine({ kind, what, words }: Finding): string {
  const mark = { good: 'good    ', optional: 'optional', wrong: 'WRONG   ' }[kind];
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
  const listed = settings.map(({ name: setting, neededFor }): Finding => {
    const told = isTold(env[setting]);
    return {
      kind: told ? 'good' : 'optional',
      what: setting,
      words: told ? 'is set' : `missing: optional, needed for ${neededFor}`,
    };
  });
  if (!isSetUp(platform, env)) {
    return [{ kind: 'optional', what: name, words: 'is not set up, and need not be' }, ...listed];
  }
  try {
    read(env);
    return [{ kind: 'good', what: name, words: 'its settings are complete' }, ...listed];
  } catch (error) {
    const why = error instanceof Error && error.name === 'ConfigError' ? error.message : 'its settings cannot be read';
    return [{ kind: 'wrong', what: name, words: why }, ...listed];
  }
}
