import { describe, expect, it } from 'vitest';
import { figuresOf, render } from '../../adapters/discord/render.ts';
import type { Message } from '../../adapters/discord/wire.ts';
import type { Seen } from '../../src/card/views.ts';
import { hasWhy, sectionsOf, type View } from '../../src/card/views.ts';
import { COMMANDS } from '../../src/commands/list.ts';
import type { Reply } from '../../src/request.ts';
import { ask } from '../../src/workbench.ts';
import { AWKWARD_LINES } from '../support/awkward-lines.ts';
import { callbackFaults } from '../support/discord-rules.ts';
import { factsOf } from '../support/sample-card.ts';

const CASES = COMMANDS.flatMap(({ name, examples }) =>
  [...examples, ...AWKWARD_LINES].map((setup) => [name, setup] as const),
);

/** The reply as it comes with a receipt from the desk. */
function replyTo(command: string, setup: string): Reply {
  const reply = ask({ command, setup });
  return reply.kind === 'refused' ? reply : { ...reply, receipt: { code: 'ABCDEFGH', rules: '2026-11', again: false } };
}

/** Every page of every view, as the buttons would bring them. */
function everyPage(reply: Reply): readonly { readonly seen: Seen; readonly body: Message }[] {
  const look = { command: reply.command, setup: reply.kind === 'refused' ? 'as typed' : '#ABCDEFGH' };
  const views: readonly View[] = ['short', ...sectionsOf(reply.card), ...(hasWhy(reply.card) ? ['why' as const] : [])];
  return views.flatMap((view) => {
    const found: { seen: Seen; body: Message }[] = [];
    for (let page = 0, pages = 1; page < pages; page += 1) {
      const seen = { view, page };
      const body = render(reply, { seen, look, everybody: page % 2 === 1, drawn: [] })[0]?.body;
      if (body === undefined) break;
      pages = Number(/page \d+ of (\d+)/.exec(body.embeds[0]?.footer?.text ?? '')?.[1] ?? 1);
      found.push({ seen, body });
    }
    return found;
  });
}

/** What a person reads: no markup, and the words of lists and buttons too. */
function readable({ content, embeds, components }: Message): string {
  const text = [content, ...embeds.flatMap(({ title = '', description }) => [title, description])].join('\n');
  const parts = components.flatMap((row) => row.components);
  const words = parts.flatMap((part) =>
    part.type === 2 ? [part.label, part.custom_id] : part.options.flatMap((each) => [each.label, each.value]),
  );
  const bare = text
    .replace(/(?<!\\)\*\*/g, '')
    .replace(/^-# /gm, '')
    .replace(/\\([^0-9A-Za-z\s])/g, '$1');
  return squeezed([bare, ...words].join('\n'));
}

const squeezed = (text: string) => text.replace(/[\u2068\u2069]/g, '').replace(/\s+/g, ' ');

describe('every command, with every line and every page', () => {
  it('has enough of them', () => {
    expect(CASES.length).toBeGreaterThan(140);
  });

  it.each(CASES)('%s %s', (command, setup) => {
    const reply = replyTo(command, setup);
    const pages = everyPage(reply);
    for (const { body } of pages) expect(callbackFaults({ type: 4, data: { ...body, flags: 64 } })).toEqual([]);
    const text = pages.map(({ body }) => readable(body)).join(' ');
    const wanted = factsOf({ ...reply.card, blocks: reply.card.blocks.filter(({ kind }) => kind !== 'actions') });
    for (const fact of wanted) expect(text).toContain(squeezed(fact.replace(/\u202e/g, '\ufffd')));
    for (const block of reply.card.blocks) {
      if (block.kind !== 'actions') continue;
      for (const action of block.actions) {
        expect(text).toContain(squeezed(action.label));
        expect(text).toContain(squeezed(action.setup));
      }
    }
    // A stop caution is on the first page, before anything else but what was read.
    const first = pages[0] && readable(pages[0].body);
    const stops = reply.card.blocks.filter((block) => block.kind === 'caution' && block.level === 'stop');
    for (const stop of stops) expect(first).toContain(squeezed(stop.kind === 'caution' ? stop.text : ''));
  });
});

describe('a picture', () => {
  it('takes the place of its words in the text, which then go along as its alternative text', () => {
    const reply = replyTo('convert', `${AWKWARD_LINES[0]} hub=142`);
    const seen: Seen = { view: 'gears', page: 0 };
    const figures = figuresOf(reply, seen);
    expect(figures.length).toBeGreaterThan(0);
    const drawn = figures.map((block) => ({ block, png: Uint8Array.of(1) }));
    const [post] = render(reply, { seen, look: { command: 'convert', setup: '#ABCDEFGH' }, everybody: false, drawn });
    expect(post?.files.length).toBe(figures.length);
    expect(post?.body.attachments.map(({ description }) => description)).toEqual(figures.map(({ alt }) => alt));
    for (const { alt } of figures) expect(post?.body.embeds[0]?.description).not.toContain(alt);
    const names = post?.files.map(({ name }) => name) ?? [];
    expect(callbackFaults({ type: 4, data: { ...post?.body, flags: 64 } }, names)).toEqual([]);
  });
});
