import fc from 'fast-check';
import { KEYS } from '../../src/bike/keys.ts';
import { sayBack } from '../../src/bike/say-back.ts';
import { COMMANDS } from '../../src/commands/list.ts';
import { anyBike } from '../bike/any-bike.ts';
import { CORPUS } from '../bike/corpus.ts';
import { AWKWARD_LINES } from '../support/awkward-lines.ts';
import { CODE, CONTROLS, HOMOGLYPHS, MARKUP, MENTIONS, NOUGHTS, NUMBERS } from './fragments.ts';

const GOOD_LINES = [
  ...new Set([...CORPUS.map(({ line }) => line), ...AWKWARD_LINES, ...COMMANDS.flatMap(({ examples }) => examples)]),
];
const WORDS = [...new Set(GOOD_LINES.flatMap((line) => line.split(/(?<=[\s=:/x-])|(?=[=:/x-])/)))];
const KEY_NAMES = Object.keys(KEYS);
const EXAMPLE_VALUES = Object.values(KEYS).map(({ example }) => example.slice(example.indexOf('=') + 1));

/** The longest line tried; a platform's own field ends long before it. */
const LONGEST = 10_000;

const goodLine = fc.constantFrom(...GOOD_LINES);
const number = fc.oneof(
  fc.constantFrom(...NUMBERS),
  fc.integer({ min: -3, max: 700 }).map(String),
  fc.double({ noDefaultInfinity: false }).map(String),
  fc.maxSafeInteger().map(String),
);

/** One hostile piece of text. */
const fragment = fc.oneof(
  { weight: 4, arbitrary: fc.constantFrom(...MENTIONS) },
  { weight: 3, arbitrary: fc.constantFrom(...MARKUP) },
  { weight: 4, arbitrary: fc.constantFrom(...CONTROLS) },
  { weight: 3, arbitrary: fc.constantFrom(...CODE) },
  { weight: 3, arbitrary: number },
  { weight: 1, arbitrary: fc.string({ unit: 'binary', maxLength: 8 }) },
);

type Change = (line: string, at: number, piece: string) => string;

function inserted(line: string, at: number, piece: string): string {
  const index = at % (line.length + 1);
  return line.slice(0, index) + piece + line.slice(index);
}

function inOtherDigits(line: string, at: number): string {
  const nought = NOUGHTS[at % NOUGHTS.length] ?? 0x30;
  return line.replace(/\d/g, (digit) => String.fromCodePoint(nought + Number(digit)));
}

/** Ways of spoiling a line; each keeps enough of it that the readers behind the first word are reached. */
const CHANGES: readonly Change[] = [
  inserted,
  (line, _, piece) => `${line} ${piece}`,
  (line, _, piece) => `${piece} ${line}`,
  (line, at, piece) =>
    line
      .split(' ')
      .toSpliced(at % 8, 0, piece)
      .join(' '),
  (line, at, piece) =>
    line
      .split(' ')
      .toSpliced(at % 8, 1, piece)
      .join(' '),
  (line, at, piece) => line.replaceAll(' ', at % 2 === 0 ? `${piece} ` : piece),
  (line, at, piece) => line.replace(/(?<==)[^\s,]*/, at % 2 === 0 ? piece : `"${piece}"`),
  (line, at) => line.slice(0, at % (line.length + 1)),
  (line, at) => line.slice(at % (line.length + 1)),
  (line, at) => `${line} ${line}`.repeat(1 + (at % 4)),
  (line, at) => [...line].toSpliced(at % (line.length + 1), 1).join(''),
  (line, at) => line.replace(/\d/g, String(at % 10)),
  (line, at) => line.replace(/\d+/g, (digits) => digits.repeat(1 + (at % 30))),
  inOtherDigits,
  (line) => line.replace(/[aceiopxT\-=/@< ]/g, (letter) => HOMOGLYPHS[letter] ?? letter),
  (line, at) => [...line].join(['\u200b', '\u0301', '\u202e', ' ', '\u00ad'][at % 5]),
  (line, at) => (at % 2 === 0 ? line.toUpperCase() : line.normalize('NFD')),
  (line) => [...line].toReversed().join(''),
  (line, at) =>
    line
      .split(' ')
      .toSorted(() => (at % 2 === 0 ? 1 : -1))
      .join(','),
];

const changed = fc
  .tuple(
    goodLine,
    fc.array(fc.tuple(fc.constantFrom(...CHANGES), fc.nat(LONGEST), fragment), { minLength: 1, maxLength: 3 }),
  )
  .map(([line, changes]) =>
    changes.reduce((spoilt, [change, at, piece]) => change(spoilt, at, piece), line).slice(0, LONGEST),
  );

/** The head of one line on the tail of another. */
const spliced = fc
  .tuple(goodLine, goodLine, fc.nat(200), fc.nat(200))
  .map(([one, other, to, from]) => one.slice(0, to % (one.length + 1)) + other.slice(from % (other.length + 1)));

/** Bikes that contradict themselves, and bikes at the ends of every range. */
const anyRealBike = anyBike.map(sayBack);

const glue = fc.constantFrom('', ' ', ' ', ' ', ',', ', ', '=', '-', '/', 'x', '\u200b', '\u202e', '\u0000', '"');
const jumble = fc
  .array(fc.tuple(fc.oneof(fc.constantFrom(...WORDS), fragment), glue), { maxLength: 24 })
  .map((parts) => parts.flat().join(''));

const value = fc.oneof(fc.constantFrom(...EXAMPLE_VALUES), fragment, number);
const keyStorm = fc
  .array(fc.tuple(fc.oneof({ weight: 9, arbitrary: fc.constantFrom(...KEY_NAMES) }, fragment), value), {
    maxLength: 60,
  })
  .map((pairs) => pairs.map(([key, told]) => `${key}=${told}`).join(' '));

const long = fc
  .tuple(fc.oneof(fragment, fc.constantFrom(...WORDS)), fc.integer({ min: 1000, max: LONGEST }), goodLine)
  .map(([piece, length, line]) => {
    const body = `${piece === '' ? ' ' : piece}`;
    return `${line} ${body.repeat(Math.ceil(length / body.length))}`.slice(0, length);
  });

const halves = fc
  .array(fc.integer({ min: 0xd7f0, max: 0xe010 }), { maxLength: 40 })
  .map((units) => `36/22 ${String.fromCharCode(...units)}`);

/** A setup line nobody should send, and a good one now and then. */
export const hostileLine: fc.Arbitrary<string> = fc.oneof(
  { weight: 4, arbitrary: goodLine },
  { weight: 40, arbitrary: changed },
  { weight: 8, arbitrary: spliced },
  { weight: 10, arbitrary: anyRealBike },
  { weight: 14, arbitrary: jumble },
  { weight: 8, arbitrary: keyStorm },
  { weight: 1, arbitrary: long },
  { weight: 3, arbitrary: halves },
  { weight: 4, arbitrary: fc.string({ unit: 'binary', maxLength: 300 }) },
);

/** A text for a field: a name, a reason, a whole answer. */
export const hostileText: fc.Arbitrary<string> = fc.oneof(
  { weight: 4, arbitrary: fragment },
  { weight: 4, arbitrary: fc.array(fragment, { minLength: 1, maxLength: 12 }).map((parts) => parts.join(' ')) },
  { weight: 2, arbitrary: hostileLine },
);
