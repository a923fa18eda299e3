import { describe, expect, it } from 'vitest';
import { KEYS, type Key, type KeyName } from '../../src/bike/keys.ts';
import { readSetup } from '../../src/bike/read-setup.ts';
import type { Reading } from '../../src/bike/reading.ts';

function read(line: string): Extract<Reading, { kind: 'read' }> {
  const reading = readSetup(line);
  if (reading.kind === 'refused') throw new Error(`${line}: ${reading.refusal.message}`);
  return reading;
}

function refused(line: string) {
  const reading = readSetup(line);
  if (reading.kind === 'read') throw new Error(`${line} is read: ${JSON.stringify(reading.bike)}`);
  return reading.refusal;
}

const NUMERIC = (Object.keys(KEYS) as KeyName[]).filter((name) => (KEYS[name] as Key).low !== undefined);
const SINGLE = NUMERIC.filter((name) => ['teeth', 'whole', 'number'].includes(KEYS[name].form));

describe('one bike in many spellings', () => {
  const told = read('2x10 36/22 11-36');

  it.each([
    ['typographic signs', '2×10 · 22–36T, 36−11'],
    ['key=value and commas', 'speeds=10 rings=36,22 cassette=11/36'],
    ['Arabic-Indic digits', '٢×١٠ ٣٦/٢٢ ١١-٣٦'],
    ['full-width forms', '２ｘ１０　３６／２２　１１－３６'],
    ['Devanagari and Persian digits', '२x१० ۳۶/۲۲ ११-३६'],
    ['mathematical digits', '𝟐x𝟏𝟎 𝟑𝟔/𝟐𝟐 𝟏𝟏-𝟑𝟔'],
    ['capitals, tabs and new lines', '2X10\t36T/22T\n11-36T'],
    ['invisible characters inside', '2\u200bx10 3\u202e6/2\u206a2 1\ufeff1-3\u00ad6'],
    ['words', 'two by ten, thirty-six and twenty-two rings, an eleven thirty-six cassette'],
    ['key: value', 'speeds: 10; rings: 36/22; cassette: 11-36'],
  ])('%s give the same bytes', (_, line) => {
    expect(JSON.stringify(read(line))).toBe(JSON.stringify(told));
  });
});

describe('a key', () => {
  it.each(Object.keys(KEYS) as KeyName[])('%s reads its own example, told or typed', (name) => {
    const reading = read(KEYS[name].example);
    expect(Object.keys(reading.bike)).toHaveLength(1);
    expect(reading).toMatchObject({ conflicts: [], open: [], unread: [] });
    const value = KEYS[name].example.slice(name.length + 1);
    expect(readSetup('', { [name]: value })).toEqual(reading);
  });

  it.each(SINGLE)('%s reads both ends of its range and refuses what lies past them', (name) => {
    const { low = 0, high = 0 } = KEYS[name] as Key;
    for (const end of [low, high]) expect(Object.values(read(`${name}=${end}`).bike)).toEqual([end]);
    for (const past of [low - 1, high + 1]) {
      const refusal = refused(`${name}=${past}`);
      expect(refusal).toMatchObject({ field: name, example: KEYS[name].example });
      expect(refusal.allowed).toContain(`${low} to ${high}`);
      expect(refusal.allowed).toContain(KEYS[name].because);
    }
  });

  it.each(
    NUMERIC.flatMap((name) =>
      ['NaN', '1e3', '0x20', 'Infinity', '', '1e309', '--3', '3..2', '3-', '٣a'].map((text) => [name, text]),
    ),
  )('%s=%s is refused by its name', (name, text) => {
    expect(refused(`${name}=${text}`).field).toBe(name);
  });

  it.each(['ring=32.5', 'speeds=9.5', 'bolts=4,5', 'chain=113.5', 'maxcog=36.1'])('%s is no whole number', (line) => {
    expect(refused(line).message).toContain('whole');
  });

  it.each([
    ['rngs=36/22', 'rings'],
    ['stayz=440', 'stays'],
    ['chian=114', 'chain'],
    ['cassete=11-36', 'cassette'],
  ])('%s names the nearest key, %s', (line, nearest) => {
    const refusal = refused(line);
    expect(refusal.field).toBe('setup');
    expect(refusal.allowed).toContain(nearest);
  });

  it('that nobody knows still gets an example that works', () => {
    expect(readSetup(refused('colour=red').example)).toMatchObject({ kind: 'read' });
  });

  it.each([
    ['chain stay = 440 mm', { stayMm: 440 }],
    ['max cog=42', { maxSprocketTeeth: 42 }],
    ['crank arm=175', { crankMm: 175 }],
    ['chain-ring_s=36/22', { rings: [36, 22] }],
    ['wheel = 29 x 2.2', { wheel: { kind: 'tyre', beadSeatMm: 622, widthMm: 55.88 } }],
    ['gap=73,5 and 68,2 mm', { gapsMm: [73.5, 68.2] }],
    ['mount = direct mount', { mount: 'direct' }],
    ['big ring=36 small ring=22', { rings: [36, 22] }],
  ])('may have several words: %s', (line, bike) => {
    expect(read(line).bike).toEqual(bike);
  });
});

