import { z } from 'zod';
import type { Visitor } from '../../src/commands/kept.ts';
import { readPerson, readPlace } from '../../src/records/place.ts';
import { COMMAND, CONTEXT, EPHEMERAL, INTERACTION, PERMISSION } from './wire.ts';

const Snowflake = z.string().regex(/^\d{1,20}$/);
const User = z.object({ id: Snowflake });
const Member = z.object({ user: User, roles: z.array(Snowflake).default([]), permissions: z.string().default('0') });

/** A value as it was picked or typed; while somebody types, a number may still be any text. */
const OptionValue = z.union([z.string(), z.number(), z.boolean()]);

type Option = {
  readonly name: string;
  readonly value?: z.infer<typeof OptionValue> | undefined;
  readonly focused?: boolean | undefined;
  readonly options?: readonly Option[] | undefined;
};
const Option: z.ZodType<Option> = z.lazy(() =>
  z.object({
    name: z.string(),
    value: OptionValue.optional(),
    focused: z.boolean().optional(),
    options: z.array(Option).optional(),
  }),
);

const TargetMessage = z.object({
  id: Snowflake,
  content: z.string().default(''),
  author: User,
  embeds: z.array(z.object({ footer: z.object({ text: z.string() }).optional() })).default([]),
});

const CommandData = z.object({
  name: z.string(),
  type: z.number().default(COMMAND.slash),
  options: z.array(Option).default([]),
  target_id: Snowflake.optional(),
  resolved: z.object({ messages: z.record(z.string(), TargetMessage).optional() }).optional(),
});

const PressData = z.object({ custom_id: z.string(), values: z.array(z.string()).default([]) });

const Input = z.object({
  custom_id: z.string(),
  value: z.string().optional(),
  values: z.array(z.string()).optional(),
});
/** Fields stand in labels now, and stood in rows once; both still come in. */
const SubmitData = z.object({
  custom_id: z.string(),
  components: z.array(z.object({ component: Input.optional(), components: z.array(Input).optional() })),
});

const Common = z.object({
  id: Snowflake,
  application_id: Snowflake,
  token: z.string(),
  guild_id: Snowflake.optional(),
  channel_id: Snowflake.optional(),
  context: z.number().optional(),
  member: Member.optional(),
  user: User.optional(),
  app_permissions: z.string().regex(/^\d+$/).default('0'),
  attachment_size_limit: z.number().default(10 * 1024 * 1024),
  message: z.object({ id: Snowflake, flags: z.number().default(0) }).optional(),
});

/** An interaction, as far as it is looked at here. */
const Interaction = z.discriminatedUnion('type', [
  z.object({ type: z.literal(INTERACTION.ping) }),
  Common.extend({ type: z.literal(INTERACTION.command), data: CommandData }),
  Common.extend({ type: z.literal(INTERACTION.autocomplete), data: CommandData }),
  Common.extend({ type: z.literal(INTERACTION.component), data: PressData }),
  Common.extend({ type: z.literal(INTERACTION.modal), data: SubmitData }),
]);

/** Where and by whom, the same for every kind. */
export type Scene = {
  readonly id: string;
  readonly application: string;
  readonly token: string;
  /** Null where the platform does not say where this is: then nothing can be kept. */
  readonly visitor: Visitor | null;
  readonly server: string | null;
  readonly channel: string | null;
  readonly mayPinMessages: boolean;
  /** What the program itself may do in this channel. */
  readonly botMay: bigint;
  readonly attachmentBytes: number;
  /** The message a button or a modal belongs to, and whether only one person sees it. */
  readonly message: { readonly id: string; readonly mine: boolean } | null;
};

/** A message somebody used a command on. */
export type Target = {
  readonly id: string;
  readonly content: string;
  readonly author: string;
  /** The code under one of our own answers. */
  readonly code: string | null;
};

export type Told = Readonly<Record<string, string>>;

export type Incoming =
  | { readonly kind: 'ping' }
  | { readonly kind: 'unknown'; readonly type: number | null }
  | ({ readonly scene: Scene } & (
      | { readonly kind: 'command'; readonly command: string; readonly action: string | null; readonly told: Told }
      | { readonly kind: 'message-command'; readonly name: string; readonly target: Target }
      | {
          readonly kind: 'typing';
          readonly command: string;
          readonly action: string | null;
          readonly option: string;
          readonly typed: string;
        }
      | { readonly kind: 'press'; readonly customId: string; readonly values: readonly string[] }
      | { readonly kind: 'submit'; readonly customId: string; readonly fields: Told }
    ));

