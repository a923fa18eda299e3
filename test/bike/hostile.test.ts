import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Bike } from '../../src/bike/bike.ts';
import { readSetup } from '../../src/bike/read-setup.ts';
import type { Reading } from '../../src/bike/reading.ts';
import { sayBack } from '../../src/bike/say-back.ts';
import { CORPUS } from './corpus.ts';

/** Control, zero-width, bidirectional and tag characters, separators of lines, and halves of pairs. */
const HIDDEN =
  // biome-ignore lint/suspicious/noControlCharactersInRegex: these are the characters that must not come back
  /[\u0000-\u001f\u007f-\u009f\u061c\u200b-\u200f\u2028-\u202e\u2060-\u206f\ufeff\ufff9-\ufffb\u{e0000}-\u{e007f}\p{Surrogate}]/u;
const LONGEST_LINE = 2000;
const LONGEST_WORD_ECHOED = 40;

/** Every text of a reading that a person may get to see. */
function texts(reading: Reading): readonly string[] {
  if (reading.kind === 'refused') {
    return [reading.refusal.message, reading.refusal.allowed, reading.refusal.example];
  }
  const asked = [...reading.conflicts, ...reading.open];
  return [
    ...reading.unread,
    ...asked.map((each) => each.question),
    ...asked.flatMap((each) => each.choices.flatMap((choice) => [choice.label, choice.setup])),
    sayBack(reading.bike),
  ];
}

function expectCalm(reading: Reading): void {
  for (const text of texts(reading)) expect(text).not.toMatch(HIDDEN);
  if (reading.kind === 'refused') {
    const { message, allowed, example } = reading.refusal;
    for (const text of [message, allowed, example]) {
      expect(text.length).toBeGreaterThan(0);
      expect(text.length).toBeLessThanOrEqual(300);
    }
    return;
  }
  expect(Bike.safeParse(reading.bike).error).toBeUndefined();
  for (const word of reading.unread) expect([...word].length).toBeLessThanOrEqual(LONGEST_WORD_ECHOED);
  for (const each of [...reading.conflicts, ...reading.open]) expect(each.question.length).toBeLessThanOrEqual(300);
}

/** Pieces of real lines, so that chance reaches the readers behind the first word. */
const pieces = [...new Set(CORPUS.flatMap((each) => each.line.split(/(?<=[\s=:/x-])|(?=[=:/x-])/)))];
const glue = fc.constantFrom('', ' ', ',', ', ', '=', '-', '/', 'x', '−', '\u200b', '\u202e', '\u0000', '"', '⅜', '٫');
const mixture = fc
  .array(fc.tuple(fc.constantFrom(...pieces), glue), { maxLength: 24 })
  .map((parts) => parts.flat().join(''));

describe('whatever is typed', () => {
  it('is read or refused calmly: any string at all', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 400 }), (line) => expectCalm(readSetup(line))),
      { numRuns: 1500 },
    );
  });

  it('is read or refused calmly: halves of surrogate pairs', () => {
    const halves = fc.array(fc.integer({ min: 0xd7f0, max: 0xe010 }), { maxLength: 60 });
    fc.assert(fc.property(halves, (units) => expectCalm(readSetup(`36/22 ${String.fromCharCode(...units)}`))));
  });

  it('is read or refused calmly: pieces of real lines in any order', () => {
    fc.assert(
      fc.property(mixture, (line) => expectCalm(readSetup(line))),
      { numRuns: 3000 },
    );
  });

  it('is read or refused calmly: typed options with any name and value', () => {
    const options = fc.dictionary(
      fc.oneof(fc.constantFrom('ring', 'stays', 'wheel', 'gap', 'cassette', '__proto__', 'constructor'), fc.string()),
      fc.string({ unit: 'binary' }),
    );
    fc.assert(fc.property(mixture, options, (line, typed) => expectCalm(readSetup(line, typed))));
  });

  // Each came out of the test above once.
  it.each(['gap 2/2', 'gap\u00002/2', 'gap,i ⅜', 'apart⅜', '32.5−Rings ', 'rings 67.9'])(
    'is read or refused calmly: %j',
    (line) => {
      expectCalm(readSetup(line));
    },
  );

  it('is said back as what reads the same', () => {
    fc.assert(
      fc.property(mixture, (line) => {
        const reading = readSetup(line);
        if (reading.kind === 'read') {
          expect(readSetup(sayBack(reading.bike))).toMatchObject({ kind: 'read', bike: reading.bike, unread: [] });
        }
      }),
      { numRuns: 2000 },
    );
  });

  it('is read the same again, whatever was read in between', () => {
    fc.assert(
      fc.property(mixture, mixture, (line, other) => {
        const first = readSetup(line);
        readSetup(other);
        expect(readSetup(line)).toEqual(first);
      }),
    );
  });
});

