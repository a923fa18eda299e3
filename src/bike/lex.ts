import type { Value } from './fields.ts';
import type { Item } from './items.ts';
import { KEYS, type KeyName } from './keys.ts';
import { lexKey } from './lex-keys.ts';
import { lexNumber, lexSpelled } from './lex-numbers.ts';
import { type Meaning, type Phrase, phraseAt } from './phrases.ts';
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
      // One refusal is all that is ever said, so what follows need not be read.
      if (items[items.length - 1]?.kind === 'refused') break;
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
        negated =
          (words[at] === 'or' || words[at] === 'nor') &&
          (negated || /^(?:no|non|without)$/.test(phrase.words[0] ?? ''));
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
