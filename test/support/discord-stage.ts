import { randomBytes } from 'node:crypto';
import { expect } from 'vitest';
import { openHandler } from '../../adapters/discord/handle.ts';
import type { Handled, Ports, Sender } from '../../adapters/discord/ports.ts';
import type { Post, Response } from '../../adapters/discord/wire.ts';
import type { NotPinned } from '../../adapters/discord/words.ts';
import { timer } from '../../adapters/program/machine.ts';
import { type OpenRecords, openRecords } from '../../adapters/storage/open.ts';
import { openDesk } from '../../src/desk.ts';
import type { Pictures } from '../../src/draw/pictures.ts';
import type { Log } from '../../src/log.ts';
import type { Payload } from './discord-payloads.ts';
import { callbackFaults, messageFaults } from './discord-rules.ts';
import { type Storage, sqlite } from './storages.ts';
import { ringsAtOnce } from './timers.ts';

export type Json = Readonly<Record<string, unknown>>;

/** Something sent for one interaction, in order. */
export type Sent = {
  readonly kind: 'first' | 'edit' | 'follow' | 'remove' | 'pin' | 'reply';
  readonly body: Json;
  readonly files: readonly { readonly name: string; readonly bytes: Uint8Array; readonly type?: string }[];
};

/** The little that a message has to say for itself: enough for tests to read it like a person. */
export type Shown = {
  readonly content: string;
  readonly text: string;
  /** Buttons by label, with their ids. */
  readonly buttons: ReadonlyMap<string, string>;
  readonly lists: readonly { readonly placeholder: string; readonly id: string; readonly values: readonly string[] }[];
  readonly private: boolean;
};

type Part = {
  readonly type: number;
  readonly label?: string;
  readonly custom_id: string;
  readonly placeholder?: string;
  readonly options?: readonly { readonly label: string; readonly value: string; readonly description?: string }[];
};
type MessageJson = {
  readonly content?: string;
  readonly flags?: number;
  readonly embeds?: readonly {
    readonly title?: string;
    readonly description: string;
    readonly footer?: { readonly text: string };
  }[];
  readonly components?: readonly { readonly components: readonly Part[] }[];
};

/** A message as it can be read and pressed. */
export function shown({ kind, body }: Sent): Shown {
  const message = (kind === 'first' ? (body.data ?? {}) : body) as MessageJson;
  const { content = '', embeds = [], components = [], flags = 0 } = message;
  const parts = components.flatMap((row) => row.components);
  const lists = parts.filter((part) => part.type === 3);
  return {
    content,
    text: [
      content,
      ...embeds.flatMap((embed) => [embed.title ?? '', embed.description, embed.footer?.text ?? '']),
      ...lists.flatMap((list) => (list.options ?? []).flatMap((each) => [each.label, each.description ?? ''])),
      ...parts.map((part) => part.label ?? ''),
    ].join('\n'),
    buttons: new Map(parts.filter((part) => part.type === 2).map((part) => [part.label ?? '', part.custom_id])),
    lists: lists.map(({ placeholder = '', custom_id, options = [] }) => ({
      placeholder,
      id: custom_id,
      values: options.map(({ value }) => value),
    })),
    private: (flags & 64) !== 0,
  };
}

/** The id of a button, or the test ends here. */
export function button(sent: Sent | undefined, label: string): string {
  const id = sent === undefined ? undefined : shown(sent).buttons.get(label);
  if (id === undefined)
    throw new Error(`no button ${label}: ${sent === undefined ? '' : [...shown(sent).buttons.keys()]}`);
  return id;
}

/** The id of a list by the beginning of its placeholder. */
export function list(
  sent: Sent | undefined,
  placeholder: string,
): { readonly id: string; readonly values: readonly string[] } {
  const found =
    sent === undefined ? undefined : shown(sent).lists.find((each) => each.placeholder.startsWith(placeholder));
  if (found === undefined) throw new Error(`no list ${placeholder}`);
  return found;
}

export type ModalField = {
  readonly type: number;
  readonly custom_id: string;
  readonly value?: string;
  readonly options?: readonly { readonly value: string }[];
};

/** The id and the fields of a modal, or the test ends here. */
export function modal(sent: Sent | undefined): { readonly id: string; readonly fields: readonly ModalField[] } {
  if (sent?.body.type !== 9) throw new Error(`no modal: ${JSON.stringify(sent?.body)}`);
  const data = sent.body.data as {
    readonly custom_id: string;
    readonly components: readonly { readonly component: ModalField }[];
  };
  return { id: data.custom_id, fields: data.components.map(({ component }) => component) };
}

