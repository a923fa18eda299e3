import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { LIMITS, messageFaults } from '../../adapters/slack/limits.ts';
import { RenderError, render, sentence } from '../../adapters/slack/render.ts';
import type { Block, Card } from '../../src/card/card.ts';
import type { Reply } from '../../src/request.ts';
import { readable } from '../support/slack-stage.ts';

const HOW = { everybody: false, share: true, shots: new Map(), names: new Map() } as const;

function kept(blocks: readonly Block[], answer = 'Kept.'): Reply {
  const card: Card = { answer, readBack: '', lines: [], blocks };
  return { kind: 'kept', command: 'answer', action: 'show', public: true, result: {}, card };
}

/** Every page, as the buttons would bring them. */
function pages(reply: Reply): readonly string[] {
  const found: string[] = [];
  for (let page = 0, count = 1; page < count; page += 1) {
    const look = { command: 'answer', setup: 'show long' };
    const [message] = render(reply, { ...HOW, seen: { view: 'short', page }, look });
    if (message === undefined) throw new Error('no page');
    expect(messageFaults(message)).toEqual([]);
    const text = readable(message);
    count = Number(/page \d+ of (\d+)/.exec(text)?.[1] ?? 1);
    found.push(text);
  }
  return found;
}

function bare(text: string): string {
  return text.replaceAll(/\s+/g, '');
}

describe('a card longer than a message', () => {
  const lines = Array.from({ length: 400 }, (_, at) => `Line ${at} of a very long text about chains & bolts <${at}>`);

  it('is on pages, each with a way to the next, and no line is parted or lost', () => {
    const all = pages(kept([{ kind: 'text', section: 'kept', title: 'Long', lines }]));
    expect(all.length).toBeGreaterThan(2);
    expect(all[0]).toContain('Next page');
    expect(all.at(-1)).not.toContain('Next page');
    expect(all.at(-1)).toContain('Previous page');
    const text = all.join('\n').split('\n');
    for (const line of lines) expect(text).toContain(line);
  });

  it('keeps its cautions, whatever they take', () => {
    const cautions = Array.from({ length: 60 }, (_, at): Block => {
      return { kind: 'caution', section: 'chain', level: 'stop', text: `stop ${at} ${'and think '.repeat(30)}` };
    });
    const all = pages(kept(cautions)).join('\n');
    for (let at = 0; at < 60; at += 1) expect(all).toContain(`STOP: stop ${at} `);
  });

  it('goes out whole at once where no button could bring the rest', () => {
    const messages = render(kept([{ kind: 'text', section: 'kept', lines }]), {
      ...HOW,
      seen: { view: 'short', page: 0 },
      look: null,
    });
    expect(messages.length).toBeGreaterThan(2);
    expect(messages.flatMap(messageFaults)).toEqual([]);
    const text = messages.map(readable).join('\n').split('\n');
    for (const line of lines) expect(text).toContain(line);
  });

  it('is parted within a line only where the line is longer than a page', () => {
    const word = '\u{1f6b2}'.repeat(9000);
    const all = pages(kept([{ kind: 'text', section: 'kept', lines: [word] }]));
    expect(bare(all.join('')).split('\u{1f6b2}').length - 1).toBe(9000);
    expect(all.join('')).not.toMatch(/\ufffd/);
  });

  it.each([[['']], [['', '']], [['', 'x']]])('%j needs no empty text', (lines) => {
    const all = pages(kept([{ kind: 'text', section: 'kept', lines }]));
    expect(all.length).toBe(1);
  });

  it('is on pages that hold every letter, whatever it says', () => {
    fc.assert(
      fc.property(fc.array(fc.string({ unit: 'grapheme-ascii', maxLength: 3000 }), { maxLength: 12 }), (texts) => {
        const all = bare(pages(kept([{ kind: 'text', section: 'kept', lines: texts }])).join(''));
        for (const text of texts) expect(all.length).toBeGreaterThanOrEqual(bare(text).length);
      }),
      { numRuns: 30 },
    );
  });
});

describe('a message that cannot be taken', () => {
  it('is a mistake of ours, and says which', () => {
    expect(() => sentence('x'.repeat(LIMITS.blockBytes))).toThrow(RenderError);
    expect(() => sentence('')).toThrow(/empty/);
  });
});
