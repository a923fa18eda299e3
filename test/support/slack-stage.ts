import { randomBytes } from 'node:crypto';
import { printJobSheet } from '../../adapters/print/job-sheet.ts';
import { openHandler } from '../../adapters/slack/handle.ts';
import { openPeople } from '../../adapters/slack/people.ts';
import type { Handled, Web } from '../../adapters/slack/ports.ts';
import { openShooter, type Way } from '../../adapters/slack/shots.ts';
import type { Button, Message, Modal, StaticSelect } from '../../adapters/slack/wire.ts';
import { type Desk, openDesk } from '../../src/desk.ts';
import type { Log } from '../../src/log.ts';
import type { Records } from '../../src/records/records.ts';
import type { Printable } from '../../src/request.ts';
import { type By, type Container, type Json, mention, press, shortcut, slash, submission } from './slack-payloads.ts';
import { type Arrived, openPlatform } from './slack-platform.ts';
import { neverRings, ringsAtOnce } from './timers.ts';

/** Noon on 25 November 2026, in universal time. */
export const NOON_MS = Date.UTC(2026, 10, 25, 12);

export type LogLine = { readonly level: string; readonly data: object; readonly text: string };

/** What a payload led to: its first answer, and what arrived because of it. */
export type Scene = {
  readonly ack: Handled['ack'];
  readonly arrived: readonly Arrived[];
  readonly windows: readonly Modal[];
};

/**
 * The adapter in front of Slack in memory, without any transport: people use it by their ids. `listening` may stand at
 * the desk and hear what is said there.
 */
export function openStage(
  records: Records,
  way: Way = { kind: 'none' },
  listening: (desk: Desk) => Desk = (desk) => desk,
) {
  const platform = openPlatform();
  const lines: LogLine[] = [];
  const printed: Printable[] = [];
  const line = (level: string) => (data: object, text: string) => void lines.push({ level, data, text });
  const log: Log = { debug: line('debug'), info: line('info'), warn: line('warn'), error: line('error') };
  let now = NOON_MS;
  let slow = false;
  let silent = false;
  const nowMs = () => now;
  const ports = {
    desk: listening(openDesk({ records, nowMs, randomBytes })),
    records,
    people: openPeople(nowMs, (ms, ring) => (silent ? ringsAtOnce : neverRings)(ms, ring)),
    shots: openShooter(way, nowMs, () => Promise.resolve()),
    printPage: (page: Printable) => {
      printed.push(page);
      return printJobSheet(page.sheet, page.paper, nowMs());
    },
    log,
    nowMs,
    timer: (ms: number, ring: () => void) => (slow ? ringsAtOnce : neverRings)(ms, ring),
    logId: () => 'abcd1234',
  };
  const gone: string[] = [];
  const handle = openHandler(ports, (team) => Promise.resolve(void gone.push(team)));
  const web: Web = {
    call: (method, args) => Promise.resolve(platform.call(method, { ...args })),
    respond: (url, message) => Promise.resolve(platform.respond(url, message as unknown as Json)),
    send: (url, bytes) => Promise.resolve(platform.upload(url.slice('/upload/'.length), bytes)),
  };

  /** Every payload comes a minute after the one before, so that nobody is too fast by accident. */
  const take = async (payload: unknown, by: Web | null = web): Promise<Scene> => {
    now += 60_000;
    const before = { arrived: platform.arrived.length, opened: platform.opened.length };
    const { ack, later } = await handle(payload, by);
    if (ack !== undefined && 'blocks' in ack) platform.noteMessage(ack);
    if (ack !== undefined && 'view' in ack) platform.noteView(ack.view);
    await later?.();
    return {
      ack,
      arrived: platform.arrived.slice(before.arrived),
      windows: platform.opened.slice(before.opened).map(({ view }) => view),
    };
  };

  return {
    platform,
    lines,
    printed,
    gone,
    ports,
    take,
    handle: (payload: unknown) => handle(payload, web),
    pass: (ms: number) => {
      now += ms;
    },
    beSlow: (is: boolean) => {
      slow = is;
    },
    /** What is asked about people comes too late. */
    beSilent: (is: boolean) => {
      silent = is;
    },
    slash: (user: string, text: string) => take(slash({ user }, text, platform.newAddress())),
    mention: (user: string, text: string, thread?: string) => take(mention({ user }, text, thread)),
    /** Presses a button or picks from a list on a message that one person, or everybody, sees. */
    press: (
      user: string,
      element: Button | StaticSelect,
      on: Partial<Extract<Container, { kind: 'message' }>> = {},
      value = '',
    ) =>
      take(
        press({ user }, actionOf(element, value), {
          kind: 'message',
          ts: '1.1',
          mine: true,
          url: platform.newAddress(),
          ...on,
        }),
      ),
    pressIn: (user: string, element: Button | StaticSelect, kind: 'home' | 'modal', id = 'V0') =>
      take(press({ user }, actionOf(element, ''), { kind, id })),
    shortcut: (user: string, name: string, message: Json, by: Partial<By> = {}) =>
      take(shortcut({ user, ...by }, name, message, platform.newAddress())),
    submit: (user: string, view: Modal, told: Readonly<Record<string, string>>) =>
      take(submission({ user }, { id: 'V9', ...view, blocks: view.blocks as unknown as Json[] }, told)),
  };
}

