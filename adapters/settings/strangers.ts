import { nearest } from '../../src/bike/nearest.ts';
import { secretNames } from './reading.ts';
import { type Env, fileNameOf, isTold } from './secret-files.ts';
import { Settings } from './settings.ts';

/** A name in the environment that no program reads, and the setting that may have been meant. */
export type Stranger = { readonly name: string; readonly meant: string | null };

const NAMES: ReadonlySet<string> = new Set([
  ...Object.keys(Settings.shape),
  ...secretNames(Settings).map((name) => fileNameOf(name)),
]);

/** Names that begin so are meant for this program, whatever they come near; others begin theirs with DATABASE as well. */
const OWN = /^(?:DISCORD|SLACK|RINGWRIGHT)_/;

/** The names that look as if they were meant as settings, and are none. */
export function strangers(env: Env): readonly Stranger[] {
  return Object.keys(env)
    .filter((name) => isTold(env[name]) && !NAMES.has(name))
    .map((name) => ({ name, meant: meantBy(name) }))
    .filter(({ name, meant }) => meant !== null || OWN.test(name));
}

function meantBy(name: string): string | null {
  // A name of a file is compared by the name of its secret: longer words are not compared at all.
  const [, secret] = /^(.+)_FILE$/.exec(name) ?? [];
  const candidates = secret === undefined ? Object.keys(Settings.shape) : secretNames(Settings);
  const [meant] = nearest((secret ?? name).toUpperCase(), candidates);
  if (meant === undefined) return null;
  return secret === undefined ? meant : fileNameOf(meant);
}
