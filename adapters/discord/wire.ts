/**
 * Discord's own words, as far as they are used here: the numbers its reference gives to kinds, flags and permissions,
 * and the shapes that are sent. What comes in is read in `read.ts`.
 */

/** Interaction types ("Receiving and Responding", Interaction Type). */
export const INTERACTION = { ping: 1, command: 2, component: 3, autocomplete: 4, modal: 5 } as const;

/** Callback types ("Receiving and Responding", Interaction Callback Type). */
export const CALLBACK = {
  pong: 1,
  message: 4,
  deferMessage: 5,
  deferUpdate: 6,
  update: 7,
  choices: 8,
  modal: 9,
} as const;

/** Command types ("Application Commands", Application Command Types). */
export const COMMAND = { slash: 1, message: 3 } as const;

/** Option types ("Application Commands", Application Command Option Type). */
export const OPTION = { subcommand: 1, string: 3, integer: 4, boolean: 5, number: 10 } as const;

/** Component types ("Component Reference"). */
export const COMPONENT = { row: 1, button: 2, select: 3, textInput: 4, label: 18 } as const;

/** Button styles: 2 is quiet, 1 stands out. */
export const STYLE = { primary: 1, secondary: 2 } as const;

/** Text input styles. */
export const INPUT = { short: 1, paragraph: 2 } as const;

/** Where a command is offered ("Application Commands", Interaction Contexts). */
export const CONTEXT = { server: 0, withBot: 1, between: 2 } as const;

/** Who may add the program ("Application Commands", Application Integration Types). */
export const INSTALL = { server: 0, person: 1 } as const;

/** Seen by one person only ("Message Flags"). */
export const EPHEMERAL = 64;

/** Permission bits ("Permissions"). */
export const PERMISSION = {
  administrator: 1n << 3n,
  manageServer: 1n << 5n,
  sendMessages: 1n << 11n,
  manageMessages: 1n << 13n,
  sendInThreads: 1n << 38n,
  pinMessages: 1n << 51n,
} as const;

/** Error codes of the REST interface ("Opcodes and Status Codes", JSON Error Codes). */
export const FAULT = {
  missingAccess: 50001,
  missingPermissions: 50013,
  mostPins: 30003,
  unknownInteraction: 10062,
  unknownMessage: 10008,
  unknownWebhook: 10015,
  alreadyAcknowledged: 40060,
  invalidToken: 50027,
} as const;

export type Button = {
  readonly type: 2;
  readonly style: 1 | 2;
  readonly label: string;
  readonly custom_id: string;
  readonly disabled?: boolean;
};

export type SelectOption = {
  readonly label: string;
  readonly value: string;
  readonly description?: string;
  readonly default?: boolean;
};

export type Select = {
  readonly type: 3;
  readonly custom_id: string;
  readonly placeholder: string;
  readonly options: readonly SelectOption[];
  readonly min_values?: number;
  readonly required?: boolean;
};

export type Row = { readonly type: 1; readonly components: readonly (Button | Select)[] };

export type Embed = {
  readonly title?: string;
  readonly description: string;
  readonly color: number;
  readonly footer?: { readonly text: string };
};

export type Message = {
  readonly content: string;
  readonly embeds: readonly Embed[];
  readonly components: readonly Row[];
  readonly allowed_mentions: { readonly parse: readonly [] };
  readonly attachments: readonly { readonly id: string; readonly description: string }[];
};

/** A file sent beside a message; its place in the list is its id there. */
export type File = { readonly name: string; readonly data: Uint8Array; readonly type: 'image/png' | 'application/pdf' };

/** A message with the pictures and pages that go with it. */
export type Post = { readonly body: Message; readonly files: readonly File[] };

export type TextInput = {
  readonly type: 4;
  readonly custom_id: string;
  readonly style: 1 | 2;
  readonly required: boolean;
  readonly placeholder?: string;
  readonly value?: string;
  readonly max_length: number;
};

export type ModalField = {
  readonly type: 18;
  readonly label: string;
  readonly description?: string;
  readonly component: TextInput | Select;
};

export type Modal = { readonly custom_id: string; readonly title: string; readonly components: readonly ModalField[] };

export type Choice = { readonly name: string; readonly value: string | number };

/** What is answered first, within three seconds. */
export type Response =
  | { readonly type: 1 }
  | { readonly type: 4; readonly data: Message & { readonly flags: number }; readonly files: readonly File[] }
  | { readonly type: 5; readonly data: { readonly flags: number } }
  | { readonly type: 6 }
  | { readonly type: 7; readonly data: Message; readonly files: readonly File[] }
  | { readonly type: 8; readonly data: { readonly choices: readonly Choice[] } }
  | { readonly type: 9; readonly data: Modal };

export type CommandOption = {
  readonly type: 1 | 3 | 4 | 5 | 10;
  readonly name: string;
  readonly name_localizations: Readonly<Record<string, string>>;
  readonly description: string;
  readonly description_localizations: Readonly<Record<string, string>>;
  readonly required?: boolean;
  readonly choices?: readonly { readonly name: string; readonly value: string }[];
  readonly options?: readonly CommandOption[];
  readonly min_value?: number;
  readonly max_value?: number;
  readonly max_length?: number;
  readonly autocomplete?: boolean;
};

export type RegisteredCommand = {
  readonly type: 1 | 3;
  readonly name: string;
  readonly name_localizations: Readonly<Record<string, string>>;
  readonly description?: string;
  readonly description_localizations?: Readonly<Record<string, string>>;
  readonly options?: readonly CommandOption[];
  readonly default_member_permissions: string | null;
  readonly contexts: readonly number[];
  readonly integration_types: readonly number[];
};
