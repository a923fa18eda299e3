import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { messageFaults } from '../../adapters/slack/limits.ts';
import { render } from '../../adapters/slack/render.ts';
import { SHORTCUTS } from '../../adapters/slack/standard-answers.ts';
import type { Message } from '../../adapters/slack/wire.ts';
import type { Seen } from '../../src/card/views.ts';
import { hasWhy, sectionsOf, type View } from '../../src/card/views.ts';
import { KEPT_COMMANDS } from '../../src/commands/kept-list.ts';
import { COMMANDS } from '../../src/commands/list.ts';
import type { Reply } from '../../src/request.ts';
import { ask } from '../../src/workbench.ts';
import { AWKWARD_LINES } from '../support/awkward-lines.ts';
import { factsOf } from '../support/sample-card.ts';
import { openHouse } from '../support/slack-house.ts';
import { stamp } from '../support/slack-payloads.ts';
import { blockSchema } from '../support/slack-schema.ts';
import { readable, windowOf } from '../support/slack-stage.ts';

const CASES = COMMANDS.flatMap(({ name, examples }) =>
  [...examples, ...AWKWARD_LINES].map((setup) => [name, setup] as const),
);

let schema: ReturnType<typeof blockSchema>;
beforeAll(() => {
  schema = blockSchema();
});

/** The reply as it comes with a receipt from the desk. */
function replyTo(command: string, setup: string): Reply {
  const reply = ask({ command, setup });
  return reply.kind === 'refused' ? reply : { ...reply, receipt: { code: 'ABCDEFGH', rules: '2026-11', again: false } };
}

/** Every page of every view, as the buttons would bring them. */
function everyPage(reply: Reply): readonly Message[] {
  const look = { command: reply.command, setup: reply.kind === 'refused' ? 'as typed' : '#ABCDEFGH' };
  const views: readonly View[] = ['short', ...sectionsOf(reply.card), ...(hasWhy(reply.card) ? ['why' as const] : [])];
  return views.flatMap((view) => {
    const found: Message[] = [];
    for (let page = 0, pages = 1; page < pages; page += 1) {
      const seen: Seen = { view, page };
      const everybody = page % 2 === 1;
      const how = { seen, look, everybody, share: true, shots: new Map(), names: new Map() };
      const [message] = render(reply, how);
      if (message === undefined) break;
      pages = Number(/page \d+ of (\d+)/.exec(readable(message))?.[1] ?? 1);
      found.push(message);
    }
    return found;
  });
}

/** Texts part where pages part, so blanks and line ends do not count; hidden characters are shown as what they are. */
function plain(text: string): string {
  return text.replaceAll('\u202e', '\ufffd').replaceAll(/\s+/g, '');
}

describe('the published types of the platform', () => {
  it('are read with their limits', () => {
    expect(schema.limits).toBeGreaterThan(40);
  });

  it.each([
    ['a long button', { type: 'actions', elements: [{ type: 'button', text: text('x'.repeat(76)), action_id: 'a' }] }],
    ['a long value', { type: 'actions', elements: [{ type: 'button', text: text('x'), value: 'x'.repeat(2001) }] }],
    ['a picture without words', { type: 'image', image_url: 'https://x.example/x.png' }],
    [
      'a picture of two places',
      { type: 'image', alt_text: 'x', image_url: 'https://x.example', slack_file: { id: 'F1' } },
    ],
    ['a property nobody knows', { type: 'divider', colour: 'red' }],
    ['too many in a row', { type: 'context', elements: Array.from({ length: 11 }, () => text('x')) }],
    ['text of no kind', { type: 'rich_text', elements: [{ type: 'rich_text_section', elements: [{ text: 'x' }] }] }],
  ])('refuse %s', (_, block) => {
    expect(schema.faultsOf([block])).not.toEqual([]);
  });

  function text(words: string) {
    return { type: 'plain_text', text: words, emoji: false };
  }
});

