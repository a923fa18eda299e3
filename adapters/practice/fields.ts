import { KEYS, type Key, type KeyName } from '../../src/bike/keys.ts';
import type { Action, Field } from '../../src/commands/kept.ts';
import { KEPT_COMMANDS } from '../../src/commands/kept-list.ts';
import { COMMANDS } from '../../src/commands/list.ts';

/** A field of a form on the page. */
export type FormField = {
  readonly name: string;
  readonly label: string;
  readonly required: boolean;
  readonly long: boolean;
  readonly choices: readonly string[];
  readonly example: string;
};

/** A form: what it asks, the fields to fill in, and the words that are settled already. */
export type Form = {
  readonly label: string;
  readonly command: string;
  readonly action: string | null;
  readonly told: Readonly<Record<string, string>>;
  readonly fields: readonly FormField[];
};

/** Every form there is: one a command about a bike, one an action about what is kept. */
export function allForms(): readonly Form[] {
  const bikes = COMMANDS.map(({ name, summary, keys, examples }) => ({
    label: `${name}: ${summary}`,
    command: name,
    action: null,
    told: {},
    fields: [setupField(examples[0] ?? ''), ...keys.map(keyField)],
  }));
  const kept = KEPT_COMMANDS.flatMap(({ name, actions }) => actions.map((action) => actionForm(name, action, {})));
  return [...bikes, ...kept];
}

/** The form of an action, without what is told already. */
export function actionForm(command: string, action: Action, told: Form['told'], label?: string): Form {
  return {
    label: label ?? `${command} ${action.name}: ${action.summary}`,
    command,
    action: action.name,
    told,
    fields: action.fields.filter(({ name }) => told[name] === undefined).map(actionField),
  };
}

function setupField(example: string): FormField {
  return { name: 'setup', label: 'The bike, in your own words', required: false, long: true, choices: [], example };
}

function keyField(name: KeyName): FormField {
  const key: Key = KEYS[name];
  const choices = key.choices ?? (key.form === 'yes-no' ? ['yes', 'no'] : []);
  return {
    name,
    label: unitLabel(key),
    required: false,
    long: false,
    choices,
    example: exampleValue(key.example, name),
  };
}

function unitLabel({ label, unit }: Key): string {
  return unit === undefined || unit === 'teeth' ? label : `${label}, ${unit}`;
}

function actionField({ name, label, form, required, choices = [], example }: Field): FormField {
  return {
    name,
    label,
    required,
    long: form === 'text',
    choices: form === 'yes-no' ? ['yes', 'no'] : choices,
    example: exampleValue(example, name),
  };
}

/** The value of an example that is written `name=value`. */
function exampleValue(example: string, name: string): string {
  if (!example.startsWith(`${name}=`)) return example;
  return example.slice(name.length + 1).replace(/^"(.*)"$/, '$1');
}
