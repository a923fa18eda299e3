/** Slack's own words, as far as they are sent: Block Kit, messages and views. What comes in is in `payloads.ts`. */

export type PlainText = { readonly type: 'plain_text'; readonly text: string; readonly emoji: false };

export type RichTextText = {
  readonly type: 'text';
  readonly text: string;
  readonly style?: { readonly bold?: true; readonly italic?: true };
};

/** Text that is never read as markup, and so the only kind that carries what somebody typed. */
export type RichText = {
  readonly type: 'rich_text';
  readonly elements: readonly [{ readonly type: 'rich_text_section'; readonly elements: readonly RichTextText[] }];
};

export type Context = { readonly type: 'context'; readonly elements: readonly PlainText[] };

type Divider = { readonly type: 'divider' };

export type Image = {
  readonly type: 'image';
  readonly alt_text: string;
  readonly title?: PlainText;
} & ({ readonly image_url: string } | { readonly slack_file: { readonly id: string } });

export type Button = {
  readonly type: 'button';
  readonly text: PlainText;
  readonly action_id: string;
  readonly value: string;
  readonly style?: 'primary' | 'danger';
};

export type Option = { readonly text: PlainText; readonly value: string; readonly description?: PlainText };

export type StaticSelect = {
  readonly type: 'static_select';
  readonly action_id: string;
  readonly placeholder: PlainText;
  readonly options: readonly Option[];
  readonly initial_option?: Option;
};

export type ExternalSelect = {
  readonly type: 'external_select';
  readonly action_id: string;
  readonly placeholder: PlainText;
  readonly min_query_length: number;
  readonly initial_option?: Option;
};

export type TextInput = {
  readonly type: 'plain_text_input';
  readonly action_id: string;
  readonly multiline: boolean;
  readonly placeholder: PlainText;
  readonly initial_value?: string;
  readonly max_length: number;
};

export type Actions = { readonly type: 'actions'; readonly elements: readonly (Button | StaticSelect)[] };

export type Input = {
  readonly type: 'input';
  readonly block_id: string;
  readonly label: PlainText;
  readonly hint?: PlainText;
  readonly optional: boolean;
  readonly element: TextInput | StaticSelect | ExternalSelect;
};

export type Block = RichText | Context | Divider | Image | Actions | Input;

/** A message, without where it goes. */
export type Message = {
  /** The answer in one line, for notifications and screen readers; escaped, because it is read as markup. */
  readonly text: string;
  readonly blocks: readonly Block[];
  readonly unfurl_links: false;
  readonly unfurl_media: false;
};

/** A message as it goes to a `response_url`, or back as the first answer to a command. */
export type Responded = Message & {
  readonly response_type: 'ephemeral' | 'in_channel';
  readonly replace_original: boolean;
  readonly thread_ts?: string;
};

export type Modal = {
  readonly type: 'modal';
  readonly callback_id: string;
  readonly private_metadata: string;
  readonly title: PlainText;
  readonly close: PlainText;
  readonly submit?: PlainText;
  readonly blocks: readonly Block[];
};

export type Home = { readonly type: 'home'; readonly blocks: readonly Block[] };

/** The body of the first answer to a payload; nothing where a bare "received" is enough. */
export type Ack =
  | Responded
  | { readonly options: readonly Option[] }
  | { readonly response_action: 'errors'; readonly errors: Readonly<Record<string, string>> }
  | { readonly response_action: 'update'; readonly view: Modal }
  | undefined;
