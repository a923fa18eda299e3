import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { escaped, label, peopleIn, plain } from '../../adapters/discord/escape.ts';

/** What the platform would show of escaped text: a backslash goes, and what follows it is only itself. */
function asShown(text: string): string {
  return text.replace(/\\([^0-9A-Za-z\s])/g, '$1');
}

describe('a person’s words', () => {
  it.each([
    ['@everyone and @here', /(?<!\\)@/],
    ['<@123> <@!123> <@&123> <#123> <:a:1> <t:1> </x:1>', /(?<!\\)</],
    ['**bold** __under__ *it* _it_ ~~no~~ ||hidden||', /(?<!\\)[*_~|]/],
    ['`code` ```block```', /(?<!\\)`/],
    ['[go](javascript:1) <https://x.example>', /(?<!\\)[[<]/],
    ['https://x.example/y', /:\/\//],
    ['discord.gg/abc', /\.gg\//],
  ])('%s are shown and do nothing', (text, markup) => {
    expect(escaped(text)).not.toMatch(markup);
    expect(asShown(escaped(text))).toBe(text);
  });

  it.each(['# head', '### head', '-# small', '- item', '> quoted', '>>> quoted', '1. first', '22) second', '+ plus'])(
    '%s begins no heading, list or quotation',
    (text) => {
      expect(escaped(text)).not.toBe(text);
      expect(asShown(escaped(text))).toBe(text);
    },
  );

  it('keep what is a number and only looks like a list', () => {
    for (const text of ['36/22', '-32', '11-36', '0.89 to 2.91', '12–14 N·m (106–124 lbf·in)', '+2 (this)']) {
      expect(escaped(text)).toBe(text);
    }
  });

  it('lose no letter and keep no order of their own, whatever they are', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 60 }), (text) => {
        const safe = escaped(text);
        expect(safe).not.toMatch(/[\u202a-\u202e\u200b-\u200d\p{Cc}]/u);
        expect(asShown(safe)).toBe(plain(text));
        expect(safe).not.toMatch(/(?<!\\)(?:\\\\)*[*_~`|[<@]/);
      }),
      { numRuns: 500 },
    );
  });

  it('in a script from right to left stay on their side', () => {
    expect(escaped('a שלום b')).toBe('a \u2068שלום\u2069 b');
  });
});

describe('names of people', () => {
  it('that the records hold are shown as such, and the same typed by somebody are not', () => {
    const known = peopleIn({ rows: [{ ticks: [{ by: '<@5>' }] }], settings: { pinRoles: ['<@&6>'] }, name: '<@7>' });
    expect([...known]).toEqual(['<@5>', '<@&6>']);
    expect(escaped('by <@5>, not <@7> or <@&6>x', known)).toBe('by <@5>, not \\<\\@7\\> or <@&6>x');
  });

  it('are none where the field holds more than a name', () => {
    expect(peopleIn({ by: 'see <@5>' }).size).toBe(0);
    expect(peopleIn({ author: { kind: 'person', person: '<@5>' } }).has('<@5>')).toBe(true);
  });
});

describe('a label', () => {
  it('says with an ellipsis that it goes on, and parts no character', () => {
    expect(label('short', 5)).toBe('short');
    expect(label('shorter', 5)).toBe('shor…');
    expect(label('abc🚲🚲', 5)).toBe('abc…');
  });
});
