import { bareKeyLabel, lexBareChoice } from './bare-keys.ts';
import { choiceOf } from './choices.ts';
import type { Value } from './fields.ts';
import type { Item } from './items.ts';
import { KEYS, type Key, type KeyName } from './keys.ts';
import { lexHubGear, lexMotor, lexPattern } from './lex-drives.ts';
import { lexKey } from './lex-keys.ts';
import { lexNumber, lexSpelled } from './lex-numbers.ts';
import { type Meaning, type Phrase, phraseAt } from './phrases.ts';
import { isUnknown } from './told-unknown.ts';
import { settling } from './value-text.ts';
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

const MECH_NAMES = new Set(['mech', 'derailleur']);

/** What the words so far do to the next one. It lives for one line. */
type Mood = { negated: boolean; unsure: boolean; present: boolean; swapping: boolean };

/** Turns the words of a setup line into items: numbers, labels and facts, in the order they stood. */
export function lex(words: readonly string[]): readonly Item[] {
  const items: Item[] = [];
  const mood: Mood = { negated: false, unsure: false, present: false, swapping: false };
  let at = 0;
  while (at < words.length) {
    const word = words[at] ?? '';
    if (STOPS.has(word)) {
      items.push({ kind: 'break' });
      mood.negated = false;
      mood.unsure = false;
      mood.present = false;
      mood.swapping = false;
      at += 1;
    } else if (word.includes('=') && word.length > 1) {
      at = lexKey(words, at, items);
      // One refusal is all that is ever said, so what follows need not be read.
      if (items[items.length - 1]?.kind === 'refused') break;
    } else if (startsNumber(word)) {
      const last = items[items.length - 1];
      const lexed = lexNumber(words, at, last?.kind === 'label' ? last.label : undefined);
      take(lexed.items, mood, items);
      at += lexed.words;
    } else at = lexWord(words, at, mood, items);
  }
  return items;
}

/** What ends a stretch of words: what is left of it says nothing of what is right of it. */
const STOPS = new Set([BREAK, ASKED, '-', '--', '/', '&', '+', 'x']);

function startsNumber(word: string): boolean {
  const first = word.charCodeAt(0);
  return (first >= 48 && first <= 57) || (first === 45 && NEGATIVE.test(word));
}

/** Adds what a number turned into; behind a "not" it is only shown. */
function take(lexed: readonly Item[], mood: Mood, items: Item[]): void {
  for (const item of lexed) {
    if (mood.negated && 'text' in item && item.kind !== 'label')
      items.push({ kind: 'unread', text: `not ${item.text}` });
    else if (mood.negated && item.kind === 'open') items.push({ kind: 'unread', text: `not ${item.question.field}` });
    else items.push(mood.present && item.kind === 'amount' ? { ...item, present: true } : item);
  }
  mood.negated = false;
  mood.present = false;
}

function lexWord(words: readonly string[], at: number, mood: Mood, items: Item[]): number {
  const chosen = mood.negated ? null : lexBareChoice(words, at, items);
  if (chosen !== null) return chosen;
  const phrase = phraseAt(words, at);
  if (phrase === null) {
    const spelled = lexSpelled(words, at);
    if (spelled !== null) {
      take(spelled.items, mood, items);
      return at + spelled.words;
    }
    items.push(bareKeyLabel(words[at] ?? '') ?? { kind: 'unread', text: words[at] ?? '' });
    mood.negated = false;
    return at + 1;
  }
  const after = at + phrase.words.length;
  const { meaning } = phrase;
  switch (meaning.kind) {
    case 'skip':
      // "swap 11-36 for 11-42", "replace the rings with a 32"
      if (mood.swapping && (words[at] === 'for' || words[at] === 'with')) {
        items.push({ kind: 'label', label: 'toward', text: words[at] });
      }
      return after;
    case 'swap':
      mood.swapping = true;
      return after;
    case 'present':
      if (meaning.back) markPresent(items);
      mood.present = true;
      return after;
    case 'not':
      mood.negated = true;
      return after;
    case 'unsure':
      mood.unsure = true;
      mood.negated = false;
      return after;
    case 'fact': {
      const next = lexFact(phrase, meaning, { words, at: after, from: at, ...mood }, items);
      const goesOn = words[next] === 'or' || words[next] === 'nor';
      mood.negated = goesOn && (mood.negated || LACKING.has(phrase.words[0] ?? ''));
      return next;
    }
    case 'label':
      items.push({
        kind: 'label',
        label: meaning.label,
        text: phrase.words.join(' '),
        ...(mood.present ? PRESENT : {}),
      });
      mood.present = false;
      return after;
    default: {
      const text = phrase.words.join(' ');
      const { negated } = mood;
      mood.negated = false;
      if (!negated) return lexOther(text, meaning, words, after, items);
      items.push({ kind: 'unread', text: `not ${text}` });
      return after;
    }
  }
}