export type LogLine = { readonly level: keyof Log; readonly data: object; readonly text: string };

export type Stage = {
  readonly ports: Ports;
  readonly records: OpenRecords;
  readonly lines: LogLine[];
  /** Another process over the same records: nothing but what is kept is shared. */
  readonly restarted: () => (payload: unknown) => Promise<Handled>;
  readonly handle: (payload: unknown) => Promise<Handled>;
  /** Asks without a network in between, and gives all that was sent. Every body is checked. */
  readonly say: (
    payload: Payload,
    how?: {
      readonly handle?: (payload: unknown) => Promise<Handled>;
      readonly pin?: NotPinned | null;
      readonly mayReply?: boolean;
    },
  ) => Promise<readonly Sent[]>;
  readonly end: () => Promise<void>;
};

export async function openStage(
  own: Partial<Pick<Ports, 'pictures' | 'printPage' | 'timer' | 'nowMs'>> & {
    readonly records?: (opened: OpenRecords) => OpenRecords;
  } = {},
): Promise<Stage> {
  const storage: Storage = await sqlite();
  const opened = await openRecords(await storage.fresh());
  const records = own.records?.(opened) ?? opened;
  const lines: LogLine[] = [];
  const log = (level: LogLine['level']) => (data: object, text: string) => void lines.push({ level, data, text });
  const logs: Log = { debug: log('debug'), info: log('info'), warn: log('warn'), error: log('error') };
  const nowMs = own.nowMs ?? (() => Date.now());
  const pictures: Pictures | null = own.pictures ?? null;
  const ports: Ports = {
    desk: openDesk({ records, nowMs, randomBytes: (bytes) => randomBytes(bytes) }),
    records,
    pictures,
    printPage: own.printPage ?? null,
    log: logs,
    nowMs,
    timer: own.timer ?? timer,
    logId: () => 'c0ffee00',
  };
  const handle = openHandler(ports);
  return {
    ports,
    records: opened,
    lines,
    handle,
    restarted: () => openHandler(ports),
    say: async (payload, how = {}) => {
      const { first, later } = await (how.handle ?? handle)(payload);
      if (first === null) return [];
      const sent: Sent[] = [ofResponse(first)];
      await later?.(collecting(sent, how.pin ?? null, how.mayReply ?? false));
      for (const each of sent) expect(faultsOf(each), JSON.stringify(each.body)).toEqual([]);
      return sent;
    },
    end: async () => {
      await opened.close();
      await storage.end();
    },
  };
}

/** A stage whose storage says nothing until it is let go, and on which nobody waits long before an answer is announced. */
export async function openHeldStage(): Promise<Stage & { readonly release: () => void }> {
  const held = Promise.withResolvers<void>();
  const stage = await openStage({
    timer: ringsAtOnce,
    records: (records) => ({
      ...records,
      settings: { ...records.settings, read: (place) => held.promise.then(() => records.settings.read(place)) },
    }),
  });
  return { ...stage, release: held.resolve };
}

function ofResponse(response: Response): Sent {
  const { files = [], ...body } = response as Response & { readonly files?: Post['files'] };
  return { kind: 'first', body, files: filesOf(files) };
}

function filesOf(files: Post['files']) {
  return files.map(({ name, data }) => ({ name, bytes: data }));
}

function collecting(sent: Sent[], pin: NotPinned | null, mayReply: boolean): Sender {
  let ids = 0;
  const add = (kind: Sent['kind'], { body, files }: Post, more: object = {}) => {
    ids += 1;
    sent.push({ kind, body: { ...body, ...more }, files: filesOf(files) });
    return Promise.resolve(`60000000000000000${ids}`);
  };
  const none: Post['files'] = [];
  return {
    edit: (post) => add('edit', post),
    follow: (post, everybody) => add('follow', post, { flags: everybody ? 0 : 64 }),
    remove: () => {
      sent.push({ kind: 'remove', body: {}, files: [] });
      return Promise.resolve();
    },
    pin: (channel, message) => {
      sent.push({ kind: 'pin', body: { channel, message }, files: filesOf(none) });
      return Promise.resolve(pin);
    },
    reply: async (channel, message, post) => {
      if (mayReply) await add('reply', post, { message_reference: { message_id: message }, channel });
      return mayReply;
    },
  };
}

/** What the platform would refuse of something sent. */
export function faultsOf({ kind, body, files }: Sent): readonly string[] {
  const names = files.map(({ name }) => name);
  switch (kind) {
    case 'first':
      return callbackFaults(body, names);
    case 'edit':
    case 'follow':
    case 'reply':
      return messageFaults(kind, body, names);
    case 'pin':
    case 'remove':
      return [];
  }
}
