/** Interactions as the platform sends them, complete as its documentation shows them; ids are made up. */

const APPLICATION = '900000000000000001';
const EPOCH_MS = 1_420_070_400_000n;

export type Person = {
  readonly id: string;
  readonly roles?: readonly string[];
  /** Permission bits in this channel, as a number in text. */
  readonly permissions?: string;
};

export type At = {
  readonly server?: string | null;
  readonly channel?: string;
  readonly botMay?: bigint;
  readonly atMs?: number;
};

export const ANN: Person = { id: '500000000000000001' };
export const BOB: Person = { id: '500000000000000002' };
export const CEM: Person = { id: '500000000000000003' };
/** May manage the server. */
export const BOSS: Person = { id: '500000000000000009', permissions: '32' };

export type Payload = Readonly<Record<string, unknown>> & {
  readonly id: string;
  readonly token: string;
  readonly application_id: string;
};

let count = 0n;

function snowflake(atMs: number): string {
  count += 1n;
  return String(((BigInt(Math.round(atMs)) - EPOCH_MS) << 22n) + (count & 0x3fffffn));
}

function base(type: number, who: Person, at: At): Payload {
  const { server = '100000000000000001', channel = '200000000000000001', botMay = 0n, atMs = Date.now() } = at;
  const id = snowflake(atMs);
  const user = { id: who.id, username: 'rider', discriminator: '0', avatar: null, global_name: null, public_flags: 0 };
  const member = {
    user,
    roles: [...(who.roles ?? [])],
    permissions: who.permissions ?? '0',
    joined_at: '2026-01-01T00:00:00.000000+00:00',
    avatar: null,
    nick: null,
    deaf: false,
    mute: false,
    pending: false,
    flags: 0,
    premium_since: null,
    communication_disabled_until: null,
  };
  return {
    id,
    type,
    version: 1,
    application_id: APPLICATION,
    token: `token-${id}`,
    channel_id: channel,
    channel: { id: channel, type: server === null ? 1 : 0 },
    context: server === null ? 1 : 0,
    locale: 'en-GB',
    app_permissions: String(botMay),
    attachment_size_limit: 10 * 1024 * 1024,
    entitlements: [],
    authorizing_integration_owners: { '0': server ?? '0' },
    ...(server === null
      ? { user }
      : { guild_id: server, guild: { id: server, locale: 'en-GB', features: [] }, guild_locale: 'en-GB', member }),
  };
}

type Value = string | number | boolean;

function options(told: Readonly<Record<string, Value>>) {
  const types = { string: 3, number: 10, boolean: 5 } as const;
  return Object.entries(told).map(([name, value]) => ({
    name,
    type: types[typeof value as keyof typeof types],
    value,
  }));
}

/** A slash command; with an action, one of its subcommands. */
export function slash(
  who: Person,
  command: string,
  told: Readonly<Record<string, Value>> = {},
  action?: string,
  at: At = {},
): Payload {
  const leaf = options(told);
  const data = {
    id: '800000000000000001',
    name: command,
    type: 1,
    options: action === undefined ? leaf : [{ name: action, type: 1, options: leaf }],
  };
  return { ...base(2, who, at), data };
}

/** Somebody typing into an option. */
export function typing(
  who: Person,
  command: string,
  option: string,
  value: Value,
  action?: string,
  at: At = {},
): Payload {
  const leaf = [{ name: option, type: 3, value, focused: true }];
  const data = {
    id: '800000000000000001',
    name: command,
    type: 1,
    options: action === undefined ? leaf : [{ name: action, type: 1, options: leaf }],
  };
  return { ...base(4, who, at), data };
}

/** A command used on a message. */
export function onMessage(
  who: Person,
  name: string,
  message: { readonly id?: string; readonly content: string; readonly author: string; readonly footer?: string },
  at: At = {},
): Payload {
  const { id = '700000000000000077', content, author, footer } = message;
  const embeds = footer === undefined ? [] : [{ type: 'rich', description: '…', footer: { text: footer } }];
  const target = {
    id,
    channel_id: '200000000000000001',
    type: 0,
    content,
    author: { id: author, username: 'somebody', discriminator: '0', avatar: null, global_name: null },
    timestamp: '2026-11-25T12:00:00.000000+00:00',
    edited_timestamp: null,
    flags: 0,
    pinned: false,
    tts: false,
    mention_everyone: false,
    mentions: [],
    mention_roles: [],
    attachments: [],
    embeds,
    components: [],
  };
  const data = { id: '800000000000000002', name, type: 3, target_id: id, resolved: { messages: { [id]: target } } };
  return { ...base(2, who, at), data };
}

/** The message a button or a modal belongs to. */
export type On = { readonly id?: string; readonly mine: boolean };

function message({ id = '700000000000000001', mine }: On) {
  return {
    id,
    channel_id: '200000000000000001',
    type: 20,
    content: '',
    author: { id: APPLICATION, username: 'Ringwright', discriminator: '0000', avatar: null, global_name: null },
    timestamp: '2026-11-25T12:00:00.000000+00:00',
    edited_timestamp: null,
    flags: mine ? 64 : 0,
    pinned: false,
    tts: false,
    mention_everyone: false,
    mentions: [],
    mention_roles: [],
    attachments: [],
    embeds: [],
    components: [],
  };
}

/** A button pressed, or a choice made in a list. */
export function press(
  who: Person,
  customId: string,
  values: readonly string[] = [],
  on: On = { mine: true },
  at: At = {},
): Payload {
  const data =
    values.length === 0
      ? { custom_id: customId, component_type: 2 }
      : { custom_id: customId, component_type: 3, values };
  return { ...base(3, who, at), message: message(on), data };
}

/** A modal sent off. Lists give a list of values, inputs a text. */
export function submit(
  who: Person,
  customId: string,
  fields: Readonly<Record<string, string | readonly string[]>>,
  on?: On,
  at: At = {},
): Payload {
  const components = Object.entries(fields).map(([custom_id, told], index) => ({
    type: 18,
    id: index + 1,
    component: typeof told === 'string' ? { type: 4, custom_id, value: told } : { type: 3, custom_id, values: told },
  }));
  const from = on === undefined ? {} : { message: message(on) };
  return { ...base(5, who, at), ...from, data: { custom_id: customId, components } };
}

export const PING: Payload = { ...base(1, ANN, {}) };
export { APPLICATION };
