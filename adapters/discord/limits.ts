import {
  COMMAND,
  COMPONENT,
  type CommandOption,
  type Message,
  type Modal,
  OPTION,
  type RegisteredCommand,
  type Row,
  type Select,
} from './wire.ts';

/** Every limit of the platform that is kept here, each with the page of its documentation it was read from. */
export const LIMITS = {
  /** "Receiving and Responding", Followup Messages; the same as "Webhook", Execute Webhook. */
  content: 2000,
  /** "Message", Embed Limits. */
  embeds: 10,
  embedTitle: 256,
  embedDescription: 4096,
  embedFooter: 2048,
  /** Over title, description and footer of all embeds of a message; "Message", Embed Limits. */
  embedsInAll: 6000,
  /** "Component Reference", Action Row: rows of a message without the newer layout, and buttons of a row. */
  rows: 5,
  buttonsInRow: 5,
  /** "Component Reference", Button. */
  buttonLabel: 80,
  /** "Component Reference", Anatomy of a Component. */
  customId: 100,
  /** "Component Reference", String Select. */
  selectOptions: 25,
  selectLabel: 100,
  selectValue: 100,
  selectDescription: 100,
  placeholder: 150,
  /** "Receiving and Responding", Modal; "Component Reference", Label and Text Input. */
  modalTitle: 45,
  modalFields: 5,
  fieldLabel: 45,
  fieldDescription: 100,
  inputPlaceholder: 100,
  inputValue: 4000,
  /** "Application Commands", Application Command Option Choice, for autocomplete as well. */
  choices: 25,
  choiceName: 100,
  /** The documentation's figure for a string; the published schema allows more. */
  choiceValue: 100,
  /** "Application Commands", Application Command Naming and Structure. */
  commandName: 32,
  commandDescription: 100,
  options: 25,
  /** Over names, descriptions and values of a command, the longest localisation counting. */
  commandInAll: 8000,
  slashCommands: 100,
  messageCommands: 15,
  /** "Message", Attachment Object: alt text. */
  altText: 1024,
  attachments: 10,
  /** "Receiving and Responding", Interaction Callback: the first answer, and the life of a token. */
  firstAnswerMs: 3000,
  tokenMs: 15 * 60 * 1000,
  /** "User-Installable Apps": messages that may follow where the program itself is not installed. */
  followUps: 5,
} as const;

/** Our own limits, all of them common practice. */
export const OURS = {
  /** Longer work is announced first: a second is left for the way there and back. */
  patienceMs: 1800,
  /** An interaction is a few thousand bytes, one with a long message in it a few ten thousand. */
  bodyBytes: 512 * 1024,
  /** A signed request older or newer than this is somebody else's copy, or a clock that is wrong. */
  signedWithinS: 300,
  /** How many interactions are remembered, so that one delivered twice is answered once. */
  remembered: 10_000,
  /** How many people and places are paced at once. */
  paced: 50_000,
  /** Work begun before the end is finished within this, then let go. */
  farewellMs: 8000,
} as const;

/** What one person and one place may ask; typing asks for suggestions far more often than anybody presses a button. */
export const PACES = {
  person: { burst: 10, everyMs: 1000 },
  place: { burst: 80, everyMs: 100 },
  typing: { burst: 40, everyMs: 150 },
} as const;

