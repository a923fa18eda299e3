import { KEYS, type Key, type KeyName } from '../../src/bike/keys.ts';
import type { Command } from '../../src/commands/command.ts';
import type { Action, Field, Filled, KeptCommand } from '../../src/commands/kept.ts';
import { inert } from '../../src/inert.ts';
import { LIMITS as KEPT } from '../../src/records/limits.ts';
import { label, NO_NAMES, plain } from './escape.ts';
import { LIMITS } from './limits.ts';
import { type Press, writePress } from './press.ts';
import { checkedModal, RenderError } from './render.ts';
import { suggestedFor } from './suggestions.ts';
import { plainLines, richText } from './text.ts';
import type { ExternalSelect, Input, Modal, Option, StaticSelect, TextInput } from './wire.ts';

/** Beside the line in one's own words, the keys that change this command's answer most. */
const KEYS_BESIDE = 8;

/** Where a modal came from, so that its answer goes there: it travels with the modal, nothing is remembered. */
export type Origin = {
  readonly press: string;
  /** The address for answers, how often it was used, and since when it works; null where there is none. */
  readonly url: string | null;
  readonly used: number;
  readonly sinceMs: number;
  readonly channel: string | null;
  readonly thread: string | null;
  /** Whether the message below whose button this was opened is seen by one person only; null without a message. */
  readonly mine: boolean | null;
};

/** What a modal is opened with, apart from its fields. */
export type Opening = Omit<Origin, 'press'>;

/** The line in one's own words, and the few keys that matter most to this command. */
export function bikeModal(command: Command, line: string, wrong: string, opening: Opening): Modal {
  const beside = command.keys.filter((key) => key !== 'units').slice(0, KEYS_BESIDE);
  const setup = textInput({
    name: 'setup',
    label: 'The bike, in your own words',
    hint: wrong,
    example: command.examples[0] ?? '',
    long: true,
    required: false,
    most: KEPT.setup,
    value: line,
  });
  return made({ kind: 'tell', command: command.name }, `${command.name}: the bike`, opening, [
    setup,
    ...beside.map((key) => keyInput(command.name, key)),
  ]);
}

function keyInput(command: string, name: KeyName): Input {
  const key: Key = KEYS[name];
  const example = key.example.slice(key.example.indexOf('=') + 1);
  const about = { name, label: key.label, hint: '', required: false };
  const choices = key.choices ?? (key.form === 'yes-no' ? ['yes', 'no'] : []);
  if (choices.length > 0) return input(about, choiceSelect(name, choices, ''));
  if (suggestedFor(command, '', name) !== null) return input(about, suggestSelect(command, '', name, example, ''));
  return textInput({ ...about, example, long: false, most: KEPT.setup, value: '' });
}

/** The fields of an action that are not told yet; `words` are those told by their place, `told` those told by name. */
export function actionModal(
  command: KeptCommand,
  action: Action,
  words: readonly string[],
  told: Filled,
  opening: Opening,
): Modal {
  const open = action.fields.slice(words.length);
  const inputs = open.map((field) => fieldInput(command.name, action.name, field, told[field.name] ?? ''));
  const press: Press = { kind: 'fill', command: command.name, action: action.name, words };
  const known = words.map((word, at) => `${action.fields[at]?.label ?? ''}: ${word}`);
  return made(press, `${command.name} ${action.name}`, opening, inputs, [`${action.summary}.`, ...known]);
}

/** A message as a standard answer: its text, or the answer behind its code, under a topic. */
export function pinModal(
  action: Action,
  at: { readonly channel: string; readonly message: string },
  told: Filled,
  opening: Opening,
): Modal {
  const inputs = action.fields.map((field) => fieldInput('answer', action.name, field, told[field.name] ?? ''));
  return made({ kind: 'pin-text', ...at }, 'Pin as standard answer', opening, inputs);
}

/** A standard answer for somebody, with a line of one's own. */
export function replyModal(at: { readonly channel: string; readonly thread: string }, opening: Opening): Modal {
  const topic = { name: 'topic', label: 'Topic', hint: '', required: true };
  const line = textInput({
    name: 'line',
    label: 'A line of your own, if you like',
    hint: 'It stands above the answer, with your name.',
    example: 'Hello! This is asked often, so we wrote it down:',
    long: true,
    required: false,
    most: KEPT.why,
    value: '',
  });
  return made({ kind: 'reply', ...at }, 'From standard answers', opening, [
    input(topic, suggestSelect('answer', 'show', 'topic', 'chain-length', '')),
    line,
  ]);
}

