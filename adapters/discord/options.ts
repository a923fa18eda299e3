import { KEYS, type Key, type KeyName } from '../../src/bike/keys.ts';
import type { Field } from '../../src/commands/kept.ts';
import { KEPT_COMMANDS } from '../../src/commands/kept-list.ts';
import { COMMANDS } from '../../src/commands/list.ts';
import type { Suggested } from '../../src/suggest.ts';
import { LIMITS } from './limits.ts';

/** Options of a question besides its keys: the line itself, a kept bike, and an answer given before. */
export const LINE_OPTIONS = ['setup', 'bike', 'code'] as const;

export type LineOption = (typeof LINE_OPTIONS)[number];

/** Room for keys beside them; the others are told in the line. */
const MOST_KEYS = LIMITS.options - LINE_OPTIONS.length;

/** The keys of a command that are options of their own, the most telling first. */
export function optionKeys(keys: readonly KeyName[]): readonly KeyName[] {
  return keys.slice(0, MOST_KEYS);
}

const SUGGESTED_KEYS: Partial<Readonly<Record<KeyName, Suggested>>> = {
  cassette: 'cassettes',
  newcassette: 'cassettes',
  bcd: 'circles',
  wheel: 'wheels',
};

/** How a key is picked: with what the platform checks by itself, the rest is read from text like in the line. */
export function keyForm(name: KeyName): { readonly form: Field['form']; readonly suggested: Suggested | null } {
  const { form }: Key = KEYS[name];
  const suggested = SUGGESTED_KEYS[name] ?? null;
  switch (form) {
    case 'teeth':
    case 'whole':
      return { form: 'whole', suggested };
    case 'number':
      return { form: 'number', suggested };
    case 'choice':
      return { form: 'choice', suggested };
    case 'yes-no':
      return { form: 'yes-no', suggested };
    case 'teeth-list':
    case 'cassette':
    case 'lengths':
    case 'wheel':
      return { form: 'word', suggested };
  }
}

/** What may be suggested for an option while it is typed; null where nothing is. */
export function suggestedFor(command: string, action: string | null, option: string): Suggested | null {
  if (action !== null) return fieldOf(command, action, option)?.suggest ?? null;
  if (!COMMANDS.some((each) => each.name === command)) return null;
  if (option === 'bike') return 'bikes';
  if (option === 'code') return 'receipts';
  return isKey(option) ? keyForm(option).suggested : null;
}

/** Whether what is picked must be sent as a number. */
export function isNumberOption(command: string, action: string | null, option: string): boolean {
  const form = action === null ? (isKey(option) ? keyForm(option).form : null) : fieldOf(command, action, option)?.form;
  return form === 'whole' || form === 'number';
}

function fieldOf(command: string, action: string, option: string): Field | undefined {
  const actions = KEPT_COMMANDS.find((each) => each.name === command)?.actions ?? [];
  return actions.find((each) => each.name === action)?.fields.find((each) => each.name === option);
}

function isKey(name: string): name is KeyName {
  return Object.hasOwn(KEYS, name);
}
