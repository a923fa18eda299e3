import { KEYS, type Key, type KeyName } from '../../src/bike/keys.ts';
import type { Command } from '../../src/commands/command.ts';
import type { Action, Field, KeptCommand } from '../../src/commands/kept.ts';
import { KEPT_COMMANDS } from '../../src/commands/kept-list.ts';
import { COMMANDS, TOPIC_COMMANDS } from '../../src/commands/list.ts';
import { LIMITS as KEPT } from '../../src/records/limits.ts';
import { label } from './escape.ts';
import { LIMITS } from './limits.ts';
import { GERMAN, SECOND, type Wording } from './locales.ts';
import { keyForm, LINE_OPTIONS, type LineOption, optionKeys } from './options.ts';
import { MESSAGE_COMMANDS } from './standard-answers.ts';
import { COMMAND, CONTEXT, type CommandOption, INSTALL, OPTION, PERMISSION, type RegisteredCommand } from './wire.ts';

/** In servers and in private conversations; added to a server, or by one person for themselves. */
const EVERYWHERE = {
  contexts: [CONTEXT.server, CONTEXT.withBot, CONTEXT.between],
  integration_types: [INSTALL.server, INSTALL.person],
  default_member_permissions: null,
} as const;

/** What those who run or moderate a server do. They may open it to others; who may really is looked up at every use. */
const FOR_SERVERS = { contexts: [CONTEXT.server], integration_types: [INSTALL.server] } as const;

const RUNS_SERVER = String(PERMISSION.manageServer);
const MODERATES = String(PERMISSION.manageMessages);

const LINE_ENGLISH: Readonly<Record<LineOption | 'topic', string>> = {
  setup: 'The bike in your own words, such as 2x10 36/22 11-36 29er 104bcd',
  bike: 'A bike that you have kept under a name',
  code: 'An answer that was given here, to see it again or to change one thing',
  topic: 'What you want to know more about',
};

const TOPIC_ENGLISH: Readonly<Record<string, string>> = {
  help: 'What can be asked here, or more about one command',
  measure: 'How to measure what nobody knows by heart: three steps and a picture',
};

/** Every command as it should be registered. */
export function wantedCommands(): readonly RegisteredCommand[] {
  return [
    ...COMMANDS.map(questionCommand),
    ...TOPIC_COMMANDS.map(topicCommand),
    ...KEPT_COMMANDS.map(keptCommand),
    {
      type: COMMAND.message,
      name: MESSAGE_COMMANDS.pin,
      name_localizations: { [SECOND]: GERMAN.messageCommands.pin },
      ...FOR_SERVERS,
      default_member_permissions: MODERATES,
    },
    {
      type: COMMAND.message,
      name: MESSAGE_COMMANDS.reply,
      name_localizations: { [SECOND]: GERMAN.messageCommands.reply },
      ...FOR_SERVERS,
      default_member_permissions: null,
    },
  ];
}

function questionCommand({ name, summary, keys }: Command): RegisteredCommand {
  const line = LINE_OPTIONS.map((option) => ({
    type: OPTION.string,
    ...worded(option, LINE_ENGLISH[option], GERMAN.line(option)),
    ...(option === 'setup' ? { max_length: KEPT.setup } : { autocomplete: true }),
  }));
  return {
    type: COMMAND.slash,
    ...worded(name, summary, GERMAN.command(name)),
    options: [...line, ...optionKeys(keys).map(keyOption)],
    ...EVERYWHERE,
  };
}

function topicCommand(name: string): RegisteredCommand {
  const names = [...COMMANDS, ...KEPT_COMMANDS].map((command) => ({ name: command.name, value: command.name }));
  const choices = name === 'help' ? { choices: names } : { max_length: KEPT.topic };
  const topic = { type: OPTION.string, ...worded('topic', LINE_ENGLISH.topic, GERMAN.line('topic')), ...choices };
  return {
    type: COMMAND.slash,
    ...worded(name, TOPIC_ENGLISH[name] ?? name, GERMAN.command(name)),
    options: [topic],
    ...EVERYWHERE,
  };
}

function keptCommand({ name, summary, actions }: KeptCommand): RegisteredCommand {
  const settings = name === 'settings';
  return {
    type: COMMAND.slash,
    ...worded(name, summary, GERMAN.command(name)),
    options: actions.map((action) => actionOption(name, action)),
    ...EVERYWHERE,
    ...(settings ? { ...FOR_SERVERS, default_member_permissions: RUNS_SERVER } : {}),
  };
}

function actionOption(command: string, { name, summary, fields }: Action): CommandOption {
  // The platform wants required ones first; each keeps its place otherwise.
  const ordered = [...fields.filter((field) => field.required), ...fields.filter((field) => !field.required)];
  return {
    type: OPTION.subcommand,
    ...worded(name, summary, GERMAN.action(command, name)),
    options: ordered.map((field) => fieldOption(command, name, field)),
  };
}

function fieldOption(command: string, action: string, field: Field): CommandOption {
  const example = field.example.startsWith(`${field.name}=`)
    ? field.example.slice(field.name.length + 1)
    : field.example;
  const picked = field.form === 'yes-no' || field.form === 'choice';
  const english = picked ? field.label : `${field.label}, such as ${example}`;
  return {
    ...worded(field.name, english, GERMAN.field(command, action, field.name)),
    ...formOption(field.form, field.choices ?? []),
    ...(field.required ? { required: true } : {}),
    ...(field.suggest === undefined ? {} : { autocomplete: true }),
  };
}

function keyOption(name: KeyName): CommandOption {
  const key: Key = KEYS[name];
  const { form, suggested } = keyForm(name);
  const told = key.example.slice(key.example.indexOf('=') + 1);
  const unit = key.unit === undefined || key.unit === 'teeth' ? '' : ` (${key.unit})`;
  const english = form === 'word' ? `${key.label}, such as ${told}` : `${key.label}${unit}`;
  const number = form === 'whole' || form === 'number';
  return {
    ...worded(name, english, GERMAN.key(name)),
    ...formOption(form, key.choices ?? []),
    ...(number && key.low !== undefined && key.high !== undefined ? { min_value: key.low, max_value: key.high } : {}),
    ...(suggested === null ? {} : { autocomplete: true }),
  };
}

function formOption(
  form: Field['form'],
  choices: readonly string[],
): Pick<CommandOption, 'type' | 'choices' | 'max_length' | 'min_value'> {
  switch (form) {
    case 'whole':
      return { type: OPTION.integer, min_value: 0 };
    case 'number':
      return { type: OPTION.number };
    case 'yes-no':
      return { type: OPTION.boolean };
    case 'choice':
      return { type: OPTION.string, choices: choices.map((each) => ({ name: each, value: each })) };
    case 'word':
      return { type: OPTION.string, max_length: KEPT.setup };
    case 'text':
      return { type: OPTION.string, max_length: LIMITS.inputValue };
  }
}

function worded(name: string, english: string, german: Wording | null) {
  return {
    name,
    name_localizations: german === null ? {} : { [SECOND]: german.name },
    description: label(english, LIMITS.commandDescription),
    description_localizations: german === null ? {} : { [SECOND]: german.description },
  };
}