const LACKING = new Set(['no', 'non', 'without']);
const PRESENT = { present: true } as const;

/** "my 36 ring now": the word speaks of the number or label before it as well. */
function markPresent(items: Item[]): void {
  for (let at = items.length - 1; at >= 0; at -= 1) {
    const item = items[at];
    if (item?.kind !== 'amount' && item?.kind !== 'label') return;
    items[at] = { ...item, present: true };
    if (item.kind === 'amount') return;
  }
}

type Place = {
  readonly words: readonly string[];
  readonly at: number;
  /** Where the phrase started. */
  readonly from: number;
  readonly negated: boolean;
  readonly unsure: boolean;
};

function lexFact(phrase: Phrase, fact: Extract<Meaning, { kind: 'fact' }>, place: Place, items: Item[]): number {
  const { words, negated, unsure } = place;
  // "clutch is off"
  const at = words[place.at] === 'is' || words[place.at] === 'are' ? place.at + 1 : place.at;
  const text = phrase.words.join(' ');
  const { key } = fact;
  // A "clutch mech" is a mech that was spoken of.
  if (MECH_NAMES.has(phrase.words.at(-1) ?? '')) items.push({ kind: 'mech' });
  const asked = words[at] === ASKED;
  if (
    asked &&
    !isUnknown(words, at) &&
    KEYS[key].form === 'yes-no' &&
    (words[at + 1] === 'yes' || words[at + 1] === 'no')
  ) {
    items.push({ kind: 'fact', key, value: words[at + 1] === 'yes', text: `${text} ${words[at + 1]}` });
    return at + 2;
  }
  if ((asked || unsure || isUnknown(words, at)) && ASKED_ABOUT.has(key)) {
    items.push({ kind: 'unread', text });
    return at;
  }
  if (lexEither(key, place, items)) return place.at;
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

/** "flat or drop bar": two choices of one key, of which neither is told. */
function lexEither(key: KeyName, { words, from }: Place, items: Item[]): boolean {
  const other = words[from - 2] ?? '';
  const choices = (KEYS[key] as Key).choices ?? [];
  if (words[from - 1] !== 'or' || choices.length === 0 || choiceOf(key, other) === undefined) return false;
  const last = items[items.length - 1];
  if (last !== undefined && 'text' in last && last.text === other) items.pop();
  items.push({
    kind: 'doubt',
    question: {
      field: key,
      question: `${KEYS[key].label}: which is it?`,
      choices: choices.map((choice) => ({ label: choice, setup: settling(key, choice) })),
    },
  });
  return true;
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
  text: string,
  meaning: Exclude<Meaning, { kind: 'fact' | 'label' | 'skip' | 'swap' | 'present' | 'not' | 'unsure' }>,
  words: readonly string[],
  at: number,
  items: Item[],
): number {
  switch (meaning.kind) {
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
      lexPattern(text, { kind: 'uneven', text }, words[at] ?? '', items);
      return at;
    case 'pattern':
      lexPattern(text, { kind: 'fact', key: 'pattern', value: meaning.value, text }, words[at] ?? '', items);
      return at;
    case 'assist':
      return lexMotor(text, meaning.value, words, at, items);
    case 'mech':
      items.push({ kind: 'mech' });
      return at;
    case 'hub-gear':
      lexHubGear(text, words[at] ?? '', items);
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
