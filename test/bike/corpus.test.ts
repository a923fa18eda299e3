import { describe, expect, it } from 'vitest';
import { Bike } from '../../src/bike/bike.ts';
import { KEYS, type KeyName } from '../../src/bike/keys.ts';
import { readSetup } from '../../src/bike/read-setup.ts';
import type { Question, Reading } from '../../src/bike/reading.ts';
import { sayBack } from '../../src/bike/say-back.ts';
import type { Phrasing } from './corpus/phrasing.ts';
import { CORPUS, OWN_WORDS } from './corpus.ts';

/** Inches may be kept to a hundredth of a millimetre. */
const WITHIN = 0.01;

function same(ours: unknown, wanted: unknown): boolean {
  if (typeof ours === 'number' && typeof wanted === 'number') return Math.abs(ours - wanted) < WITHIN;
  if (typeof ours !== 'object' || typeof wanted !== 'object' || ours === null || wanted === null)
    return ours === wanted;
  const [a, b] = [new Map(Object.entries(ours)), new Map(Object.entries(wanted))];
  return (
    Array.isArray(ours) === Array.isArray(wanted) &&
    a.size === b.size &&
    [...a].every(([key, value]) => same(value, b.get(key)))
  );
}

/** The bike without the fields that `may` allows, where they hold what it allows. */
function stripped(bike: Bike, may: Bike): Bike {
  const allowed = new Map<string, unknown>(Object.entries(may));
  return Object.fromEntries(Object.entries(bike).filter(([key, value]) => !same(value, allowed.get(key))));
}

const about = (questions: readonly Question[], fields: readonly KeyName[]): boolean =>
  questions.some((each) => fields.length === 0 || fields.includes(each.field));

function isRight(phrasing: Phrasing, reading: Reading): boolean {
  if (reading.kind === 'refused') {
    if (phrasing.kind === 'refuses') return reading.refusal.field === phrasing.field;
    return (
      (phrasing.kind === 'stops' || phrasing.kind === 'doubts') &&
      phrasing.fields.some((field) => field === reading.refusal.field)
    );
  }
  switch (phrasing.kind) {
    case 'refuses':
      return false;
    case 'stops':
      return about(reading.conflicts, phrasing.fields);
    case 'doubts':
      return about(reading.conflicts, phrasing.fields) || same(reading.bike, phrasing.bike);
    case 'asks': {
      const slots = phrasing.about;
      const open = slots.some((fields) => fields.length === 0);
      return (
        slots.every((fields) => about(reading.conflicts, fields)) &&
        (open || reading.conflicts.every((each) => slots.some((fields) => fields.includes(each.field))))
      );
    }
    case 'opens':
      return (
        same(reading.bike, phrasing.bike) && reading.conflicts.length === 0 && about(reading.open, [phrasing.field])
      );
    case 'reads':
      return (
        same(stripped(reading.bike, phrasing.may), phrasing.bike) &&
        [...reading.conflicts, ...reading.open].every((each) => phrasing.mayAsk.includes(each.field))
      );
  }
}

/** A wrong reading that says nothing: no refusal, no question, no word left unread. */
function isSilent(reading: Reading): boolean {
  return (
    reading.kind === 'read' &&
    reading.conflicts.length === 0 &&
    reading.open.length === 0 &&
    reading.unread.length === 0
  );
}

/** A field that the line does not say, or says otherwise, with no question: unread words do not excuse it. */
function isInvented(phrasing: Phrasing, reading: Reading): boolean {
  if (phrasing.kind !== 'reads' && phrasing.kind !== 'doubts') return false;
  if (reading.kind !== 'read' || reading.conflicts.length > 0) return false;
  const may = phrasing.kind === 'reads' ? phrasing.may : {};
  const told = new Map<string, unknown>(Object.entries({ ...may, ...phrasing.bike }));
  return Object.entries(reading.bike).some(([key, value]) => !same(value, told.get(key)));
}

function shown(reading: Reading): string {
  if (reading.kind === 'refused') return `refused ${reading.refusal.field}: ${reading.refusal.message}`;
  const asked = [...reading.conflicts, ...reading.open].map((each) => `${each.field}: ${each.question}`);
  return `${JSON.stringify(reading.bike)} asks [${asked.join(' | ')}] unread [${reading.unread.join(' ')}]`;
}

function wanted(phrasing: Phrasing): string {
  switch (phrasing.kind) {
    case 'reads':
      return JSON.stringify(phrasing.bike);
    case 'opens':
      return `${JSON.stringify(phrasing.bike)} with ${phrasing.field} open`;
    case 'asks':
      return `a question about ${phrasing.about.map((fields) => fields.join('/') || 'anything').join(' and ')}`;
    case 'refuses':
      return `a refusal of ${phrasing.field}`;
    case 'stops':
      return `a refusal or a question about ${phrasing.fields.join('/')}`;
    case 'doubts':
      return `${JSON.stringify(phrasing.bike)} or a question about ${phrasing.fields.join('/')}`;
  }
}

const outcomes = CORPUS.map((phrasing) => ({ phrasing, reading: readSetup(phrasing.line) }));
const misses = outcomes.filter(({ phrasing, reading }) => !isRight(phrasing, reading));
const report = (list: typeof outcomes): string =>
  list
    .map(({ phrasing, reading }) => `${JSON.stringify(phrasing.line)}: ${wanted(phrasing)}; got ${shown(reading)}`)
    .join('\n');

