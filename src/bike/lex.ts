import type { Value } from './fields.ts';
import type { Item } from './items.ts';
import { readValue } from './key-readers.ts';
import { ALL_KEY_NAMES, keyNamed, PART_NAMES } from './key-synonyms.ts';
import { KEYS, type Key, type KeyName } from './keys.ts';
import { lexNumber, lexSpelled } from './lex-numbers.ts';
import { nearest } from './nearest.ts';
import { shown } from './normalise.ts';
import { type Meaning, type Phrase, phraseAt } from './phrases.ts';
import { unitOf } from './quantities.ts';
import { ASKED, BREAK } from './words.ts';

/** Keys whose facts turn round behind a "no"; behind it any other fact is only shown. */
const OPPOSITE: Partial<Record<KeyName, (value: Value) => Value>> = {
  clutch: (value) => value !== true,
  guide: (value) => value !== true,
  suspension: (value) => (value === 'none' ? 'rear' : 'none'),
  join: (value) => (value === 'link' ? 'pin' : 'link'),
};

/** Facts people ask about as often as they tell them: with a question mark they tell nothing. */
const ASKED_ABOUT = new Set<KeyName>(['clutch', 'guide', 'cage', 'join']);

const NEGATIVE = /^-\d/;

/** Turns the words of a setup line into items: numbers, labels and facts, in the order they stood. */
export function lex(words: readonly string[]): readonly Item[] {
  const items: Item[] = [];
  let negated = false;
  let unsure = false;
  let at = 0;
  while (at < words.length) {
    const word = words[at] ?? '';
    if (word === BREAK || word === ASKED) {
      items.push({ kind: 'break' });
      negated = false;
      unsure = false;
      at += 1;
      continue;
    }
    if (word.includes('=') && word.length > 1) {
      at = lexKey(words, at, items);
      continue;
    }
    const first = word.charCodeAt(0);
    if ((first >= 48 && first <= 57) || (first === 45 && NEGATIVE.test(word))) {
      const lexed = lexNumber(words, at);
      items.push(...lexed.items);
      negated = false;
      at += lexed.words;
      continue;
    }
    const phrase = phraseAt(words, at);
    if (phrase === null) {
      const spelled = lexSpelled(words, at);
      if (spelled !== null) {
        items.push(...spelled.items);
        at += spelled.words;
      } else {
        items.push({ kind: 'unread', text: word });
        at += 1;
      }
      negated = false;
      continue;
    }
    at += phrase.words.length;
    switch (phrase.meaning.kind) {
      case 'skip':
        break;
      case 'not':
        negated = true;
        break;
      case 'unsure':
        unsure = true;
        break;
      case 'fact':
        at = lexFact(phrase, phrase.meaning, { words, at, negated, unsure }, items);
        negated = negated && words[at] === 'or';
        break;
      default:
        if (negated && phrase.meaning.kind !== 'label') {
          items.push({ kind: 'unread', text: `not ${phrase.words.join(' ')}` });
        } else at = lexOther(phrase, phrase.meaning, words, at, items);
        negated = false;
    }
  }
  return items;
}

type Place = {
  readonly words: readonly string[];
  readonly at: number;
  readonly negated: boolean;
  readonly unsure: boolean;
};

function lexFact(phrase: Phrase, fact: Extract<Meaning, { kind: 'fact' }>, place: Place, items: Item[]): number {
  const { words, at, negated, unsure } = place;
  const text = phrase.words.join(' ');
  const { key } = fact;
  const asked = words[at] === ASKED;
  if ((asked || unsure) && ASKED_ABOUT.has(key)) {
    items.push({ kind: 'unread', text });
    return at;
  }
  if (KEYS[key].form === 'yes-no') {
    const answer = yesNoAfter(words, at);
    if (answer !== null) {
      items.push({ kind: 'fact', key, value: answer, text: `${text} ${answer ? 'yes' : 'no'}` });
      return at + 1;
    }
    if (words[at] === 'off') {
      items.push({ kind: 'doubt', question: switchedOff(key) });
      return at + 1;
    }
  }
  if (!negated) {
    items.push({ kind: 'fact', key, value: fact.value, text });
    return at;
  }
  const opposite = OPPOSITE[key];
  items.push(
    opposite === undefined
      ? { kind: 'unread', text: `not ${text}` }
      : { kind: 'fact', key, value: opposite(fact.value), text: `no ${text}` },
  );
  return at;
}

