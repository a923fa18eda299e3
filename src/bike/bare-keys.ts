import { choiceOf } from './choices.ts';
import type { Item } from './items.ts';
import { keyNamed } from './key-synonyms.ts';
import { KEYS, type Key, type KeyName } from './keys.ts';
import { phraseAt } from './phrases.ts';

/** Words of every day that also are names of keys. */
const EVERYDAY = new Set(['me', 'joint', 'cluster']);

/** Behind what is chosen these offer another choice, so that nothing is told yet. */
const GOES_ON = new Set(['and', 'or', '&', '+', '/']);

/**
 * A key whose equals sign was left out, with the choice behind it: "mount direct", "bar flat", "suspension rear". Pushes
 * what it tells and returns the word to go on with; null where the words are no such thing.
 */
export function lexBareChoice(words: readonly string[], at: number, items: Item[]): number | null {
  const key = words[at] ?? '';
  if (!isKey(key) || KEYS[key].form !== 'choice' || /^\d/.test(words[at + 1] ?? '')) return null;
  for (const taken of [2, 1]) {
    const behind = words.slice(at + 1, at + 1 + taken);
    const text = behind.join(' ');
    const value = behind.length === taken ? choiceOf(key, text) : undefined;
    if (value === undefined) continue;
    const next = at + 1 + taken;
    const phrase = phraseAt(words, at + 1);
    // "cage mid drive" says where a motor sits, "mount bolts 4" how many there are.
    const longer = phrase !== null && phrase.words.length > taken;
    const label = phrase?.meaning.kind === 'label' && (KEYS[key] as Key).choices?.includes(text) !== true;
    if (longer || label || GOES_ON.has(words[next] ?? '')) return null;
    items.push({ kind: 'fact', key, value, text: `${key} ${text}` });
    return next;
  }
  return null;
}

/** A key of numbers by its own name, which stands before its value: "bikeweight 20", "newcassette 11-46". */
export function bareKeyLabel(word: string): Item | null {
  const key = EVERYDAY.has(word) ? undefined : keyNamed(word);
  if (key === undefined || KEYS[key].form === 'choice' || KEYS[key].form === 'yes-no') return null;
  return { kind: 'label', label: key, text: word, ahead: true };
}

function isKey(word: string): word is KeyName {
  return Object.hasOwn(KEYS, word);
}