export type Stage = ReturnType<typeof openStage>;

function actionOf(element: Button | StaticSelect, value: string): Json {
  return element.type === 'button'
    ? { type: 'button', action_id: element.action_id, value: element.value, text: element.text }
    : { type: 'static_select', action_id: element.action_id, selected_option: { value } };
}

/** The message in a first answer, or the test ends here saying what came instead. */
export function shownAt({ ack, arrived }: Scene): Message {
  if (ack !== undefined && 'blocks' in ack) return ack;
  const [first] = arrived;
  if (first === undefined) throw new Error(`no message: ${JSON.stringify(ack)}`);
  return first.message;
}

/** The window that was opened. */
export function windowOf({ windows, ack }: Scene): Modal {
  const [first] = windows;
  if (first !== undefined) return first;
  if (ack !== undefined && 'view' in ack) return ack.view;
  throw new Error(`no window: ${JSON.stringify(ack)}`);
}

/** Every button and list of a message or a window. */
export function elementsOf({ blocks }: Pick<Message, 'blocks'>): readonly (Button | StaticSelect)[] {
  return blocks.flatMap((block) => (block.type === 'actions' ? block.elements : []));
}

/** The button of that name. */
export function buttonOf(where: Pick<Message, 'blocks'>, name: string): Button {
  const found = elementsOf(where).find((each) => each.type === 'button' && each.text.text === name);
  if (found?.type !== 'button') throw new Error(`no button ${name} among ${namesOf(where).join(', ')}`);
  return found;
}

export function selectOf(where: Pick<Message, 'blocks'>, placeholder: string): StaticSelect {
  const found = elementsOf(where).find(
    (each) => each.type === 'static_select' && each.placeholder.text === placeholder,
  );
  if (found?.type !== 'static_select') throw new Error(`no list ${placeholder} among ${namesOf(where).join(', ')}`);
  return found;
}

export function namesOf(where: Pick<Message, 'blocks'>): readonly string[] {
  return elementsOf(where).map((each) => (each.type === 'button' ? each.text.text : each.placeholder.text));
}

/** What a person reads in a message or a window: no markup, and the words of lists and buttons too. */
export function readable({ blocks }: Pick<Message, 'blocks'>): string {
  return blocks.map(blockWords).join('\n');
}

function blockWords(block: Message['blocks'][number]): string {
  switch (block.type) {
    case 'rich_text':
      return block.elements.flatMap(({ elements }) => elements.map(({ text }) => text)).join('');
    case 'context':
      return block.elements.map(({ text }) => text).join('\n');
    case 'divider':
      return '';
    case 'image':
      return `${block.title?.text ?? ''}\n${block.alt_text}`;
    case 'actions':
      return block.elements.flatMap(elementWords).join('\n');
    case 'input':
      return [block.label.text, block.hint?.text ?? ''].join('\n');
  }
}

function elementWords(element: Button | StaticSelect): readonly string[] {
  if (element.type === 'button') return [element.text.text];
  const options = element.options.flatMap(({ text, description }) => [text.text, description?.text ?? '']);
  return [element.placeholder.text, ...options];
}