function fieldInput(command: string, action: string, field: Field, value: string): Input {
  const { name, form, required, example } = field;
  const about = { name, label: field.label, hint: '', required };
  const choices = form === 'choice' ? (field.choices ?? []) : form === 'yes-no' ? ['yes', 'no'] : [];
  if (choices.length > 0) return input(about, choiceSelect(name, choices, value));
  const told = example.startsWith(`${name}=`) ? example.slice(name.length + 1).replace(/^"(.*)"$/, '$1') : example;
  if (field.suggest !== undefined) return input(about, suggestSelect(command, action, name, told, value));
  const long = form === 'text';
  const over = value.length > LIMITS.inputValue;
  const hint = over ? `What stood there has ${value.length} characters, more than fit in here. Write it shorter.` : '';
  // What is too long for the records is refused by them with its limit, and not cut here.
  return textInput({ ...about, hint, example: told, long, most: long ? LIMITS.inputValue : KEPT.source, value });
}

type About = { readonly name: string; readonly label: string; readonly hint: string; readonly required: boolean };

/** The name of a field is its block's id, so that an error can be shown right there. */
function input({ name, label: text, hint, required }: About, element: Input['element']): Input {
  return {
    type: 'input',
    block_id: name,
    label: plain(text),
    ...(hint === '' ? {} : { hint: label(hint, LIMITS.hint) }),
    optional: !required,
    element,
  };
}

function textInput({
  example,
  long,
  most,
  value,
  ...about
}: About & { readonly example: string; readonly long: boolean; readonly most: number; readonly value: string }): Input {
  const initial = value.split('\n').map(inert).join('\n');
  // What is over our own limit still stands there whole, to be shortened by who wrote it.
  const max_length = Math.min(LIMITS.inputValue, Math.max(most, initial.length));
  const element: TextInput = {
    type: 'plain_text_input',
    action_id: 'text',
    multiline: long,
    placeholder: label(example === '' ? about.name : example, LIMITS.placeholder),
    max_length,
    ...(initial === '' || initial.length > max_length ? {} : { initial_value: initial }),
  };
  return input(about, element);
}

function choiceSelect(name: string, choices: readonly string[], value: string): StaticSelect {
  const options = choices.map((each): Option => ({ text: plain(each), value: each }));
  const initial = options.find((each) => each.value === value.toLowerCase());
  return {
    type: 'static_select',
    action_id: 'choice',
    placeholder: plain(`Not told: ${name}`),
    options,
    ...(initial === undefined ? {} : { initial_option: initial }),
  };
}

/** A list that is asked for while somebody types; what stands for itself in it is what was typed. */
function suggestSelect(command: string, action: string, name: string, example: string, value: string): ExternalSelect {
  const text = label(value, LIMITS.optionText);
  // A hidden character may be all there is to a value, or to what is shown of it: neither may be empty.
  const fits = value.trim() !== '' && text.text.trim() !== '' && value.length <= LIMITS.optionValue;
  return {
    type: 'external_select',
    action_id: [command, action, name].join('|'),
    placeholder: label(example, LIMITS.placeholder),
    min_query_length: 0,
    ...(fits ? { initial_option: { text, value } } : {}),
  };
}

function made(
  press: Press,
  title: string,
  opening: Opening,
  inputs: readonly Input[],
  above: readonly string[] = [],
): Modal {
  const text = writePress(press);
  if (text === null) throw new RenderError('a press that is too long for a modal');
  return checkedModal({
    type: 'modal',
    callback_id: press.kind,
    private_metadata: JSON.stringify({ press: text, ...opening } satisfies Origin),
    title: label(title, LIMITS.viewTitle),
    close: plain('Cancel'),
    submit: plain(press.kind === 'reply' ? 'Post' : press.kind === 'tell' ? 'Ask' : 'Save'),
    blocks: [...(above.length === 0 ? [] : [richText(plainLines(above), NO_NAMES)]), ...inputs],
  });
}
