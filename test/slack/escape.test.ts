import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { asTyped, escaped, label, mentionsIn, plain, shown } from '../../adapters/slack/escape.ts';
import { render } from '../../adapters/slack/render.ts';
import { piecesOf, richText } from '../../adapters/slack/text.ts';
import type { Message } from '../../adapters/slack/wire.ts';
import type { Card } from '../../src/card/card.ts';
import type { Reply } from '../../src/request.ts';

const HOSTILE =
  '@everyone <!channel> <!here> <@U1> <#C1|x> <https://x.example|y> & > *b* _i_ ~s~ `c` ``` :tada: \u202e\u200b';

describe('text that is read as markup', () => {
  it('has nothing left that begins any', () => {
    expect(escaped(HOSTILE)).not.toMatch(/<|>|&(?!amp;|lt;|gt;)/);
    expect(escaped('a < b & c > d')).toBe('a &lt; b &amp; c &gt; d');
  });

  it('never mentions, whatever is in it', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme', maxLength: 200 }), (text) => !/[<>]/.test(escaped(text))),
      { numRuns: 500 },
    );
  });
});

describe('text that is not read as markup', () => {
  it('is what was typed, made inert', () => {
    const text = shown(HOSTILE, new Map());
    expect(text).toContain('@everyone <!channel>');
    expect(text).not.toMatch(/[\u202e\u200b]/);
    expect(plain('5 < 6 & *b*')).toEqual({ type: 'plain_text', text: '5 < 6 & *b*', emoji: false });
  });

  it('names people and groups without calling them', () => {
    const names = new Map([
      ['<@U1>', 'Ann <!here>'],
      ['<!subteam^S1>', 'mods'],
    ]);
    expect(shown('by <@U1>, for <!subteam^S1>, not <@U2>', names)).toBe('by Ann <!here>, for mods, not U2');
    expect(escaped('by <@U1>', names)).toBe('by Ann &lt;!here&gt;');
    expect(mentionsIn('<@U1> <@U1> <!subteam^S1> <!channel> <@x>')).toEqual(['<@U1>', '<!subteam^S1>']);
  });

  it('is only in kinds of text that take no markup', () => {
    const card: Card = {
      answer: HOSTILE,
      readBack: HOSTILE,
      lines: [HOSTILE],
      blocks: [
        { kind: 'text', section: 'summary', title: HOSTILE, lines: [HOSTILE] },
        { kind: 'caution', section: 'summary', level: 'stop', text: HOSTILE },
        { kind: 'actions', section: 'summary', title: HOSTILE, actions: [{ label: HOSTILE, setup: HOSTILE }] },
        { kind: 'checklist', section: 'chain', title: HOSTILE, items: [{ text: HOSTILE, detail: HOSTILE }] },
      ],
    };
    const asks = { kind: 'asks', command: 'convert', read: {}, assumed: [], asks: [], unread: [] } as const;
    const refusal = { field: 'setup', message: '', allowed: '', example: '' };
    const reply: Reply = { ...asks, refusal, card, receipt: { code: 'ABCDEFGH', rules: 'r', again: false } };
    const how = {
      seen: { view: 'short', page: 0 },
      everybody: true,
      share: true,
      shots: new Map(),
      names: new Map(),
    } as const;
    const messages = [
      ...render(reply, { ...how, look: { command: 'convert', setup: '#ABCDEFGH' } }),
      ...render(reply, { ...how, look: null }),
    ];
    expect(kindsIn(messages)).toEqual(
      new Set(['plain_text', 'text', 'rich_text', 'rich_text_section', 'context', 'actions', 'button']),
    );
    for (const { text } of messages) expect(text).not.toMatch(/[<>]/);
  });
});

/** Every `type` that occurs in messages. */
function kindsIn(messages: readonly Message[]): ReadonlySet<string> {
  return new Set([...JSON.stringify(messages).matchAll(/"type":"(\w+)"/g)].map((match) => match[1] ?? ''));
}

describe('labels', () => {
  it('say with an ellipsis that they go on, and part no character', () => {
    expect(label('x'.repeat(76), 75).text).toBe(`${'x'.repeat(74)}…`);
    expect(label(`${'x'.repeat(73)}\u{1f6b2}\u{1f6b2}`, 75).text).toBe(`${'x'.repeat(73)}…`);
  });
});

describe('what comes in', () => {
  it('is read as it was typed', () => {
    expect(asTyped('a &lt; b &amp;lt; &amp;')).toBe('a < b &lt; &');
    expect(asTyped('<@U1|ann> <!subteam^S1|@mods> <#C1|shop>')).toBe('<@U1> <!subteam^S1> #shop');
    expect(asTyped('<http://a.example|a.example> <https://b.example> <mailto:x@y.example|x@y.example>')).toBe(
      'a.example https://b.example x@y.example',
    );
  });
});

describe('a blank line', () => {
  it('is kept, and text of nothing else makes no block', () => {
    const block = { kind: 'text', section: 'kept', lines: ['first', '', 'third'] } as const;
    const card: Card = { answer: '', readBack: '', lines: [], blocks: [block] };
    const [piece] = piecesOf(card, [block], false, true);
    if (piece?.kind !== 'lines') throw new Error('no lines');
    expect(
      richText(piece.lines, new Map())
        .elements[0].elements.map(({ text }) => text)
        .join(''),
    ).toBe('first\n\nthird');
  });
});
