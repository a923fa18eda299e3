import { KEYS, type Key, type KeyName } from '../../src/bike/keys.ts';
import type { Field } from '../../src/commands/kept.ts';
import { KEPT_COMMANDS } from '../../src/commands/kept-list.ts';
import { COMMANDS } from '../../src/commands/list.ts';
import { inert } from '../../src/inert.ts';
import type { Who } from '../../src/records/place.ts';
import type { Records } from '../../src/records/records.ts';
import { type Suggested, suggest } from '../../src/suggest.ts';
import { LIMITS } from './limits.ts';

/** What may stand next: how it reads, and the whole line with it. */
export type Completion = { readonly label: string; readonly line: string };

type Part = { readonly word: string; readonly label: string };

/** Values of keys that the tables or the records hold. */
const HELD: ReadonlyMap<string, Suggested> = new Map([
  ['cassette', 'cassettes'],
  ['newcassette', 'cassettes'],
  ['bcd', 'circles'],
  ['wheel', 'wheels'],
  ['bike', 'bikes'],
]);

const NAMED: readonly Part[] = [
  ...COMMANDS.map(({ name, summary }) => ({ word: name, label: `${name}: ${summary}` })),
  ...KEPT_COMMANDS.map(({ name, summary }) => ({ word: name, label: `${name}: ${summary}` })),
  { word: 'help', label: 'help: what can be asked here' },
  { word: 'measure', label: 'measure: how to measure, with a picture' },
];

/** What the last word of a line may become. */
export async function complete(typed: string, who: Who, records: Records): Promise<readonly Completion[]> {
  const line = typed.trimStart().replace(/^\//, '');
  const at = Math.max(line.lastIndexOf(' ') + 1, 0);
  const head = line.slice(0, at);
  const word = line.slice(at);
  const [command = ''] = line.toLowerCase().split(' ', 1);
  const parts = head === '' ? startsOf(word) : await partsOf(command, head, word, who, records);
  return parts.slice(0, LIMITS.suggestions).map((part) => ({
    label: inert(part.label),
    line: `${head}${part.word}${part.word.endsWith('=') ? '' : ' '}`,
  }));
}

/** A command, or at once a key of a bike. */
function startsOf(word: string): readonly Part[] {
  const named = beginning(NAMED, word);
  return named.length > 0 || word === '' ? named : keysOf(Object.keys(KEYS), word);
}

async function partsOf(
  command: string,
  head: string,
  word: string,
  who: Who,
  records: Records,
): Promise<readonly Part[]> {
  const kept = KEPT_COMMANDS.find(({ name }) => name === command);
  const words = head.trim().split(/\s+/);
  if (kept !== undefined) {
    if (words.length === 1) {
      return beginning(
        kept.actions.map(({ name, summary }) => ({ word: name, label: `${name}: ${summary}` })),
        word,
      );
    }
    const action = kept.actions.find(({ name }) => name === words[1]?.toLowerCase());
    return action === undefined ? [] : fieldParts(action.fields, words.length - 2, word, who, records);
  }
  const [, key, value] = /^(\p{L}+)=(.*)$/u.exec(word) ?? [];
  if (key !== undefined && value !== undefined) return valuesOf(key.toLowerCase(), value, who, records);
  const keys = COMMANDS.find(({ name }) => name === command)?.keys ?? Object.keys(KEYS);
  return keysOf(['bike', ...keys], word);
}

/** The field whose turn it is, by what the records hold, then the names of the others. */
async function fieldParts(
  fields: readonly Field[],
  told: number,
  word: string,
  who: Who,
  records: Records,
): Promise<readonly Part[]> {
  const [, name, value] = /^(\p{L}+)=(.*)$/u.exec(word) ?? [];
  const field = name === undefined ? fields[told] : fields.find((each) => each.name === name.toLowerCase());
  const begun = name === undefined ? '' : `${name}=`;
  const held = field?.suggest === undefined ? [] : await suggest(field.suggest, value ?? word, who, records);
  const values = held.map((each) => ({ word: begun + quoted(each.value), label: each.label }));
  const choices = (field?.form === 'yes-no' ? ['yes', 'no'] : (field?.choices ?? []))
    .filter((each) => each.startsWith((value ?? word).toLowerCase()))
    .map((each) => ({ word: begun + each, label: each }));
  const names = fields.map((each) => ({ word: `${each.name}=`, label: `${each.name}= ${each.label}` }));
  return [...values, ...choices, ...(name === undefined ? beginning(names, word) : [])];
}

async function valuesOf(name: string, value: string, who: Who, records: Records): Promise<readonly Part[]> {
  const held = HELD.get(name);
  if (held !== undefined) {
    const found = await suggest(held, value, who, records);
    return found.map((each) => ({ word: `${name}=${quoted(each.value)}`, label: `${name}=${each.label}` }));
  }
  const key = keyNamed(name);
  if (key === undefined) return [];
  const choices = key.form === 'yes-no' ? ['yes', 'no'] : (key.choices ?? []);
  return choices
    .filter((each) => each.startsWith(value.toLowerCase()))
    .map((each) => ({ word: `${name}=${each}`, label: `${name}=${each}` }));
}

function keysOf(names: readonly string[], word: string): readonly Part[] {
  const parts = names.map((name) => ({
    word: `${name}=`,
    label: `${name}= ${keyNamed(name)?.label ?? 'A bike kept here'}`,
  }));
  return beginning(parts, word);
}

function keyNamed(name: string): Key | undefined {
  return Object.hasOwn(KEYS, name) ? KEYS[name as KeyName] : undefined;
}

function beginning(parts: readonly Part[], word: string): readonly Part[] {
  return parts.filter((part) => part.word.startsWith(word.toLowerCase()) && part.word !== word);
}

function quoted(value: string): string {
  return /[\s,]/.test(value) ? `"${value}"` : value;
}