/** "clutch yes", but not the "no" that belongs to what follows: "clutch no guide". */
function yesNoAfter(words: readonly string[], at: number): boolean | null {
  const word = words[at];
  if (word === 'yes') return true;
  if (word !== 'no') return null;
  const next = phraseAt(words, at + 1);
  if (next === null || next.meaning.kind !== 'fact') return false;
  const after = words[at + 1 + next.words.length];
  return after === 'yes' || after === 'no' ? false : null;
}

function switchedOff(key: KeyName): Extract<Item, { kind: 'doubt' }>['question'] {
  return {
    field: key,
    question: 'Is there a clutch that is only switched off, or none at all?',
    choices: [
      { label: 'Switched off', setup: `${key}=yes!` },
      { label: 'None', setup: `${key}=no!` },
    ],
  };
}

function lexOther(
  phrase: Phrase,
  meaning: Exclude<Meaning, { kind: 'fact' | 'skip' | 'not' | 'unsure' }>,
  words: readonly string[],
  at: number,
  items: Item[],
): number {
  const text = phrase.words.join(' ');
  switch (meaning.kind) {
    case 'label':
      items.push({ kind: 'label', label: meaning.label, text });
      return at;
    case 'rings': {
      const next = lexCount(words, at);
      items.push({ kind: 'layout', rings: meaning.count, speeds: next, text });
      return next === null ? at : at + 1;
    }
    case 'usual-rings':
      items.push({ kind: 'usual-rings', rings: meaning.rings, text });
      return at;
    case 'travelling':
      // The number of a shock's travel may stand on either side of it.
      items.push({ kind: 'label', label: 'travel', text });
      items.push({ kind: 'fact', key: 'suspension', value: 'rear', text }, { kind: 'label', label: 'travel', text });
      return at;
    case 'uneven':
      items.push(
        { kind: 'label', label: 'bcd', text },
        { kind: 'uneven', text },
        { kind: 'label', label: 'bcd', text },
      );
      return at;
    case 'mech':
      items.push({ kind: 'mech' });
      return at;
    case 'aside':
      items.push({ kind: 'unread', text });
      return at;
  }
}

/** The number of sprockets behind "two by": "two by ten", "2x 10". */
function lexCount(words: readonly string[], at: number): number | null {
  const lexed = lexSpelled(words, at) ?? (/^\d{1,2}$/.test(words[at] ?? '') ? lexNumber(words, at) : null);
  const [item] = lexed?.items ?? [];
  if (item?.kind !== 'amount' || lexed?.words !== 1 || item.quantity.unit !== null) return null;
  const { value } = item.quantity;
  return value >= 5 && value <= 13 ? value : null;
}

/** `key=value`, the value longer by the words that make it whole: "stays=17 3/8 in", "mount=direct mount". */
function lexKey(words: readonly string[], at: number, items: Item[]): number {
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
  const read = readValue(key, text.trim());
  const mark = forced ? ({ forced: true } as const) : {};
  switch (read.kind) {
    case 'value':
      items.push({ kind: 'fact', key, value: read.value, text: `${name}=${text}`, ...mark });
      break;
    case 'open':
      items.push({ kind: 'open', question: read.question, ...mark });
      break;
    case 'refused':
      items.push({ kind: 'refused', refusal: read.refusal });
      break;
  }
  return next;
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
    if (keyNamed(whole) !== undefined || PART_NAMES.has(whole)) return taken;
  }
  return 0;
}
