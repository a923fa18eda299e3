import { nearest } from '../bike/nearest.ts';
import type { Refusal } from '../bike/reading.ts';
import type { Action, Field, Filled, KeptCommand } from './kept.ts';

/** A line like `save winter 2x10 36/22 …` as an action and its filled fields. */
export type ActionReading =
  | { readonly kind: 'read'; readonly action: Action; readonly filled: Filled }
  | { readonly kind: 'refused'; readonly refusal: Refusal };

/** How much of what a person typed a refusal repeats. */
const SHOWN_CHARACTERS = 40;

/**
 * Reads what to do and its fields. Fields stand in their order, or anywhere as `name=value` (a value with blanks in
 * quotes); a field of form `text` takes the rest of the line. Typed options come in `options`, the action as `action`.
 */
export function readAction(
  command: KeptCommand,
  line: string,
  options: Readonly<Record<string, string>>,
): ActionReading {
  const trimmed = line.trim();
  const blank = trimmed.search(/\s/);
  const first = blank === -1 ? trimmed : trimmed.slice(0, blank);
  const typed = options.action ?? first;
  const action = command.actions.find((each) => each.name === typed.toLowerCase());
  if (action === undefined) return { kind: 'refused', refusal: unknownAction(command, typed) };
  const rest = options.action === undefined ? trimmed.slice(first.length).trim() : trimmed;
  const inLine = fill(action.fields, rest);
  if (inLine.left !== '') return { kind: 'refused', refusal: leftOver(command, action, inLine.left) };
  const filled = { ...inLine.filled, ...told(action.fields, options) };
  const missing = action.fields.find((field) => field.required && (filled[field.name] ?? '').trim() === '');
  if (missing !== undefined) return { kind: 'refused', refusal: missingField(command, action, missing) };
  for (const field of action.fields) {
    const value = filled[field.name];
    if (value === undefined) continue;
    const wrong = wrongField(command, action, field, value);
    if (wrong !== null) return { kind: 'refused', refusal: wrong };
  }
  return { kind: 'read', action, filled };
}

function told(fields: readonly Field[], options: Readonly<Record<string, string>>): Filled {
  const known = fields.filter((field) => options[field.name] !== undefined);
  return Object.fromEntries(known.map((field) => [field.name, options[field.name] ?? '']));
}

function fill(fields: readonly Field[], line: string): { readonly filled: Filled; readonly left: string } {
  const filled: Record<string, string> = {};
  const byName = new Map(fields.map((field) => [field.name, field]));
  let rest = line;
  while (rest !== '') {
    const named = /^(\p{L}+)=("([^"]*)"|“([^”]*)”|\S*)\s*/u.exec(rest);
    const field = named === null ? undefined : byName.get((named[1] ?? '').toLowerCase());
    if (
      named !== null &&
      field !== undefined &&
      field.form === 'text' &&
      named[3] === undefined &&
      named[4] === undefined
    ) {
      const { value, after } = restOfLine(rest.slice(rest.indexOf('=') + 1), byName);
      filled[field.name] = value;
      rest = after;
      continue;
    }
    if (named !== null && field !== undefined) {
      filled[field.name] = named[3] ?? named[4] ?? named[2] ?? '';
      rest = rest.slice(named[0].length);
      continue;
    }
    const next = fields.find((each) => filled[each.name] === undefined);
    if (next === undefined) break;
    if (next.form === 'text') {
      const { value, after } = restOfLine(rest, byName);
      filled[next.name] = value;
      rest = after;
      continue;
    }
    const word = /^("([^"]*)"|“([^”]*)”|\S+)\s*/u.exec(rest);
    if (word === null) break;
    filled[next.name] = word[2] ?? word[3] ?? word[1] ?? '';
    rest = rest.slice(word[0].length);
  }
  return { filled, left: rest };
}

/** A text runs to the end of the line, or to a `name=` of a field that is not yet told. */
function restOfLine(
  rest: string,
  byName: ReadonlyMap<string, Field>,
): { readonly value: string; readonly after: string } {
  for (const match of rest.matchAll(/\s(\p{L}+)=/gu)) {
    if (byName.has((match[1] ?? '').toLowerCase())) {
      return { value: rest.slice(0, match.index).trim(), after: rest.slice(match.index).trim() };
    }
  }
  return { value: rest.trim(), after: '' };
}

function shown(text: string): string {
  const cut = [...text].slice(0, SHOWN_CHARACTERS).join('');
  return cut.length < text.length ? `${cut}…` : cut;
}

/** How an action is written, for refusals and help. */
export function actionExample(command: KeptCommand, action: Action): string {
  const required = action.fields.filter((field) => field.required);
  const words = (required.length > 0 ? required : action.fields.slice(0, 1)).map((field) => field.example);
  return [command.name, action.name, ...words].join(' ');
}

function unknownAction(command: KeptCommand, typed: string): Refusal {
  const names = command.actions.map((each) => each.name);
  const near = nearest(typed.toLowerCase(), names);
  const [first] = command.actions;
  return {
    field: 'action',
    message:
      typed === ''
        ? `${command.name}: what shall be done is missing.`
        : `"${shown(typed)}" is nothing ${command.name} can do.`,
    allowed: near.length > 0 ? `perhaps ${near.join(' or ')}; all: ${names.join(', ')}` : names.join(', '),
    example: first === undefined ? command.name : actionExample(command, first),
  };
}

function leftOver(command: KeptCommand, action: Action, left: string): Refusal {
  return {
    field: 'setup',
    message: `${command.name} ${action.name}: "${shown(left)}" is left over, so nothing was done.`,
    allowed:
      action.fields.length === 0
        ? 'nothing behind it'
        : `${action.fields.map((each) => each.name).join(', ')}; put a value with blanks in quotes`,
    example: actionExample(command, action),
  };
}

function missingField(command: KeptCommand, action: Action, field: Field): Refusal {
  return {
    field: field.name,
    message: `${command.name} ${action.name}: the ${field.label.toLowerCase()} is missing.`,
    allowed: action.fields.map((each) => (each.required ? each.name : `${each.name} (if wanted)`)).join(', '),
    example: actionExample(command, action),
  };
}

function wrongField(command: KeptCommand, action: Action, field: Field, value: string): Refusal | null {
  const allowed = allowedText(field);
  if (allowed === null || fits(field, value)) return null;
  return {
    field: field.name,
    message: `${field.label}: "${shown(value)}" cannot be read.`,
    allowed,
    example: actionExample(command, action),
  };
}

function fits(field: Field, value: string): boolean {
  switch (field.form) {
    case 'whole':
      return /^\d{1,9}$/.test(value);
    case 'number':
      return /^\d{1,6}([.,]\d{1,3})?$/.test(value);
    case 'yes-no':
      return /^(yes|no)$/i.test(value);
    case 'choice':
      return (field.choices ?? []).includes(value.toLowerCase());
    case 'word':
    case 'text':
      return true;
  }
}

function allowedText(field: Field): string | null {
  switch (field.form) {
    case 'whole':
      return 'a whole number';
    case 'number':
      return 'a number, such as 13.5';
    case 'yes-no':
      return 'yes or no';
    case 'choice':
      return (field.choices ?? []).join(', ');
    case 'word':
    case 'text':
      return null;
  }
}