describe('a long line', () => {
  const filled = (piece: string, length: number): string =>
    piece.repeat(Math.ceil(length / piece.length)).slice(0, length);
  const worst = [
    '9',
    ' ',
    '-',
    '=',
    'x',
    '1/',
    '1-2-',
    '2x',
    '11-13-',
    '36/22 ',
    'ring=',
    'ring=32 ',
    'stays 17 3/8',
    '⅜',
    '٣',
    'two by ',
    'thirty-two ',
    'to ',
    'no ',
    'no clutch ',
    'Ａ',
    'ﷺ',
    'e\u0301\u0302\u0303',
    '\u200b',
    '\u202e',
    '"',
    '.',
    ',',
    '0.',
    '1.1.',
    '🚲',
    '"17 3/8" ',
  ];

  // Two thousand characters take a millisecond or two. A reader worse than linear would run into the runner's own time
  // limit; a longer line is refused whole, so this is the most there can be.
  it.each(worst)('of %j is read or refused calmly', (piece) => {
    expectCalm(readSetup(filled(piece, LONGEST_LINE)));
  });

  it('of 2000 characters is still read', () => {
    const reading = readSetup(`36/22 11-36${' '.repeat(LONGEST_LINE - 11)}`);
    expect(reading).toMatchObject({ kind: 'read', bike: { rings: [36, 22] } });
  });

  it.each([LONGEST_LINE + 1, 10_000, 1_000_000])('of %i characters is refused without being repeated', (length) => {
    const reading = readSetup(filled('36/22 ', length));
    expect(reading.kind === 'refused' && reading.refusal.field).toBe('setup');
    expectCalm(reading);
    expect(texts(reading).join(' ')).not.toContain('36/22 36/22');
    expect(texts(reading).join(' ')).toContain('2000');
  });

  it('in a typed option is refused without being repeated', () => {
    const reading = readSetup('36/22', { ring: '9'.repeat(10_000) });
    expect(reading.kind).toBe('refused');
    expectCalm(reading);
  });
});

describe('what a refusal repeats', () => {
  it('is cut to 40 characters', () => {
    const reading = readSetup(`ring=${'9'.repeat(500)}`);
    expect(reading.kind).toBe('refused');
    expect(texts(reading).join(' ')).not.toContain('9'.repeat(41));
  });

  it.each([
    'ring=\u202e23',
    'ring=a\u0000b',
    'ring=a\u001b[31mb',
    'ring=\u2066x\u2069',
    'ring=😀\ud83d',
    'ring=x\u{e0041}',
    'rings=36/\u202e22x',
  ])('holds no hidden character: %j', (line) => {
    expectCalm(readSetup(line));
  });

  it('leaves nothing half done', () => {
    expect(readSetup('36/22 11-36 stays 440 ring=NaN')).toMatchObject({ kind: 'refused', refusal: { field: 'ring' } });
  });

  it('never changes what every object inherits', () => {
    readSetup('__proto__=1 constructor=2', { __proto__: '1' });
    expect(Object.hasOwn(Object.prototype, 'ring')).toBe(false);
    expect({}).toEqual({});
  });
});

describe('one bike in three spellings', () => {
  const first = readSetup('2x10 36/22 11-36');

  it.each([
    ['typographic dashes', '2×10 · 22–36T, 36−11'],
    ['keys', 'speeds=10 rings=36,22 cassette=11/36'],
    ['Arabic-Indic digits', '٢×١٠ ٣٦/٢٢ ١١-٣٦'],
  ])('%s give the same bytes', (_, line) => {
    expect(JSON.stringify(readSetup(line))).toBe(JSON.stringify(first));
  });
});
