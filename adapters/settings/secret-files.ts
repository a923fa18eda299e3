import { readFileSync, statSync } from 'node:fs';

export type Env = Readonly<Record<string, string | undefined>>;

/** What stands in a file with a secret, or why it cannot be had, in words without the path. */
export type SecretText =
  | { readonly kind: 'read'; readonly text: string }
  | { readonly kind: 'not read'; readonly why: string };

export type ReadSecret = (path: string) => SecretText;

/** As long as one variable of the environment can be on Linux (execve(2), "Limits on size of arguments"): 32 pages. */
const BYTES_AT_MOST = 131_072;

/** Reads a file with a secret. Only a plain file is opened: a pipe could keep a start waiting for ever. */
export const readSecretFile: ReadSecret = (path) => {
  try {
    const file = statSync(path);
    if (!file.isFile()) return { kind: 'not read', why: 'names something that is not a file' };
    if (file.size > BYTES_AT_MOST) return { kind: 'not read', why: `names a file of more than ${BYTES_AT_MOST} bytes` };
    return { kind: 'read', text: readFileSync(path, 'utf8') };
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? error.code : null;
    if (code === 'ENOENT' || code === 'ENOTDIR') return { kind: 'not read', why: 'names a file that is not there' };
    return { kind: 'not read', why: 'names a file that cannot be read' };
  }
};

/** The name under which the environment may name the file of a secret. */
export function fileNameOf(name: string): string {
  return `${name}_FILE`;
}

/** A setting that is there and empty is one that nobody has set. */
export function isTold(value: string | undefined): value is string {
  return value !== undefined && value.trim() !== '';
}

/** What is wrong with a setting; the words begin with the name a person set, and hold no value. */
export type SettingFault = { readonly name: string; readonly words: string };

/** The environment with each named secret that stands in a file put in its place, and what kept one from it. */
export function withSecrets(
  env: Env,
  names: readonly string[],
  readSecret: ReadSecret,
): { readonly env: Env; readonly faults: readonly SettingFault[] } {
  const found: Record<string, string | undefined> = { ...env };
  const faults: SettingFault[] = [];
  for (const name of names) {
    const path = env[fileNameOf(name)];
    if (!isTold(path)) continue;
    const why = isTold(env[name]) ? `and ${name} are both set; keep one of them` : null;
    const secret = why === null ? readSecret(path) : { kind: 'not read' as const, why };
    if (secret.kind === 'not read') faults.push({ name, words: `${fileNameOf(name)} ${secret.why}` });
    else if (!isTold(secret.text)) faults.push({ name, words: `${fileNameOf(name)} names a file with nothing in it` });
    else found[name] = secret.text.replace(/\r?\n$/, '');
  }
  return { env: found, faults };
}
