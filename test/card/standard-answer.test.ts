import { describe, expect, it } from 'vitest';
import { changeLines } from '../../src/card/standard-answer-change.ts';
import { textChangeLines } from '../../src/card/standard-answer-text.ts';
import type { PinnedQuestion } from '../../src/records/answers.ts';
import { resultChanges } from '../../src/records/result-difference.ts';

function figures(was: unknown, is: unknown, most = 12): readonly string[] {
  const [pinned, now] = [JSON.stringify(was), JSON.stringify(is)];
  return changeLines(resultChanges(pinned, now), pinned, now, most);
}

const words = (body: string, aliases: readonly string[] = [], question: PinnedQuestion | null = null) => ({
  body,
  aliases,
  question,
});

const QUESTION: PinnedQuestion = {
  command: 'chain',
  setup: 'stays=440mm',
  options: { ring: '32' },
  rules: '2025-01',
  result: '{}',
  card: '{}',
};

describe('changed figures', () => {
  it('are named by their part, what tells a list apart, and their unit', () => {
    const was = {
      torque: [{ fastener: 'Ring bolts', lowNm: 8, lowInLbf: 70.8, source: 'one table' }],
      weight: { savedLowG: 250 },
      chainline: { worstDeg: 2, sprockets: [{ teeth: 36, offsetMm: 1.5 }] },
    };
    const is = {
      torque: [{ fastener: 'Ring bolts', lowNm: 9, lowInLbf: 79.7, source: 'another' }],
      weight: { savedLowG: 255 },
      chainline: { worstDeg: 2.5, sprockets: [{ teeth: 36, offsetMm: -1.5 }] },
    };
    expect(figures(was, is)).toEqual([
      'Torque, Ring bolts, low: 70.8 lbf·in then, 79.7 lbf·in now.',
      'Torque, Ring bolts, low: 8 N·m then, 9 N·m now.',
      'Torque, Ring bolts, source: “one table” then, “another” now.',
      'Chainline, sprockets, 36T, offset: 1.5 mm then, −1.5 mm now.',
      'Chainline, worst: 2° then, 2.5° now.',
      'Weight, saved low: 250 g then, 255 g now.',
    ]);
  });

  it('show what is unknown, missing, a list or a yes as words', () => {
    const was = { chain: { growthMm: null }, mount: { unevenPattern: true }, wear: { marks: [1, 2] }, trial: {} };
    const is = {
      chain: { growthMm: 12.5 },
      mount: { unevenPattern: false },
      wear: { marks: [] },
      climb: { gradePct: 9 },
    };
    expect(figures(was, is)).toEqual([
      'Chain, growth: not known then, 12.5 mm now.',
      'Mount, uneven pattern: yes then, no now.',
      'Wear, marks, 1: 1 then, nothing now.',
      'Wear, marks, 2: 2 then, nothing now.',
      'Climb: nothing then, several figures now.',
      'Trial: several figures then, nothing now.',
    ]);
  });

  it('never look the same then and now', () => {
    expect(figures({ now: { lowestRatio: 0.61111 } }, { now: { lowestRatio: 0.61112 } })).toEqual([
      'Gears of today, lowest ratio: 0.61111 then, 0.61112 now.',
    ]);
  });

  it('past the most that is shown are counted, ring by ring last', () => {
    const was = { rings: [{ teeth: 30, cost: 1 }], speaksOf: { teeth: 30 }, chain: { targetPairs: 52 } };
    const is = { rings: [{ teeth: 30, cost: 2 }], speaksOf: { teeth: 32 }, chain: { targetPairs: 53 } };
    expect(figures(was, is, 2)).toEqual([
      'Ring spoken of, teeth: 30 then, 32 now.',
      'Chain, target: 52 pairs then, 53 pairs now.',
      'And 1 more; each of them is in the machine-readable answer.',
    ]);
    expect(figures(was, is)[2]).toBe('Rings, 30T, cost: 1 then, 2 now.');
  });
});

describe('a changed text', () => {
  it('shows each change with the words around it', () => {
    const old = 'On club hills use a ring of 30 teeth. Keep both hands free. Check every bolt after the first ride.';
    const now = 'On club hills use a ring of 32 teeth. Keep both hands free. Check each bolt after the first ride.';
    expect(textChangeLines(words(old), words(now))).toEqual([
      '“… hills use a ring of 30 teeth. Keep both hands …” became “… hills use a ring of 32 teeth. Keep both hands …”',
      '“… both hands free. Check every bolt after the first …” became “… both hands free. Check each bolt after the first …”',
    ]);
  });

  it('joins changes that stand close to each other, and shows what only came or went', () => {
    expect(textChangeLines(words('Use 30 or 32.'), words('Use 32 or 34.'))).toEqual([
      '“Use 30 or 32.” became “Use 32 or 34.”',
    ]);
    expect(textChangeLines(words('Measure.'), words('Measure twice.'))).toEqual(['“Measure.” became “Measure twice.”']);
    expect(textChangeLines(words('One.\nTwo.'), words('One.'))).toEqual(['“One. ¶ Two.” became “One.”']);
  });

  it('that is quite another is shown whole', () => {
    const old = Array.from({ length: 12 }, (_, n) => `old${n} stays the very same here`).join(' ');
    expect(textChangeLines(words(old), words(old.replaceAll('old', 'new')))).toEqual([
      `“${old}” became “${old.replaceAll('old', 'new')}”`,
    ]);
    expect(textChangeLines(words(''), words('Words.'))).toEqual(['“” became “Words.”']);
  });

  it('names other names and the card as well', () => {
    const anew = { ...QUESTION, rules: '2026-11', result: '{"chain":{}}' };
    expect(textChangeLines(words('x', ['a', 'b'], QUESTION), words('x', ['b', 'c'], anew))).toEqual([
      'Also found as: c.',
      'No longer found as: a.',
      'Its card was solved again: rules 2025-01 then, 2026-11 now.',
    ]);
    expect(textChangeLines(words('x'), words('x', [], QUESTION))).toEqual([
      'It got a card: chain stays=440mm ring=32.',
    ]);
    expect(textChangeLines(words('x', [], QUESTION), words('x'))).toEqual([
      'Its card was taken away: chain stays=440mm ring=32.',
    ]);
    const other = { ...QUESTION, setup: 'stays=430mm' };
    expect(textChangeLines(words('x', [], QUESTION), words('x', [], other))).toEqual([
      'Its card: “chain stays=440mm ring=32” became “chain stays=430mm ring=32”',
    ]);
    expect(textChangeLines(words('x'), words('x'))).toEqual(['Nothing in it changed.']);
  });
});
