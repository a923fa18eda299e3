import { stripVTControlCharacters } from 'node:util';
import fc from 'fast-check';
import stringWidth from 'string-width';
import { describe, expect, test } from 'vitest';
import { type Look, render, renderBlocks, withoutWorking } from '../../adapters/terminal/render.ts';
import type { Block, Card } from '../../src/card/card.ts';
import { ask } from '../../src/workbench.ts';
import { factsOf, SAMPLE_CARD } from '../support/sample-card.ts';

const WIDTHS = [32, 40, 55, 80, 100, 120];
const LOOKS: readonly Look[] = [
  ...WIDTHS.flatMap((width): Look[] => [
    { kind: 'screen', width, colour: false },
    { kind: 'screen', width, colour: true },
    { kind: 'spoken', width },
  ]),
  { kind: 'spoken', width: null },
];

/** What is left when layout is taken away: no colour, no blanks, no capitals. */
function bare(text: string): string {
  return stripVTControlCharacters(text).normalize('NFC').replaceAll(/\s/g, '').toLowerCase();
}

function missing(card: Card, shown: string): readonly string[] {
  const text = bare(shown);
  return factsOf(card).filter((fact) => !text.includes(bare(fact)));
}

function widest(shown: string): number {
  return Math.max(
    ...stripVTControlCharacters(shown)
      .split('\n')
      .map((line) => stringWidth(line)),
  );
}

describe.each(LOOKS)('a card shown as $kind, $width columns, colour $colour', (look) => {
  const shown = render(SAMPLE_CARD, look);

  test('shows every fact of the card', () => {
    expect(missing(SAMPLE_CARD, shown)).toEqual([]);
  });

  test('has no line wider than the width', () => {
    expect(widest(shown)).toBeLessThanOrEqual(look.width ?? Number.POSITIVE_INFINITY);
  });

  test('ends in one line break and has no trailing blanks', () => {
    expect(shown.endsWith('\n')).toBe(true);
    expect(stripVTControlCharacters(shown)).not.toMatch(/[ \t]\n|\n\n\n|\n\n$/);
  });
});

test('the whole card at 100 columns', () => {
  expect(render(SAMPLE_CARD, { kind: 'screen', width: 100, colour: false })).toBe(`\
A 32T ring fits and keeps most of your gears: lowest 45 % harder, highest 11 % slower.

Read: rings=36/22 cassette=11-36 wheel=57-622. Assumed: cadence 90, terrain rolling.

Lowest gear: 0.89 instead of 0.61.
Chain: 106 pitches (53 pairs, 1346.2 mm) at 440 mm (17.3 in) stays.

STOP: do not ride with a bolt missing.
Take care: the figure printed on the part wins over this one.

Gears ${'─'.repeat(94)}
Old against new
  Ring  Lowest  Highest  Range  Fit
  Now     0.61     3.27  536 %
  32T     0.89     2.91  327 %  fits
  104T   −2.06    10.12  327 %  does not

Half the range of a double is what a single ring gives up.

Torque ${'─'.repeat(93)}
Tighten in this order
  [ ] Ring bolts, steel: 12–14 N·m (106–124 lbf·in)
      in a star, in two passes
  [ ] Check again after the first ride

Take care: a number in chat is not a sign-off.

Chain ${'─'.repeat(94)}
How it is worked out
  Chain that just wraps = 2·C/p·cos α + (N + n)/2 + (N − n)·α/π
    with your numbers: 2·440/12.7·cos 0.018 + (32 + 36)/2 + 4·0.018/π
    = 103.3 pitches
    source: mechanism journal extract

${'─'.repeat(100)}
To look at it another way:
  ring=30 (30T)
  newcassette=11-46 (a wider cassette)

Say which: suspension=none (no shock)

Kept
  Ordinary parts stay: 轮组 and a naïve é.
`);
});

test('the whole card at 34 columns turns a table into paragraphs', () => {
  expect(renderBlocks(SAMPLE_CARD.blocks.slice(0, 3), { kind: 'screen', width: 34, colour: false })).toBe(`\
STOP: do not ride with a bolt
  missing.
Take care: the figure printed on
  the part wins over this one.

Gears ${'─'.repeat(28)}
Old against new
  Now — Lowest 0.61 ·
    Highest 3.27 · Range 536 %
  32T — Lowest 0.89 ·
    Highest 2.91 · Range 327 % ·
    Fit fits
  104T — Lowest −2.06 ·
    Highest 10.12 · Range 327 % ·
    Fit does not
`);
});

