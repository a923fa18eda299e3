import { KEYS, type Key, type KeyName } from '../../src/bike/keys.ts';
import { COMMAND_NAMES } from './line.ts';

const KEY_NAMES = Object.keys(KEYS) as KeyName[];

/** What the conversation itself understands besides commands. */
export const OWN_WORDS: readonly string[] = ['all', 'forget', 'quit'];

/**
 * What the last word of a line can become: a command or a word of the conversation at the start, a key with its `=`
 * anywhere, and after a key of fixed choices those choices. Gives the completions and the word they replace.
 */
export function complete(line: string): [string[], string] {
  const start = Math.max(line.lastIndexOf(' '), line.lastIndexOf(',')) + 1;
  const word = line.slice(start).toLowerCase();
  const equals = word.indexOf('=');
  if (equals !== -1) {
    const name = KEY_NAMES.find((key) => key === word.slice(0, equals));
    return [matching(name === undefined ? [] : choices(KEYS[name]).map((choice) => `${name}=${choice}`), word), word];
  }
  const leading = line.slice(0, start).trim() === '' ? [...COMMAND_NAMES, ...OWN_WORDS] : [];
  return [matching([...leading, ...KEY_NAMES.map((key) => `${key}=`)], word), word];
}

function choices(key: Key): readonly string[] {
  return key.form === 'yes-no' ? ['yes', 'no'] : (key.choices ?? []);
}

function matching(all: readonly string[], start: string): string[] {
  return all.filter((each) => each.startsWith(start));
}
