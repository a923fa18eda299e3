import * as spec from 'discord-api-spec/zod';

/** What of a JSON body the platform refuses by its own published schema, or by a rule of its documentation. */
export type Faults = readonly string[];

const CALLBACKS = {
  1: spec.PongInteractionCallbackRequestSchema,
  4: spec.CreateMessageInteractionCallbackRequestSchema,
  5: spec.CreateMessageInteractionCallbackRequestSchema,
  6: spec.UpdateMessageInteractionCallbackRequestSchema,
  7: spec.UpdateMessageInteractionCallbackRequestSchema,
  8: spec.ApplicationCommandAutocompleteCallbackRequestSchema,
  9: spec.ModalInteractionCallbackRequestSchema,
} as const;

const MESSAGES = {
  edit: spec.IncomingWebhookUpdateRequestPartialSchema,
  follow: spec.IncomingWebhookInteractionRequestSchema,
  reply: spec.MessageCreateRequestSchema,
} as const;

type Json = Readonly<Record<string, unknown>>;

/** A first answer, with the names of the files that go beside it. */
export function callbackFaults(body: Json, files: readonly string[] = []): Faults {
  const schema = CALLBACKS[body.type as keyof typeof CALLBACKS];
  if (schema === undefined) return [`callback type ${String(body.type)}`];
  const faults = bySchema(schema, body);
  const data = (body.data ?? {}) as Json;
  if (body.type === 4 || body.type === 7) faults.push(...messageRules(data, files));
  if (body.type === 5 && data.flags !== 0 && data.flags !== 64) faults.push('a deferral may only be private');
  if (body.type === 9) faults.push(...modalRules(data));
  if (body.type === 8) faults.push(...choiceRules(data));
  return faults;
}

/** A message sent after the first answer. */
export function messageFaults(kind: keyof typeof MESSAGES, body: Json, files: readonly string[] = []): Faults {
  return [...bySchema(MESSAGES[kind], body), ...messageRules(body, files)];
}

/** A command as it is registered. The schema wants permissions as a number, the documentation as text. */
export function commandSchemaFaults(command: Json): Faults {
  const permissions = command.default_member_permissions;
  if (permissions !== null && typeof permissions !== 'string') return ['permissions are text or null'];
  const asNumber = permissions === null ? null : Number(permissions);
  return bySchema(spec.ApplicationCommandUpdateRequestSchema, { ...command, default_member_permissions: asNumber });
}

function bySchema(
  schema: {
    safeParse: (value: unknown) => {
      error?: { issues: readonly { path: PropertyKey[]; message: string }[] } | undefined;
    };
  },
  body: unknown,
) {
  // As it is on the wire: what is undefined is not there.
  const { error } = schema.safeParse(JSON.parse(JSON.stringify(body)));
  return (error?.issues ?? []).map(({ path, message }) => `${path.join('.')}: ${message}`);
}

type Component = Json & { readonly components?: readonly Component[]; readonly component?: Component };

/** What the schema leaves out: sums, uniqueness, rows, and what refers to something else in the same request. */
function messageRules(message: Json, files: readonly string[]): string[] {
  const faults: string[] = [];
  const embeds = (message.embeds ?? []) as readonly Json[];
  const rows = (message.components ?? []) as readonly Component[];
  const parse = (message.allowed_mentions as Json | undefined)?.parse;
  if (!Array.isArray(parse) || parse.length > 0) faults.push('somebody could be notified');
  if (String(message.content ?? '').length > 2000) faults.push('content over 2000');
  if (String(message.content ?? '').trim() === '' && embeds.length === 0) faults.push('nothing to show');
  let characters = 0;
  for (const embed of embeds) {
    const texts = [embed.title, embed.description, (embed.footer as Json | undefined)?.text];
    for (const text of texts) characters += String(text ?? '').trim().length;
    if (embed.description !== undefined && String(embed.description).trim() === '') faults.push('an empty embed');
  }
  if (characters > 6000) faults.push(`embeds of ${characters} characters`);
  if (rows.length > 5) faults.push(`${rows.length} rows`);
  for (const row of rows) {
    const parts = row.components ?? [];
    const selects = parts.filter((part) => part.type !== 2).length;
    if (parts.length === 0 || parts.length > 5 || (selects > 0 && parts.length !== 1))
      faults.push('a row that is none');
  }
  const parts = rows.flatMap((row) => row.components ?? []);
  faults.push(...idRules(parts));
  for (const part of parts) {
    if (part.type === 2 && (String(part.label ?? '').trim() === '' || String(part.label).length > 80))
      faults.push('label');
    if (part.type === 3) faults.push(...selectRules(part));
  }
  const attachments = (message.attachments ?? []) as readonly Json[];
  for (const { id, description } of attachments) {
    if (files[Number(id)] === undefined) faults.push(`attachment ${String(id)} without a file`);
    if (String(description ?? '').length > 1024 || String(description ?? '') === '') faults.push('alternative text');
  }
  if (files.length > attachments.length) faults.push('a file nobody speaks of');
  return faults;
}

function modalRules(modal: Json): string[] {
  const labels = (modal.components ?? []) as readonly Component[];
  const parts = labels.flatMap((each) => (each.component === undefined ? [] : [each.component]));
  const faults = idRules(parts);
  if (labels.length < 1 || labels.length > 5) faults.push(`${labels.length} fields`);
  for (const part of parts) {
    if (part.type === 3) faults.push(...selectRules(part));
    if (String(part.value ?? '').length > Number(part.max_length ?? 4000)) faults.push('a value over its own limit');
  }
  return faults;
}

function selectRules(select: Json): string[] {
  const options = (select.options ?? []) as readonly Json[];
  const values = options.map((each) => each.value);
  const faults: string[] = [];
  if (options.length === 0 || options.length > 25) faults.push(`a select of ${options.length}`);
  if (new Set(values).size < values.length) faults.push('a value twice in a select');
  for (const { label, value } of options) {
    if (String(label ?? '').trim() === '' || String(value ?? '') === '') faults.push('an empty choice');
  }
  return faults;
}

function choiceRules(data: Json): string[] {
  const choices = (data.choices ?? []) as readonly Json[];
  const wrong = choices.filter(({ name, value }) => String(name).length > 100 || String(value).length > 100);
  return wrong.length > 0 || choices.length > 25 ? ['choices'] : [];
}

function idRules(parts: readonly Json[]): string[] {
  const ids = parts.map((part) => String(part.custom_id ?? ''));
  const faults = ids.filter((id) => id.length < 1 || id.length > 100).map((id) => `custom id of ${id.length}`);
  if (new Set(ids).size < ids.length) faults.push(`a custom id twice: ${ids.join(' ')}`);
  return faults;
}