test('a screen reader hears sentences', () => {
  expect(render(SAMPLE_CARD, { kind: 'spoken', width: null })).toBe(`\
A 32T ring fits and keeps most of your gears: lowest 45 % harder, highest 11 % slower.
Read: rings=36/22 cassette=11-36 wheel=57-622. Assumed: cadence 90, terrain rolling.
Lowest gear: 0.89 instead of 0.61.
Chain: 106 pitches (53 pairs, 1346.2 mm) at 440 mm (17.3 in) stays.
STOP: do not ride with a bolt missing.
Take care: the figure printed on the part wins over this one.

Gears:
Old against new:
Now: lowest 0.61, highest 3.27, range 536 %.
32T: lowest 0.89, highest 2.91, range 327 %, fit fits.
104T: lowest −2.06, highest 10.12, range 327 %, fit does not.
Half the range of a double is what a single ring gives up.

Torque:
Tighten in this order:
1 of 2: Ring bolts, steel: 12–14 N·m (106–124 lbf·in). in a star, in two passes.
2 of 2: Check again after the first ride.
Take care: a number in chat is not a sign-off.

Chain:
How it is worked out:
Chain that just wraps = 2·C/p·cos α + (N + n)/2 + (N − n)·α/π.
With your numbers: 2·440/12.7·cos 0.018 + (32 + 36)/2 + 4·0.018/π.
Result: 103.3 pitches.
Source: mechanism journal extract.

In short:
To look at it another way: ring=30 (30T); newcassette=11-46 (a wider cassette).
Say which: suspension=none (no shock).
Kept:
Ordinary parts stay: 轮组 and a naïve é.
`);
});

test('colour comes in addition to words, never instead of them', () => {
  for (const width of WIDTHS) {
    const coloured = render(SAMPLE_CARD, { kind: 'screen', width, colour: true });
    expect(coloured).toContain('\u001b[');
    expect(stripVTControlCharacters(coloured)).toBe(render(SAMPLE_CARD, { kind: 'screen', width, colour: false }));
  }
});

describe.each([
  ['convert', '2x10 36/22 11-36 29er hardtail 104bcd clutch stays=440mm chain=108'],
  ['convert', 'full sus 36/26 11-42 to 32 stays=435mm longest=452mm'],
  ['convert', '2x10 hardtail 42/32/24, 140 mm rear shock'],
  ['gears', '50/34 11-32 700x28 ring=42'],
  ['torque', 'cranktype=pinch boltmaterial=aluminium wrench=300mm extension=40mm'],
  ['convert', 'ring=NaN'],
  ['help', ''],
])('the card of %s %s', (command, setup) => {
  const { card } = ask({ command, setup });

  test.each(LOOKS)('is whole and within its width: $kind, $width columns, colour $colour', (look) => {
    const shown = render(card, look);
    // A screen names its pictures; what they show stands in the card's tables and lines, and is read out in sentences.
    const told =
      look.kind === 'spoken' ? card : { ...card, blocks: card.blocks.filter(({ kind }) => kind !== 'figure') };
    expect(missing(told, shown)).toEqual([]);
    for (const block of card.blocks) if (block.kind === 'figure') expect(bare(shown)).toContain(bare(block.title));
    expect(widest(shown)).toBeLessThanOrEqual(look.width ?? Number.POSITIVE_INFINITY);
  });

  test('leaves out nothing but the working where that is not asked for', () => {
    const whole = { ...card, blocks: card.blocks.filter((block) => block.kind !== 'working') };
    expect(missing(whole, render(withoutWorking(card), { kind: 'spoken', width: null }))).toEqual([]);
  });
});

const words = fc.stringMatching(/^[a-z0-9éß轮界 ·%.,=/-]{1,60}$/);
const block: fc.Arbitrary<Block> = fc.oneof(
  fc.record({ kind: fc.constant('text' as const), section: fc.constant('gears' as const), lines: fc.array(words) }),
  fc.record({
    kind: fc.constant('caution' as const),
    section: fc.constantFrom('torque' as const, 'summary' as const),
    level: fc.constantFrom('stop' as const, 'care' as const),
    text: words,
  }),
  fc.record({
    kind: fc.constant('table' as const),
    section: fc.constant('chain' as const),
    title: words,
    columns: fc.constant(['Ring', 'Lowest gear', 'Highest']),
    rows: fc.array(fc.tuple(words, words, words)),
  }),
  fc.record({
    kind: fc.constant('checklist' as const),
    section: fc.constant('work' as const),
    title: words,
    items: fc.array(fc.record({ text: words, detail: words })),
  }),
);

test('no card of any length loses a fact or a line its width', () => {
  const card = fc.record({ answer: words, readBack: words, lines: fc.array(words), blocks: fc.array(block) });
  fc.assert(
    fc.property(card, fc.constantFrom(...LOOKS), (any, look) => {
      const shown = render(any, look);
      // A table without rows names no columns when it is told as paragraphs.
      const lost = missing(any, shown).filter((fact) => fact !== 'Lowest gear' && fact !== 'Highest');
      expect(lost).toEqual([]);
      expect(widest(shown)).toBeLessThanOrEqual(look.width ?? Number.POSITIVE_INFINITY);
    }),
    { numRuns: 200 },
  );
});