describe('every page of every command', () => {
  it.each(CASES)('%s "%s" is taken by the platform, and has every fact of the card', (command, setup) => {
    const reply = replyTo(command, setup);
    const pages = everyPage(reply);
    const faults = pages.flatMap((message) => [...messageFaults(message), ...schema.faultsOf(message.blocks)]);
    expect(faults).toEqual([]);
    const all = plain(pages.map(readable).join('\n'));
    const missing = factsOf(reply.card)
      // Buttons and lists carry what an action adds to the line; a person reads its label.
      .map((fact) => (/^(\S+(?: \S+)*) \((.+)\)$/.exec(fact) && isAction(reply, fact) ? labelOf(fact) : fact))
      .filter((fact) => !all.includes(plain(fact)));
    expect(missing).toEqual([]);
  });

  it('is one line as notification text, and has what to press', () => {
    for (const message of everyPage(replyTo('convert', AWKWARD_LINES[0] ?? ''))) {
      expect(message.text.length).toBeLessThanOrEqual(130);
      expect(message.text).not.toContain('\n');
    }
  });
});

function isAction({ card }: Reply, fact: string): boolean {
  const actions = card.blocks.flatMap((block) => (block.kind === 'actions' ? block.actions : []));
  return actions.some(({ label, setup }) => fact === `${setup} (${label})`);
}

function labelOf(fact: string): string {
  return fact.slice(fact.indexOf('(') + 1, -1);
}

describe('everything the adapter sends', () => {
  let house: Awaited<ReturnType<typeof openHouse>>;
  beforeAll(async () => {
    house = await openHouse();
  });
  afterAll(() => house.end());

  it('about what is kept is taken by the platform: messages, windows, the Home tab', async () => {
    const stage = await house.stage();
    const acks: Message[] = [];
    const lines = [
      'bike save winter 2x10 36/22 11-36 29er',
      'bike list',
      'bike show winter',
      'bike rename winter summer',
      'answer pin hills text="Take the 30." aliases=climbs',
      'answer edit hills text="Take the 28." why=hills',
      'answer history hills',
      'answer show hills',
      'answer find take',
      'answer list',
      'answer show nothing-of-this',
      'job open 2x10 36/22 11-36 104bcd cranktype=pinch',
      'job tick 1 1 value=8.5 wrench=A1',
      'job note 1 new chain advised, declined',
      'job log 1',
      'job print 1 paper=letter',
      'job list',
      'job close 1',
      'settings show',
      'settings change approvals=yes',
      'data show',
      'data delete',
      'data delete confirm=yes',
      'help settings',
      'nonsense',
      ...KEPT_COMMANDS.map(({ name }) => name),
      ...KEPT_COMMANDS.flatMap(({ name, actions }) => actions.map((action) => `${name} ${action.name}`)),
    ];
    for (const line of lines) {
      const { ack } = await stage.slash('UBOSS', line);
      if (ack !== undefined && 'blocks' in ack) acks.push(ack);
    }
    await stage.shortcut('UBOSS', SHORTCUTS.pin, { ts: stamp(), text: 'words' });
    await stage.shortcut('UANN', SHORTCUTS.reply, { ts: stamp(), text: 'words' });
    const home = { type: 'app_home_opened', user: 'UANN', tab: 'home' };
    await stage.take({ type: 'event_callback', team_id: 'T01TEAM', event_id: 'EvAll', event: home });
    for (const { name } of COMMANDS) windowOf(await stage.slash('UANN', name));
    const { platform } = stage;
    expect(acks.length + platform.arrived.length).toBeGreaterThan(30);
    expect(platform.opened.length).toBeGreaterThan(20);
    const messages = [...acks, ...platform.arrived.map(({ message }) => message)];
    expect(messages.flatMap(({ blocks }) => schema.faultsOf(blocks))).toEqual([]);
    const views = [...platform.opened.map(({ view }) => view), ...platform.homes.values()];
    expect(views.flatMap((view) => schema.viewFaultsOf(view))).toEqual([]);
    expect(platform.faults).toEqual([]);
  });
});
