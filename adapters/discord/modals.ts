import { KEYS, type Key, type KeyName } from '../../src/bike/keys.ts';
import type { Command } from '../../src/commands/command.ts';
import type { Action, Field, Filled, KeptCommand } from '../../src/commands/kept.ts';
import { LIMITS as KEPT } from '../../src/records/limits.ts';
import { customId, type Press } from './custom-id.ts';
import { label, plain } from './escape.ts';
import { LIMITS, modalFaults } from './limits.ts';
import { RenderError } from './render.ts';
import { COMPONENT, INPUT, type Modal, type ModalField, type SelectOption } from './wire.ts';

/** A command without a bike asks for the line and for the few things that change its answer most. */
const ASKED_BESIDE = 3;

type TextField = {
  readonly name: string;
  readonly label: string;
  readonly example: string;
  readonly long: boolean;
  readonly required: boolean;
  readonly most: number;
  readonly value?: string;
};

/** The bike in one line, and the two or three fields that matter most to this command. */
export function bikeModal(command: Command): Modal {
  const beside = command.keys.filter((key) => key !== 'units').slice(0, ASKED_BESIDE);
  return checked({ kind: 'tell', command: command.name }, `${command.name}: the bike`, [
    setupField(command, ''),
    ...beside.map(keyField),
  ]);
}

/** What was read, as a line to correct. */
export function correctionModal(command: Command, line: string): Modal {
  return checked({ kind: 'tell', command: command.name }, `${command.name}: correct it`, [setupField(command, line)]);
}

function setupField({ examples }: Command, value: string): ModalField {
  return textField({
    name: 'setup',
    label: 'The bike, in your own words',
    example: examples[0] ?? '',
    long: true,
    required: false,
    most: KEPT.setup,
    value,
  });
}

function keyField(name: KeyName): ModalField {
  const key: Key = KEYS[name];
  const choices = key.choices ?? (key.form === 'yes-no' ? ['yes', 'no'] : []);
  if (choices.length > 0) return selectField(name, key.label, '', plainOptions(choices));
  const example = key.example.slice(key.example.indexOf('=') + 1);
  return textField({ name, label: key.label, example, long: false, required: false, most: KEPT.setup });
}

function plainOptions(values: readonly string[]): readonly SelectOption[] {
  return values.map((each) => ({ label: each, value: each }));
}

/** The fields of an action that are not told yet, for who pressed a button instead of typing. */
export function actionModal(command: KeptCommand, action: Action, words: readonly string[], told: Filled = {}): Modal {
  const open = action.fields.slice(words.length);
  // Required ones first: where there are more than a modal holds, the last may be left out and told by the command.
  const shown = [...open.filter((each) => each.required), ...open.filter((each) => !each.required)];
  return checked(
    { kind: 'fill', command: command.name, action: action.name, words },
    [command.name, action.name, ...words].join(' '),
    shown.slice(0, LIMITS.modalFields).map((field) => actionField(field, told[field.name] ?? '')),
  );
}

/** A message as a standard answer: its text, or the answer behind its code, under a topic. */
export function pinModal(action: Action, message: string, told: Filled): Modal {
  const fields = action.fields.slice(0, LIMITS.modalFields).map((field) => actionField(field, told[field.name] ?? ''));
  return checked({ kind: 'pin-text', message }, 'Pin as standard answer', fields);
}

/** A standard answer for somebody, with one line of one's own. */
export function replyModal(message: string, author: string, topics: readonly string[]): Modal {
  const topic =
    topics.length > 0 && topics.length <= LIMITS.selectOptions
      ? selectField('topic', 'Topic', 'Which standard answer', plainOptions(topics))
      : textField({
          name: 'topic',
          label: 'Topic',
          example: 'chain-length',
          long: false,
          required: true,
          most: KEPT.source,
        });
  const line = textField({
    name: 'line',
    label: 'A line of your own, if you like',
    example: 'Hello! This is asked often, so we wrote it down:',
    long: true,
    required: false,
    most: KEPT.why,
  });
  return checked({ kind: 'reply', message, author }, 'Answer from standard answers', [topic, line]);
}

function actionField(field: Field, value: string): ModalField {
  const { name, form, required, example } = field;
  const choices = form === 'choice' ? (field.choices ?? []) : form === 'yes-no' ? ['yes', 'no'] : [];
  if (choices.length > 0) {
    return selectField(name, field.label, '', plainOptions(choices), required);
  }
  const told = example.startsWith(`${name}=`) ? example.slice(name.length + 1).replace(/^"(.*)"$/, '$1') : example;
  const long = form === 'text';
  // Room for a whole message of the platform: what is too long for the records is refused by them, and not cut here.
  const most = long ? LIMITS.inputValue : KEPT.source;
  return textField({ name, label: field.label, example: told, long, required, most, value });
}

function textField({ name, label: text, example, long, required, most, value = '' }: TextField): ModalField {
  return {
    type: COMPONENT.label,
    ...labelled(text, name),
    component: {
      type: COMPONENT.textInput,
      custom_id: name,
      style: long ? INPUT.paragraph : INPUT.short,
      required,
      placeholder: label(example, LIMITS.inputPlaceholder),
      max_length: most,
      ...(value === '' ? {} : { value: value.split('\n').map(plain).join('\n') }),
    },
  };
}

function selectField(
  name: string,
  text: string,
  hint: string,
  options: readonly SelectOption[],
  required = hint !== '',
): ModalField {
  return {
    type: COMPONENT.label,
    ...labelled(text, name),
    component: {
      type: COMPONENT.select,
      custom_id: name,
      placeholder: hint === '' ? 'Not told' : hint,
      options,
      required,
      min_values: required ? 1 : 0,
    },
  };
}

/** A label that is too long for its place stands below the name of its key, whole. */
function labelled(text: string, name: string): { readonly label: string; readonly description?: string } {
  return text.length <= LIMITS.fieldLabel ? { label: text } : { label: name, description: text };
}

function checked(press: Press, title: string, components: readonly ModalField[]): Modal {
  const modal: Modal = { custom_id: customId(press) ?? '', title: label(title, LIMITS.modalTitle), components };
  const faults = [...modalFaults(modal), ...(modal.custom_id === '' ? ['no custom id'] : [])];
  if (faults.length > 0) throw new RenderError(faults.join('; '));
  return modal;
}