/** "Application Commands", Application Command Naming. */
const COMMAND_NAME = /^[-_'\p{L}\p{N}\p{sc=Deva}\p{sc=Thai}]{1,32}$/u;

/** What of a message the platform would refuse, in words for our own log; empty when nothing. */
export function messageFaults(message: Message): readonly string[] {
  const { content, embeds, components, attachments } = message;
  const faults = over('content', content, LIMITS.content);
  if (content === '' && embeds.length === 0) faults.push('nothing to say');
  if (embeds.length > LIMITS.embeds) faults.push('too many embeds');
  let inAll = 0;
  for (const { title = '', description, footer } of embeds) {
    const foot = footer?.text ?? '';
    faults.push(
      ...over('embed title', title, LIMITS.embedTitle),
      ...over('embed description', description, LIMITS.embedDescription),
      ...over('embed footer', foot, LIMITS.embedFooter),
    );
    if (description.trim() === '') faults.push('empty embed');
    inAll += title.length + description.length + foot.length;
  }
  if (inAll > LIMITS.embedsInAll) faults.push(`embeds of ${inAll} characters`);
  if (attachments.length > LIMITS.attachments) faults.push('too many attachments');
  for (const { description } of attachments) faults.push(...over('alt text', description, LIMITS.altText));
  return [...faults, ...rowFaults(components)];
}

function rowFaults(rows: readonly Row[]): readonly string[] {
  const faults: string[] = [];
  const ids = new Set<string>();
  if (rows.length > LIMITS.rows) faults.push('too many rows');
  for (const { components } of rows) {
    const selects = components.filter((each) => each.type === COMPONENT.select);
    const most = selects.length > 0 ? 1 : LIMITS.buttonsInRow;
    if (components.length === 0 || components.length > most) faults.push(`a row of ${components.length}`);
    for (const each of components) {
      faults.push(...over('custom id', each.custom_id, LIMITS.customId));
      if (ids.has(each.custom_id)) faults.push(`a custom id twice: ${each.custom_id.slice(0, 12)}`);
      ids.add(each.custom_id);
      if (each.type === COMPONENT.button) {
        faults.push(...over('button label', each.label, LIMITS.buttonLabel), ...empty('button label', each.label));
      } else {
        faults.push(...selectFaults(each));
      }
    }
  }
  return faults;
}

function selectFaults({ placeholder, options }: Select): string[] {
  const faults = over('placeholder', placeholder, LIMITS.placeholder);
  if (options.length === 0 || options.length > LIMITS.selectOptions) faults.push(`a select of ${options.length}`);
  if (new Set(options.map((each) => each.value)).size < options.length) faults.push('a select value twice');
  for (const { label, value, description = '' } of options) {
    faults.push(
      ...over('select label', label, LIMITS.selectLabel),
      ...empty('select label', label),
      ...over('select value', value, LIMITS.selectValue),
      ...empty('select value', value),
      ...over('select description', description, LIMITS.selectDescription),
    );
  }
  return faults;
}

/** What of a modal the platform would refuse. */
export function modalFaults({ custom_id, title, components }: Modal): readonly string[] {
  const faults = [...over('custom id', custom_id, LIMITS.customId), ...over('modal title', title, LIMITS.modalTitle)];
  faults.push(...empty('modal title', title));
  if (components.length === 0 || components.length > LIMITS.modalFields) faults.push(`${components.length} fields`);
  for (const { label, description = '', component } of components) {
    faults.push(
      ...over('field label', label, LIMITS.fieldLabel),
      ...empty('field label', label),
      ...over('field description', description, LIMITS.fieldDescription),
      ...over('custom id', component.custom_id, LIMITS.customId),
    );
    if (component.type === COMPONENT.select) {
      faults.push(...selectFaults(component));
    } else {
      faults.push(
        ...over('placeholder', component.placeholder ?? '', LIMITS.inputPlaceholder),
        ...over('value', component.value ?? '', component.max_length),
      );
      if (component.max_length > LIMITS.inputValue) faults.push('an input that is too long');
    }
  }
  return faults;
}

/** What of all commands the platform would refuse to register. */
export function registrationFaults(commands: readonly RegisteredCommand[]): readonly string[] {
  const slash = commands.filter(({ type }) => type === COMMAND.slash).length;
  const onMessages = commands.length - slash;
  return [
    ...(slash > LIMITS.slashCommands ? [`${slash} commands`] : []),
    ...(onMessages > LIMITS.messageCommands ? [`${onMessages} commands on a message`] : []),
    ...commands.flatMap(commandFaults),
  ];
}

function commandFaults(command: RegisteredCommand): readonly string[] {
  const faults: string[] = [];
  const length = sizeOf(command);
  if (length > LIMITS.commandInAll) faults.push(`${command.name}: ${length} characters in all`);
  if (command.type === COMMAND.slash) {
    faults.push(...namedFaults(command.name, command), ...optionFaults(command.name, command.options ?? []));
  } else {
    faults.push(...over(command.name, command.name, LIMITS.commandName));
  }
  return faults;
}

type Named = Pick<CommandOption, 'name' | 'name_localizations'> &
  Partial<Pick<CommandOption, 'description' | 'description_localizations'>>;

function namedFaults(where: string, named: Named): readonly string[] {
  const names = [named.name, ...Object.values(named.name_localizations)];
  const descriptions = [named.description ?? '', ...Object.values(named.description_localizations ?? {})];
  return [
    ...names
      .filter((name) => !COMMAND_NAME.test(name) || name !== name.toLowerCase())
      .map((name) => `${where}: ${name}`),
    ...descriptions.flatMap((text) => [
      ...over(`${where}: description`, text, LIMITS.commandDescription),
      ...empty(`${where}: description`, text),
    ]),
  ];
}

function optionFaults(where: string, options: readonly CommandOption[]): readonly string[] {
  const faults: string[] = [];
  if (options.length > LIMITS.options) faults.push(`${where}: ${options.length} options`);
  let optional = false;
  const languages = new Set(options.flatMap((each) => Object.keys(each.name_localizations)));
  for (const language of ['', ...languages]) {
    const names = options.map((each) => each.name_localizations[language] ?? each.name);
    if (new Set(names).size < names.length) faults.push(`${where}: an option name twice`);
  }
  for (const option of options) {
    const here = `${where} ${option.name}`;
    faults.push(...namedFaults(here, option), ...optionFaults(here, option.options ?? []));
    if (option.required && optional) faults.push(`${here}: required after optional`);
    optional ||= option.type !== OPTION.subcommand && option.required !== true;
    if ((option.choices?.length ?? 0) > LIMITS.choices) faults.push(`${here}: choices`);
    if (option.choices !== undefined && option.autocomplete) faults.push(`${here}: choices and autocomplete`);
    for (const { name, value } of option.choices ?? []) {
      faults.push(...over(here, name, LIMITS.choiceName), ...over(here, value, LIMITS.choiceValue));
    }
  }
  return faults;
}

/** The characters of a command that count towards its limit. */
function sizeOf(named: Named & Partial<Pick<CommandOption, 'options' | 'choices'>>): number {
  let size = longest(named.name, named.name_localizations);
  size += longest(named.description ?? '', named.description_localizations ?? {});
  for (const option of named.options ?? []) size += sizeOf(option);
  for (const { name, value } of named.choices ?? []) size += name.length + value.length;
  return size;
}

function longest(text: string, localised: Readonly<Record<string, string>>): number {
  return Object.values(localised).reduce((most, each) => Math.max(most, each.length), text.length);
}

function over(what: string, text: string, limit: number): string[] {
  return text.length > limit ? [`${what} of ${text.length} characters`] : [];
}

function empty(what: string, text: string): string[] {
  return text.trim() === '' ? [`${what} is empty`] : [];
}
