import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { render } from '../../adapters/discord/render.ts';
import { pagesOf } from '../../adapters/discord/text.ts';
import type { Reply } from '../../src/request.ts';
import { SAMPLE_CARD } from '../support/sample-card.ts';

const squeezed = (text: string) => text.replace(/\s/g, '');

describe('pages', () => {
  it('hold every letter in order, each within its room, whatever the paragraphs are', () => {
    const paragraph = fc.string({
      unit: fc.constantFrom('a', 'b ', '\n', '\\*', '🚲', 'word '),
      minLength: 1,
      maxLength: 120,
    });
    fc.assert(
      fc.property(fc.array(paragraph, { maxLength: 12 }), fc.integer({ min: 8, max: 60 }), (texts, most) => {
        const pages = pagesOf(texts, most);
        for (const page of pages) expect(page.length).toBeLessThanOrEqual(most);
        expect(squeezed(pages.join(''))).toBe(squeezed(texts.join('')));
        // Never between a backslash and what it makes harmless, nor inside a character.
        for (const page of pages) expect(page).not.toMatch(/(?<!\\)(?:\\\\)*\\$|[\ud800-\udbff]$/);
      }),
      { numRuns: 300 },
    );
  });

  it('never part a caution that fits on one', () => {
    const cautions = Array.from({ length: 9 }, (_, index) => `**STOP:** do not ride ${index}`);
    const pages = pagesOf(cautions, 60);
    expect(pages.length).toBeGreaterThan(3);
    for (const caution of cautions) expect(pages.some((page) => page.includes(caution))).toBe(true);
  });
});

describe('a card far over every limit', () => {
  const many = Array.from({ length: 300 }, (_, index) => `Stop ${index}: ${'do not ride this. '.repeat(4)}`.trim());
  const reply: Reply = {
    kind: 'answered',
    command: 'convert',
    read: {},
    assumed: [],
    asks: [],
    unread: [],
    answer: {},
    card: {
      ...SAMPLE_CARD,
      blocks: [
        ...SAMPLE_CARD.blocks,
        ...many.map((text) => ({ kind: 'caution', section: 'chain', level: 'stop', text }) as const),
      ],
    },
    receipt: { code: 'ABCDEFGH', rules: 'x', again: false },
  };
  const look = { command: 'convert', setup: '#ABCDEFGH' };
  const shownAt = (page: number) =>
    render(reply, { seen: { view: 'short', page }, look, everybody: false, drawn: [] })[0]?.body;

  it('keeps every caution, page by page, with a button to the next', () => {
    const first = shownAt(0);
    const pages = Number(/page 1 of (\d+)/.exec(first?.embeds[0]?.footer?.text ?? '')?.[1]);
    expect(pages).toBeGreaterThan(4);
    const text = Array.from({ length: pages }, (_, page) => shownAt(page)?.embeds[0]?.description).join('\n');
    for (const caution of many) expect(text).toContain(caution);
    expect(JSON.stringify(first?.components)).toContain('Next page');
    expect(JSON.stringify(shownAt(pages - 1)?.components)).not.toContain('Next page');
    // A page that is no more shows the last one.
    expect(shownAt(999)?.embeds[0]?.description).toBe(shownAt(pages - 1)?.embeds[0]?.description);
  });

  it('goes out whole where no button can bring the rest', () => {
    const posts = render(reply, { seen: { view: 'short', page: 0 }, look: null, everybody: false, drawn: [] });
    const text = posts.flatMap(({ body }) => body.embeds.map(({ description }) => description)).join('\n');
    for (const caution of many) expect(text).toContain(caution);
    expect(posts.length).toBeGreaterThan(4);
  });
});
