import type { z } from 'zod';
import { ConfigError } from '../../src/config-error.ts';
import { factsOf } from './facts.ts';
import { type Env, fileNameOf, isTold, type ReadSecret, withSecrets } from './secret-files.ts';

/** Settings as they were told, with everything that is wrong gathered until somebody asks whether all is well. */
export type Reading<Told> = {
  /** What was told and is right; what is wrong counts here as not told. */
  readonly told: Told;
  readonly isWrong: (name: keyof Told & string) => boolean;
  /** Notes something more that is wrong. */
  readonly fault: (words: string) => void;
  /** The value of a setting there is no way without. */
  readonly need: <Name extends keyof Told & string>(name: Name, words?: string) => NonNullable<Told[Name]> | null;
  /** Gives the outcome back where nothing is wrong. */
  readonly settle: <Outcome>(outcome: Outcome | null) => Outcome;
};

/**
 * Reads the settings that a shape has. `about` says who asks, and where each of them is explained.
 *
 * @throws ConfigError from `settle`, with everything that is wrong, and without any value
 */
export function readSettings<Shape extends z.ZodObject>(
  shape: Shape,
  env: Env,
  readSecret: ReadSecret,
  about: { readonly code: string; readonly page: string },
): Reading<z.output<Shape>> {
  const secrets = secretNames(shape);
  const { env: whole, faults: unread } = withSecrets(env, secrets, readSecret);
  const wrong = new Map<string, string>(unread.map(({ name, words }) => [name, words]));
  const more: string[] = [];
  const given = () =>
    Object.fromEntries(Object.entries(whole).filter(([name, text]) => isTold(text) && !wrong.has(name)));
  const first = shape.safeParse(given());
  for (const { path, message } of first.error?.issues ?? []) {
    const name = String(path[0]);
    if (!wrong.has(name)) wrong.set(name, `${isTold(env[name]) ? name : fileNameOf(name)} ${message}`);
  }
  // What is wrong is left out the second time, so that the rest can be looked at as well.
  const told = shape.parse(given());
  return {
    told,
    isWrong: (name) => wrong.has(name),
    fault: (words) => void more.push(words),
    need: (name, words = `${name} is missing`) => {
      const value = told[name];
      if (value !== undefined && value !== null) return value;
      if (!wrong.has(name)) more.push(words);
      return null;
    },
    settle: (outcome) => {
      const faults = [...new Set([...wrong.values(), ...more])];
      if (outcome !== null && faults.length === 0) return outcome;
      throw new ConfigError(about.code, `${faults.join('; ')}. What each means stands in ${about.page}.`);
    },
  };
}

/** The settings of a shape that may stand in files. */
export function secretNames(shape: z.ZodObject): readonly string[] {
  return Object.entries(shape.shape)
    .filter(([, each]) => factsOf(each).secret)
    .map(([name]) => name);
}
