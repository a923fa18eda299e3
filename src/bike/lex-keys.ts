import type { Item } from './items.ts';
import { readValue } from './key-readers.ts';
import { ALL_KEY_NAMES, keyNamed, PART_NAMES } from './key-synonyms.ts';
import { KEYS, type Key, type KeyName } from './keys.ts';
import { nearest } from './nearest.ts';
import { shown } from './normalise.ts';
import { unitOf } from './quantities.ts';
import type { ReadValue } from './read-value.ts';
import { unknownValue } from './told-unknown.ts';
import { BREAK } from './words.ts';

/** `key=value`, the value longer by the words that make it whole: "stays=17 3/8 in", "mount=direct mount". */
export function lexKey(words: readonly string[], at: number, items: Item[]): number {
  const word = words[at] ?? '';
  const from = word.indexOf('=');
  const name = word.slice(0, from);
  let text = word.slice(from + 1);
  const part = PART_NAMES.get(name.replace(/[-_ ]/g, ''));
  const key = keyNamed(name);
  if (key === undefined && part === undefined) {
    items.push(unknownKey(name, word));
    return at + 1;
  }
  let next = at + 1;
  const forced = text.endsWith('!');
  if (forced) text = text.slice(0, -1);
  else {
    for (let more = 0; more < 3 && belongs(key, text, words[next] ?? '', words[next + 1] ?? ''); more += 1) {
      text += key !== undefined && isList(key) && words[next] === BREAK ? '' : ` ${words[next] ?? ''}`;
      next += 1;
    }
  }
  if (part !== undefined && key === undefined) {
    const read = readValue('maxcog', text);
    const teeth = /^(\d{1,2})t?$/.exec(text);
    if (teeth !== null) items.push({ kind: 'part', part, teeth: Number(teeth[1]), text: word });
    else if (read.kind === 'refused') items.push({ kind: 'refused', refusal: read.refusal });
    else items.push({ kind: 'unread', text: word });
    return next;
  }
  if (key === undefined) return next;
  const unknown = unknownValue(text, words, at + 1);
  if (unknown > 0) {
    items.push({ kind: 'unread', text: name });
    return at + unknown;
  }
  const mark = forced ? ({ forced: true } as const) : {};
  const circles = key === 'bcd' ? CIRCLES.exec(text.trim()) : null;
  if (circles !== null) {
    for (const [part, circle] of [['bcd', circles[1]] as const, ['innerbcd', circles[2]] as const]) {
      pushRead(part, readValue(part, circle ?? ''), `${part}=${circle}`, mark, items);
    }
    return next;
  }
  pushRead(key, readValue(key, text.trim()), `${name}=${text}`, mark, items);
  return next;
}

/** "bcd=104/64": the outer circle of a crank and its inner one. */
const CIRCLES = /^(\d{2,3}(?:\.\d)?) ?[/-] ?(\d{2}(?:\.\d)?) ?(?:mm)?$/;

function pushRead(key: KeyName, read: ReadValue, text: string, mark: { readonly forced?: true }, items: Item[]): void {
  switch (read.kind) {
    case 'value':
      items.push({ kind: 'fact', key, value: read.value, text, ...mark });
      break;
    case 'open':
      items.push({ kind: 'open', question: read.question, ...mark });
      break;
    case 'refused':
      items.push({ kind: 'refused', refusal: read.refusal });
      break;
  }
}

/** Whether a word goes on with the value before it. */
function belongs(key: KeyName | undefined, text: string, word: string, after: string): boolean {
  if (key === undefined || word === '' || word.includes('=')) return false;
  const { form } = KEYS[key] as Key;
  switch (form) {
    case 'choice':
    case 'yes-no':
      return word !== BREAK && readValue(key, `${text} ${word}`).kind === 'value';
    case 'teeth-list':
    case 'cassette':
      if (unitOf(word) === 'teeth') return true;
      return word === '/' || word === '-' || ((text.endsWith('/') || text.endsWith('-')) && /^\d/.test(word));
    case 'wheel':
      if (word === 'x' || text.endsWith(' x')) return /^\d/.test(word === 'x' ? after : word);
      return word !== BREAK && readValue(key, `${text} ${word}`).kind !== 'refused';
    default: {
      if (word === BREAK) return false;
      if (/^\d{1,2}\/(?:2|4|8|16|32)(?:in|")?$/.test(word)) return /^\d{1,2}$/.test(text);
      if (form === 'lengths' && word === 'and' && /^\d/.test(after)) return true;
      if (form === 'lengths' && text.endsWith(' and')) return true;
      return unitOf(word) !== null && unitOf(word) !== 'teeth' && !/[a-z"%°]$/.test(text)
        ? true
        : unitOf(word) === 'teeth' && form === 'teeth';
    }
  }
}

function isList(key: KeyName): boolean {
  const { form } = KEYS[key];
  return form === 'teeth-list' || form === 'cassette';
}

function unknownKey(name: string, word: string): Item {
  return /^[a-z_][a-z0-9_ -]{0,39}$/.test(name) ? refusedKey(name) : { kind: 'unread', text: word };
}

function refusedKey(name: string): Item {
  const keys = [...new Set(nearest(name.replace(/[-_ ]/g, ''), ALL_KEY_NAMES).map((near) => keyNamed(near) ?? 'ring'))];
  const [first = 'ring'] = keys;
  return {
    kind: 'refused',
    refusal: {
      field: 'setup',
      message: `"${shown(name)}" is no key known here.`,
      allowed: keys.length > 0 ? `perhaps ${keys.join(' or ')}; help lists them all` : 'the keys that help lists',
      example: KEYS[first].example,
    },
  };
}

/** A typed option as an item: like `key=value`, only that the name is never a rider's own word. */
export function lexOption(name: string, text: string): Item {
  const key = keyNamed(name);
  if (key === undefined) return refusedKey(name);
  const read = readValue(key, text);
  switch (read.kind) {
    case 'value':
      return { kind: 'fact', key, value: read.value, text: `${name}=${text}` };
    case 'open':
      return { kind: 'open', question: read.question };
    case 'refused':
      return { kind: 'refused', refusal: read.refusal };
  }
}

/** Joins the words of a key that has several: "chain stay=440" is one key and its value. */
export function mergeKeys(words: readonly string[]): readonly string[] {
  if (!words.some((word) => word.includes('='))) return words;
  const merged: string[] = [];
  for (const word of words) {
    const from = word.indexOf('=');
    const taken = from > 0 ? wordsOfKey(merged, word.slice(0, from)) : 0;
    if (taken === 0) merged.push(word);
    else merged.push(merged.splice(-taken).join('') + word);
  }
  return merged;
}

/** How many of the words before an equals sign belong to the key. */
function wordsOfKey(words: readonly string[], name: string): number {
  for (const taken of [2, 1]) {
    if (words.length < taken) continue;
    const whole = words.slice(-taken).join('') + name;
    // "ring bolts=4" is bolts either way; only what turns it into another key belongs to it.
    const key = keyNamed(whole);
    if ((key !== undefined && key !== keyNamed(name)) || PART_NAMES.has(whole)) return taken;
  }
  return 0;
}
