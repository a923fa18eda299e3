import fc from 'fast-check';
import { expect, test } from 'vitest';
import { inertJson } from '../../adapters/terminal/escape.ts';
import { render } from '../../adapters/terminal/render.ts';
import { inert } from '../../src/inert.ts';

const ISOLATES = /[\u2068\u2069]/g;
// Written out range by range, apart from the Unicode properties the product goes by.
const UNSAFE = new RegExp(
  [
    '[\\u0000-\\u001f\\u007f-\\u009f\\u00ad\\u061c\\u200b-\\u200f\\u2028-\\u202e\\u2060-\\u206f\\ufeff\\ufff9-\\ufffb]',
    '[\\ud800-\\udbff](?![\\udc00-\\udfff])',
    '(?<![\\ud800-\\udbff])[\\udc00-\\udfff]',
  ].join('|'),
);
const HOSTILE = [
  '\u001b[2J\u001b[31mred',
  '\u009b31mred',
  '\u001b]8;;http://x\u0007link\u001b]8;;\u0007',
  'a\rb\u0008\u0008c',
  '\u202Etxet\u202C',
  '@every\u200Bone',
  '\u2067isolated\u2069',
  'half \ud83d pair',
  '\u{e0041}tag',
  'line\u2028break\u0085next',
];

test('ordinary text of any language passes unchanged', () => {
  for (const text of ['32T, 0.89 · 12–14 N·m', 'naïve', '轮组 32', 'e\u0301'.normalize('NFC'), '🚲']) {
    expect(inert(text)).toBe(text);
  }
});

test.each(HOSTILE)('%j comes out inert', (text) => {
  expect(inert(text)).not.toMatch(UNSAFE);
  expect(inertJson({ text })).not.toMatch(UNSAFE);
  expect(JSON.parse(inertJson({ text }))).toEqual({ text });
});

test('what was there stays visible as a mark, a line break as a space', () => {
  expect(inert('a\u202eb')).toBe('a\ufffdb');
  expect(inert('a\nb\tc')).toBe('a b c');
});

test('right-to-left words are isolated one by one', () => {
  expect(inert('ring שלום 32')).toBe('ring \u2068שלום\u2069 32');
});

test('no string at all can move the cursor, colour or reorder text', () => {
  fc.assert(
    fc.property(fc.string({ unit: 'binary', maxLength: 60 }), (text) => {
      expect(inert(text).replaceAll(ISOLATES, '')).not.toMatch(UNSAFE);
      expect(inert(text).match(ISOLATES)?.length ?? 0).toBe(2 * (inert(text).split('\u2068').length - 1));
      expect(JSON.parse(inertJson({ text }))).toEqual({ text });
    }),
    { numRuns: 1000 },
  );
});

test('hostile text is inert wherever it stands on a card', () => {
  for (const text of HOSTILE) {
    const card = {
      answer: text,
      readBack: text,
      lines: [text],
      blocks: [
        { kind: 'text', section: 'gears', title: text, lines: [text] },
        { kind: 'table', section: 'gears', title: text, columns: [text, text], rows: [[text, text]] },
        { kind: 'checklist', section: 'work', title: text, items: [{ text, detail: text }] },
        { kind: 'caution', section: 'torque', level: 'stop', text },
        { kind: 'actions', section: 'summary', title: text, actions: [{ label: text, setup: text }] },
        {
          kind: 'working',
          section: 'chain',
          steps: [{ quantity: text, formula: text, numbers: text, result: text, source: text }],
        },
      ],
    } as const;
    for (const look of [
      { kind: 'screen', width: 40, colour: false },
      { kind: 'spoken', width: null },
    ] as const) {
      expect(render(card, look).replaceAll('\n', '')).not.toMatch(UNSAFE);
    }
  }
});