describe('the corpus', () => {
  it('holds at least 340 phrasings, no line twice', () => {
    expect(CORPUS.length).toBeGreaterThanOrEqual(340);
    const lines = CORPUS.map((each) => each.line);
    expect(lines.filter((line, at) => lines.indexOf(line) !== at)).toEqual([]);
  });

  it('expects only bikes that can be', () => {
    for (const phrasing of CORPUS) {
      if (!('bike' in phrasing)) continue;
      expect(Bike.safeParse(phrasing.bike).error, phrasing.line).toBeUndefined();
    }
  });

  it.each(Object.keys(KEYS))('reads %s= in at least two lines', (key) => {
    const written = new RegExp(`(^|[\\s,;])${key}\\s*[=:＝]`, 'i');
    const lines = CORPUS.filter((each) => each.kind === 'reads' && written.test(each.line));
    expect(lines.length).toBeGreaterThanOrEqual(2);
  });
});

describe('the reader', () => {
  it.each([
    { name: 'the corpus', part: CORPUS },
    { name: 'the lines in own words', part: OWN_WORDS },
  ])('reads at least 98 percent of $name right', ({ part }) => {
    const missed = misses.filter(({ phrasing }) => part.includes(phrasing));
    if (missed.length > 0) console.info(`${missed.length} of ${part.length} missed\n${report(missed)}`);
    expect(missed.length, report(missed)).toBeLessThanOrEqual(part.length * 0.02);
  });

  it('reads no line wrong in silence', () => {
    expect(report(misses.filter(({ reading }) => isSilent(reading)))).toBe('');
  });

  it('takes from no line what it does not say, unless it asks about it', () => {
    expect(report(misses.filter(({ phrasing, reading }) => isInvented(phrasing, reading)))).toBe('');
  });

  it('gives only bikes that pass the Bike object', () => {
    const failed = outcomes.filter(({ reading }) => reading.kind === 'read' && !Bike.safeParse(reading.bike).success);
    expect(report(failed)).toBe('');
  });

  it('reads a said-back bike as the same bike, on one line, with nothing to ask and nothing unread', () => {
    for (const { phrasing, reading } of outcomes) {
      if (reading.kind === 'refused' || reading.conflicts.length > 0) continue;
      const said = sayBack(reading.bike);
      expect(said, phrasing.line).not.toMatch(/[\r\n\t]/);
      const again = readSetup(said);
      expect(again, `${phrasing.line} said back as "${said}"`).toEqual({
        kind: 'read',
        bike: reading.bike,
        conflicts: [],
        open: [],
        unread: [],
      });
    }
  });

  it('settles every question it asks by the words of each of its choices', () => {
    const unsettled: string[] = [];
    for (const { phrasing, reading } of outcomes) {
      if (reading.kind === 'refused') continue;
      for (const question of [...reading.conflicts, ...reading.open]) {
        for (const choice of question.choices) {
          const after = readSetup(`${phrasing.line} ${choice.setup}`);
          const settled =
            after.kind === 'read' &&
            ![...after.conflicts, ...after.open].some(
              (each) => each.field === question.field && each.question === question.question,
            );
          if (!settled) unsettled.push(`${phrasing.line} + ${choice.setup}: ${shown(after)}`);
        }
      }
    }
    expect(unsettled).toEqual([]);
  });

  it('asks in short questions that a field of the setup line answers', () => {
    for (const { reading } of outcomes) {
      if (reading.kind === 'refused') continue;
      for (const question of [...reading.conflicts, ...reading.open]) {
        expect(Object.hasOwn(KEYS, question.field)).toBe(true);
        expect(question.question).toMatch(/\?/);
        expect(question.question.length).toBeLessThanOrEqual(200);
      }
    }
  });

  it('names in a refusal what is allowed and an example that reads', () => {
    for (const { phrasing, reading } of outcomes) {
      if (reading.kind === 'read') continue;
      const { field, allowed, example, message } = reading.refusal;
      expect(message.length, phrasing.line).toBeGreaterThan(0);
      expect(allowed.length, phrasing.line).toBeGreaterThan(0);
      const again = readSetup(example);
      expect(again.kind, `${field}: ${example}`).toBe('read');
      if (again.kind === 'read') expect(Object.keys(again.bike).length, example).toBeGreaterThan(0);
    }
  });
});

describe('typed options', () => {
  it('read like key=value', () => {
    const line = readSetup('rings=36/22 cassette=11-36 stays=17,375in clutch=yes');
    const typed = readSetup('', { rings: '36/22', cassette: '11-36', stays: '17,375in', clutch: 'yes' });
    expect(typed).toEqual(line);
    expect(typed).toMatchObject({ kind: 'read', bike: { rings: [36, 22], clutch: true } });
  });

  it('join the line', () => {
    expect(readSetup('36/22 11-36', { ring: '32' })).toMatchObject({
      kind: 'read',
      bike: { rings: [36, 22], cassette: { smallestTeeth: 11, largestTeeth: 36 }, ringTeeth: 32 },
      conflicts: [],
    });
  });

  it('that say what the line says are no conflict', () => {
    expect(readSetup('36/22', { rings: '36,22' })).toMatchObject({ kind: 'read', conflicts: [] });
  });

  it('that say otherwise are asked about', () => {
    const reading = readSetup('36/22 ring=32', { ring: '34' });
    expect(reading.kind === 'read' && reading.conflicts.map((each) => each.field)).toEqual(['ring']);
  });

  it.each([
    ['ring', 'NaN', 'ring'],
    ['ring', '', 'ring'],
    ['stays', '-440', 'stays'],
    ['colour', 'red', 'setup'],
    ['__proto__', '32', 'setup'],
    ['constructor', '32', 'setup'],
  ])('%s of "%s" is refused', (key, value, field) => {
    const reading = readSetup('36/22', Object.fromEntries([[key, value]]));
    expect(reading.kind === 'refused' && reading.refusal.field).toBe(field);
  });
});
