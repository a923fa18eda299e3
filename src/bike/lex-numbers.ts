import type { Item } from './items.ts';
import { KEYS } from './keys.ts';
import { lexList, lexRun, whatIs } from './lex-lists.ts';
import { type Lexed, one } from './lexed.ts';
import { spelledAt } from './number-words.ts';
import { type Label, phraseAt } from './phrases.ts';
import { inUnit, isInch, readQuantity, unitOf } from './quantities.ts';
import { refuseValue } from './refusals.ts';
import { readWheel } from './wheel-sizes.ts';

const LIST = /^\d{1,7}t?(?:[-/,](?:\d{1,7}t?|\.\.\.)){1,40}[-/,]?$/;
const CROSS = /^(\d{1,3})x(\d{1,3})(?:t|s|sp|spd|speed)?$/;
const WHEEL = /^\d{2,3}(?:[.,]\d{1,5})?(?:[abc]|in|"|er)?[-x]\d{1,3}(?:[.,]\d{1,5})?(?:[abc]|in|"|mm)?$/;
const NUMBER = /^(\d{1,9}(?:[.,]\d{1,6})?)(.*)$/;
const JOINED = /^[\d.,]+[-/:x][\d.,:/x-]+[a-z"]{0,4}$/;
const CIRCLES = /^(\d{2,3})\/(\d{2,3})mm$/;
const RINGS = /^[123]$/;
const WHOLE = /^\d{1,7}$/;
const TEETH = /^\d{1,3}t?$/;
const FRACTION = /^\d{1,2}\/(?:2|4|8|16|32)(?:in|")?$/;
/** 435-440 is a range of lengths: no tyre is that wide. */
const TWO_LENGTHS = /^[2-9]\d\d-[2-9]\d\d$/;
const TAPE = /^(?:1\/2|[13]\/4|[1357]\/8|(?:[13579]|1[135])\/16)$/;
const WHEEL_STARTS = /^(?:1[2468]|2[0-9]|650|700)x|x(?:[2-6]\d\d)$/;
const NAMED_WHEEL = /^(?:(?:16|20|24|26|27(?:[.,]5)?|28|29)ers?|650[abc]|700[abc]?)$/;

/** Counts of other things than parts of a bicycle. */
const OF_OTHER_THINGS = new Set(
  'years year yrs yr months month weeks week days day hours hour minutes min mins miles mile mi km kms kilometres kilometers quid euro euros eur dollars bucks usd gbp kmh mph bikes people riders friends times percentile hundred thousand ft feet foot'.split(
    ' ',
  ),
);

/** Words after "in" that make it a place and not an inch. */
const PLACES = new Set(['front', 'back', 'rear', 'the', 'my', 'all', 'total', 'middle', 'a', 'it', 'there']);

/** Reads what starts with a digit. */
export function lexNumber(words: readonly string[], at: number, before?: Label): Lexed {
  const word = words[at] ?? '';
  const next = words[at + 1] ?? '';
  if (word.startsWith('-')) return lexNegative(word, next);
  const run = lexRun(words, at, before);
  if (run !== null) return run;
  const joined = joinedNumber(words, at);
  if (joined !== null) return joined;

  const withFraction = lexFraction(word, next, words[at + 2] ?? '');
  if (withFraction !== null) return withFraction;

  const cross = CROSS.exec(word);
  if (cross !== null) {
    const item = crossed(Number(cross[1]), Number(cross[2]), word);
    if (item !== null) return one(item, 1);
    // "36x11" is a gear to some, "68x113" a bottom bracket, and neither a wheel.
    if (!WHEEL_STARTS.test(word)) return one({ kind: 'doubt', question: whatIs(word) }, 1);
  }
  const circles = CIRCLES.exec(word);
  if (circles !== null && isCircle(circles[1] ?? '') && isCircle(circles[2] ?? ''))
    return lexList(word.slice(0, -2), '');
  if (
    WHEEL.test(word) &&
    (word.includes('x') || /-[2-7]\d\d$/.test(word) || /^[3-7]\d\d-/.test(word)) &&
    !TWO_LENGTHS.test(word)
  ) {
    const split = FRACTION.test(next) && word.includes('x') ? `${word} ${next.replace(/in|"/, '')}` : word;
    return wheel(split, split === word ? 1 : 2);
  }
  const gaps = lexGaps(words, at, before);
  if (gaps !== null) return gaps;
  if (LIST.test(word)) {
    if (word.indexOf(',') > 0 && /^\d+,\d+$/.test(word) && isLength(next)) {
      const quantity = readQuantity(`${word} ${next}`);
      if (quantity !== null) return one({ kind: 'amount', quantity, text: `${word} ${next}` }, 2);
    }
    return lexList(word, next);
  }
  if (NAMED_WHEEL.test(word) && !isLength(next)) return wheel(word, 1);

  const match = NUMBER.exec(word);
  if (match === null || JOINED.test(word)) return one({ kind: 'doubt', question: whatIs(word) }, 1);
  const [, digits = '', rest = ''] = match;
  const value = Number(digits.replace(',', '.'));
  return rest === '' ? lexBare(value, words, at, word, 1) : lexSuffixed(value, rest, words, at);
}

/** A dash before a number is a minus; before anything longer it is a bullet. */
function lexNegative(word: string, next: string): Lexed {
  const quantity = readQuantity(unitOf(next) === null ? word : `${word} ${next}`);
  const bare = quantity ?? readQuantity(word);
  if (bare === null) return lexNumber([word.slice(1)], 0);
  return quantity === null || unitOf(next) === null
    ? one({ kind: 'amount', quantity: bare, text: word }, 1)
    : one({ kind: 'amount', quantity, text: `${word} ${next}` }, 2);
}

/** Reads a number written in words; small ones count only beside a word that needs a number. */
export function lexSpelled(words: readonly string[], at: number): Lexed | null {
  const first = spelledAt(words, at);
  if (first === null) return null;
  let after = at + first.words;
  if (words[after] === 'by' && first.value >= 1 && first.value <= 3) {
    const speeds = spelledAt(words, after + 1);
    if (speeds !== null) {
      const item = crossed(first.value, speeds.value, words.slice(at, after + 1 + speeds.words).join(' '));
      if (item !== null) return one(item, after + 1 + speeds.words - at);
    }
    return one({ kind: 'layout', rings: first.value, speeds: null, text: words.slice(at, after + 1).join(' ') }, 2);
  }
  if (words[after] === 'to' && first.value <= 16 && first.value >= 9) after += 1;
  if (words[after] === 'and' && first.value >= 18 && (spelledAt(words, after + 1)?.value ?? 0) >= 18) after += 1;
  const second = first.value >= 9 ? spelledAt(words, after) : null;
  if (second !== null && second.value >= 9) {
    const third = spelledAt(words, after + second.words);
    const numbers =
      third === null || third.value < 9 ? [first.value, second.value] : [first.value, second.value, third.value];
    const length = after + second.words + (numbers.length === 3 ? (third?.words ?? 0) : 0) - at;
    // "an eleven thirty-six": said one after the other, the two are the ends of one thing.
    return one({ kind: 'list', numbers, joint: '-', text: numbers.join('-') }, length);
  }
  const text = words.slice(at, at + first.words).join(' ');
  return lexBare(first.value, words, at, text, first.words);
}

/** "2 x 10", "11 - 36", "36 / 22", "36 and 22": numbers whose joint stands alone. */
function joinedNumber(words: readonly string[], at: number): Lexed | null {
  const word = words[at] ?? '';
  const joint = words[at + 1] ?? '';
  const other = words[at + 2] ?? '';
  if (joint === 'x' || joint === 'by' || joint === '*') {
    if (joint === 'by' && RINGS.test(word) && !/^\d{1,2}$/.test(other)) {
      return one({ kind: 'layout', rings: Number(word), speeds: null, text: `${word} by` }, 2);
    }
    if (!/^\d/.test(other) || !/\d(?:[abc]|er|in|")?$/.test(word)) return null;
    const inner = lexNumber([`${word}x${other}`, ...words.slice(at + 3, at + 5)], 0);
    return inner.items[0]?.kind === 'unread' ? null : { items: inner.items, words: inner.words + 2 };
  }
  if (/^\dx$/.test(word) && WHOLE.test(joint) && Number(joint) >= 5 && Number(joint) <= 13) {
    return one({ kind: 'layout', rings: Number(word[0]), speeds: Number(joint), text: `${word}${joint}` }, 2);
  }
  if (/^\d$/.test(word) && /^x\d{1,2}$/.test(joint)) {
    const inner = lexNumber([`${word}${joint}`], 0);
    return { items: inner.items, words: 2 };
  }
  if (!TEETH.test(word) || !TEETH.test(other)) return null;
  if (joint === '/' && isCircle(word) && isCircle(other)) {
    return one({ kind: 'list', numbers: [Number(word), Number(other)], joint: '/', text: `${word}/${other}` }, 3);
  }
  const first = Number.parseInt(word, 10);
  const second = Number.parseInt(other, 10);
  const triple = joinedTriple(words, at);
  if (triple !== null) return triple;
  if (first < 9 || first > 70 || second < 9 || second > 70) return null;
  switch (joint) {
    case '-':
      return one({ kind: 'list', numbers: [first, second], joint: '-', text: `${first}-${second}` }, 3);
    case '/':
      return one({ kind: 'list', numbers: [first, second], joint: '/', text: `${first}/${second}` }, 3);
    case 'to':
      return first <= 16 && second > first
        ? one({ kind: 'list', numbers: [first, second], joint: '-', text: `${first}-${second}` }, 3)
        : null;
    case '&':
    case '+':
    case 'and':
      return first >= 18 && second >= 18 && unitOf(words[at + 3] ?? '') !== 'mm'
        ? one({ kind: 'list', numbers: [first, second], joint: ',', text: `${first} and ${second}` }, 3)
        : null;
    default:
      return null;
  }
}

/** "48 / 36 / 26", "44 and 32 and 22": three rings, so that the last is not taken for another thing. */
function joinedTriple(words: readonly string[], at: number): Lexed | null {
  const joint = words[at + 1] ?? '';
  if (!TRIPLE_JOINTS.has(joint) || words[at + 3] !== joint) return null;
  const three = [words[at] ?? '', words[at + 2] ?? '', words[at + 4] ?? ''];
  const numbers = three.map((word) => (TEETH.test(word) ? Number.parseInt(word, 10) : 0));
  if (!numbers.every((teeth) => teeth >= KEYS.rings.low && teeth <= KEYS.rings.high)) return null;
  return one({ kind: 'list', numbers, joint: '/', text: numbers.join('/') }, 5);
}

const TRIPLE_JOINTS = new Set(['/', '-', '&', '+', 'and']);

function isCircle(word: string): boolean {
  return Number(word) >= KEYS.bcd.low && Number(word) <= KEYS.bcd.high;
}

/** 17 3/8 in, 17 3/8", 17-3/8". */
function lexFraction(word: string, next: string, afterNext: string): Lexed | null {
  const glued = /^\d{1,2}-\d{1,2}\/\d{1,2}(?:in|")?$/.test(word);
  if (!glued && !(WHOLE.test(word) && FRACTION.test(next))) return null;
  const marked = glued ? word : `${word} ${next}`;
  const taken = glued ? 1 : 2;
  const after = glued ? next : afterNext;
  if (/["n]$/.test(marked)) return amount(marked, marked, taken);
  if (isInch(after)) return amount(`${marked} ${after}`, `${marked} in`, taken + 1);
  // 17 3/8 without a mark: whole numbers of that size stand before a fraction nowhere but on a tape measure.
  const over = marked.slice(marked.search(/[ -]/) + 1);
  if (Number.parseInt(word, 10) >= 14 && Number.parseInt(word, 10) <= 19 && TAPE.test(over)) {
    return amount(marked, `${marked} in`, taken);
  }
  return null;
}

/** A number that stands alone: the unit behind it, where there is one, belongs to it. */
function lexBare(value: number, words: readonly string[], at: number, text: string, taken: number): Lexed {
  const next = words[at + taken] ?? '';
  const after = words[at + taken + 1] ?? '';
  if (OF_OTHER_THINGS.has(next)) return one({ kind: 'unread', text: `${text} ${next}` }, taken + 1);
  if (unitOf(next) !== null && !(next === 'in' && PLACES.has(after)) && !(next === 'm' && value > 3)) {
    const quantity = inUnit(value, next);
    // In digits, so that a "twenty inch" wheel is read like a 20 inch one.
    if (quantity !== null) return one({ kind: 'amount', quantity, text: `${value} ${next}` }, taken + 1);
  }
  if ((next === 'er' || next === 'ers') && NAMED_WHEEL.test(`${value}er`)) return wheel(`${value}er`, taken + 1);
  if (value === 27.5) return wheel('27.5', taken);
  return one({ kind: 'amount', quantity: { value, unit: null, written: '' }, text }, taken);
}

function lexSuffixed(value: number, rest: string, words: readonly string[], at: number): Lexed {
  const word = words[at] ?? '';
  const quantity = inUnit(value, rest);
  if (quantity !== null) return one({ kind: 'amount', quantity, text: word }, 1);
  if (rest === 'x' || rest === 'by') {
    return Number.isInteger(value) && value >= 1 && value <= 3
      ? one({ kind: 'layout', rings: value, speeds: null, text: word }, 1)
      : unread(word);
  }
  const bare: Item = { kind: 'amount', quantity: { value, unit: null, written: '' }, text: word };
  switch (rest) {
    case 's':
    case 'sp':
    case 'spd':
    case 'speed':
    case 'speeds':
      return { items: [bare, { kind: 'label', label: 'speeds', text: rest }], words: 1 };
    case 'bcd':
    case 'pcd':
    case 'mmbcd':
    case 'mmpcd':
      return { items: [bare, { kind: 'label', label: 'bcd', text: rest }], words: 1 };
    case 'bolt':
    case 'bolts':
    case 'arm':
    case 'arms':
      return { items: [bare, { kind: 'label', label: 'bolts', text: rest }], words: 1 };
    case 'c':
      return { items: [bare, { kind: 'label', label: 'tyre', text: rest }], words: 1 };
    default:
      return unread(word);
  }
}

/** A by B: rings by sprockets, one ring by its teeth, a hub by its axle. */
function crossed(first: number, second: number, text: string): Item | null {
  if (first >= 1 && first <= 3) {
    if (second >= 5 && second <= 13) return { kind: 'layout', rings: first, speeds: second, text };
    if (first === 1 && second >= 18 && second <= 70) return { kind: 'fact', key: 'ring', value: second, text };
    return { kind: 'refused', refusal: refuseValue('speeds', text, 'has a count of sprockets out of range') };
  }
  const hub = first >= 110 && first <= 200 ? first : second;
  const axle = hub === first ? second : first;
  return hub >= 110 && hub <= 200 && axle >= 5 && axle <= 20 ? { kind: 'fact', key: 'hub', value: hub, text } : null;
}

function wheel(text: string, words: number): Lexed {
  const read = readWheel(text);
  switch (read.kind) {
    case 'value':
      return one({ kind: 'fact', key: 'wheel', value: read.value, text }, words);
    case 'open':
      return one({ kind: 'open', question: read.question }, words);
    case 'refused':
      return one({ kind: 'refused', refusal: read.refusal }, words);
  }
}

function amount(quantityText: string, text: string, words: number): Lexed {
  const quantity = readQuantity(quantityText);
  return quantity === null ? unread(text) : one({ kind: 'amount', quantity, text }, words);
}

/** "gaps of 66.5/68.2", "66.5/68.2 mm apart": two lengths, where a word beside them says which. */
function lexGaps(words: readonly string[], at: number, before: Label | undefined): Lexed | null {
  const match = GAPS.exec(words[at] ?? '');
  if (match === null) return null;
  const after = isLength(words[at + 1] ?? '') ? 1 : 0;
  const behind = phraseAt(words, at + 1 + after)?.meaning;
  if (before !== 'gap' && !(behind?.kind === 'label' && behind.label === 'gap')) return null;
  const items = [match[1] ?? '', match[2] ?? ''].map((text): Item => {
    return { kind: 'amount', quantity: { value: Number(text), unit: 'mm', written: 'mm' }, text };
  });
  return { items, words: 1 + after };
}

const GAPS = /^(\d{2,3}(?:\.\d{1,3})?)\/(\d{2,3}(?:\.\d{1,3})?)(?:mm)?$/;

function isLength(word: string): boolean {
  return unitOf(word) === 'mm';
}

function unread(text: string): Lexed {
  return one({ kind: 'unread', text }, 1);
}