/** Reads an interaction as it came over the gateway or in the body of a request: both are the same JSON. */
export function readIncoming(payload: unknown): Incoming {
  const read = Interaction.safeParse(payload);
  if (!read.success) {
    const type = z.object({ type: z.number() }).safeParse(payload);
    return { kind: 'unknown', type: type.data?.type ?? null };
  }
  const interaction = read.data;
  if (interaction.type === INTERACTION.ping) return { kind: 'ping' };
  const scene = sceneOf(interaction);
  switch (interaction.type) {
    case INTERACTION.command:
      return commandOf(interaction.data, scene);
    case INTERACTION.autocomplete: {
      const { command, action, options } = leaf(interaction.data);
      const focused = options.find((each) => each.focused);
      if (focused === undefined) return { kind: 'unknown', type: interaction.type };
      return { kind: 'typing', scene, command, action, option: focused.name, typed: text(focused.value) };
    }
    case INTERACTION.component:
      return { kind: 'press', scene, customId: interaction.data.custom_id, values: interaction.data.values };
    case INTERACTION.modal: {
      const inputs = interaction.data.components.flatMap(({ component, components = [] }) =>
        component === undefined ? components : [component],
      );
      const told = inputs.map((each) => [each.custom_id, each.value ?? each.values?.[0] ?? ''] as const);
      const fields = Object.fromEntries(told.filter(([, value]) => value.trim() !== ''));
      return { kind: 'submit', scene, customId: interaction.data.custom_id, fields };
    }
  }
}

function commandOf(data: z.infer<typeof CommandData>, scene: Scene): Incoming {
  if (data.type !== COMMAND.slash) {
    const target = data.resolved?.messages?.[data.target_id ?? ''];
    if (target === undefined) return { kind: 'unknown', type: INTERACTION.command };
    const ours = target.author.id === scene.application;
    const codes = target.embeds.map((embed) => /#([0-9A-Z]{8})\b/.exec(embed.footer?.text ?? '')?.[1]);
    const code = ours ? (codes.find((each) => each !== undefined) ?? null) : null;
    const { id, content, author } = target;
    return { kind: 'message-command', scene, name: data.name, target: { id, content, author: author.id, code } };
  }
  const { command, action, options } = leaf(data);
  const told = Object.fromEntries(options.map(({ name, value }) => [name, mentions(text(value))]));
  return { kind: 'command', scene, command, action, told };
}

/** The options of a command, or of the one subcommand that was called. */
function leaf({ name, options }: z.infer<typeof CommandData>) {
  const [first] = options;
  if (first?.value === undefined && first?.options !== undefined) {
    return { command: name, action: first.name, options: first.options };
  }
  // A subcommand without fields comes without options as well.
  return first !== undefined && first.value === undefined
    ? { command: name, action: first.name, options: [] }
    : { command: name, action: null, options };
}

function text(value: Option['value']): string {
  if (value === undefined) return '';
  return typeof value === 'boolean' ? (value ? 'yes' : 'no') : String(value);
}

/** A person by nickname is the same person. */
function mentions(typed: string): string {
  return typed.replace(/<@!(\d{1,20})>/g, '<@$1>');
}

/** The name of a person or a role in the records: as the platform writes them, so that they are shown by name. */
function named(kind: '@' | '@&', id: string): string {
  return `<${kind}${id}>`;
}

function sceneOf(interaction: z.infer<typeof Common>): Scene {
  const { guild_id, channel_id, context, member, user, message, app_permissions } = interaction;
  const place = readPlace(guild_id === undefined ? `discord:channel:${channel_id}` : `discord:server:${guild_id}`);
  const person = readPerson(named('@', member?.user.id ?? user?.id ?? ''));
  const may = /^\d+$/.test(member?.permissions ?? '') ? BigInt(member?.permissions ?? '0') : 0n;
  const administers = (may & PERMISSION.administrator) !== 0n;
  const known = (member ?? user) !== undefined && (guild_id ?? channel_id) !== undefined;
  return {
    id: interaction.id,
    application: interaction.application_id,
    token: interaction.token,
    visitor:
      place === null || person === null || !known
        ? null
        : {
            who: { place, person },
            roles: (member?.roles ?? []).map((role) => named('@&', role)),
            // Alone with the program, everybody runs the place.
            runsPlace: administers || (may & PERMISSION.manageServer) !== 0n || context === CONTEXT.withBot,
          },
    server: guild_id ?? null,
    channel: channel_id ?? null,
    mayPinMessages: administers || (may & PERMISSION.pinMessages) !== 0n,
    botMay: BigInt(app_permissions),
    attachmentBytes: interaction.attachment_size_limit,
    message: message === undefined ? null : { id: message.id, mine: (message.flags & EPHEMERAL) !== 0 },
  };
}