describe('a length', () => {
  // 17 3/8 in x 25.4 mm = 441.325 mm.
  it.each([
    'stays 441.325 mm',
    'stays=17.375in',
    'stays 17,375 in',
    'chainstays 17 3/8 in',
    'chainstay 17 3/8"',
    '17⅜" stays',
    'stays 17-3/8"',
    'stays=17⅜',
    "stays 17 3/8''",
    'stays 17⅜″',
    'stays 44.1325 cm',
    'stays=0.441325m',
  ])('is the same in "%s"', (line) => {
    expect(read(line).bike).toEqual({ stayMm: 441.325 });
  });

  it('with a decimal comma is no list', () => {
    expect(read('73,5 mm between bolts').bike).toEqual({ gapsMm: [73.5] });
    expect(read('rings 36,22').bike).toEqual({ rings: [36, 22] });
  });
});

describe('a number that can mean more than one thing', () => {
  it.each([
    ['36/11', 'cassette'],
    ['32', 'ring'],
    ['36/22 11-36 104', 'bcd'],
    ['36/22 11-36 440', 'stays'],
    ['36/22 11-36 29', 'ring'],
    ['24 speed', 'speeds'],
    ['52/42 14-28 10 speed', 'speeds'],
    ['11-36 11-46', 'cassette'],
    ['113 links', 'chain'],
    ['57 links', 'chain'],
    ['max 36', 'maxcog'],
    ['11-13-15', 'cassette'],
    ['32 or 34, 36/22 11-36', 'ring'],
  ])('is asked about: %s', (line, field) => {
    expect(read(line).conflicts.map((each) => each.field)).toContain(field);
  });

  it.each([
    ['36/11, rings=36/22', { rings: [36, 22], cassette: { smallestTeeth: 11, largestTeeth: 36 } }],
    ['24 speed, 50/34', { rings: [50, 34], speeds: 12 }],
    ['24 speed triple', { speeds: 8 }],
    ['24 speed, 11-13-15-18-21-24-28-32', { speeds: 8 }],
    ['36/22 11-36 32', { ringTeeth: 32 }],
    ['4 bolt 104', { bcdMm: 104, bolts: 4 }],
    ['mech says max 36', { maxSprocketTeeth: 36 }],
  ])('is read where the rest settles it: %s', (line, part) => {
    const reading = read(line);
    expect(reading.conflicts).toEqual([]);
    expect(reading.bike).toMatchObject(part);
  });
});

describe('words that tell nothing', () => {
  it.each([
    'no clutch or guide',
    'without a clutch and without a guide',
    "it doesn't have a clutch, no chain guide",
    'clutch: no, guide: none',
    'clutch no guide no',
  ])('deny what they deny: %s', (line) => {
    expect(read(line).bike).toEqual({ clutch: false, guide: false });
  });

  it('asked about are shown, not taken', () => {
    expect(read('Guide? Clutch? Do I need a chain guide?')).toMatchObject({
      bike: {},
      unread: ['guide', 'clutch', 'chain guide'],
    });
  });

  it('denied about a number are shown, not taken', () => {
    expect(read('not 104 bcd')).toMatchObject({ bike: {}, unread: ['not 104'] });
  });

  it('are cut and counted when there are many', () => {
    const words = Array.from(
      { length: 60 },
      (_, at) => `wörd${String.fromCharCode(97 + (at % 26), 97 + Math.floor(at / 26))}`,
    );
    const { unread } = read(words.join(' '));
    expect(unread.at(-1)).toMatch(/^and \d+ more$/);
    expect(unread.length).toBeLessThan(20);
    expect(read('y'.repeat(500)).unread[0]).toHaveLength(40);
  });
});

describe('a line that is too long', () => {
  it('is refused whole, in the line and in an option', () => {
    expect(refused('x'.repeat(2001)).field).toBe('setup');
    expect(readSetup('', { ring: '3'.repeat(2001) })).toMatchObject({ kind: 'refused' });
    expect(readSetup('36/22'.padEnd(2000))).toMatchObject({ kind: 'read', bike: { rings: [36, 22] } });
  });
});
