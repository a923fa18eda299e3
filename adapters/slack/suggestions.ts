import type { KeyName } from '../../src/bike/keys.ts';
import { KEPT_COMMANDS } from '../../src/commands/kept-list.ts';
import type { Who } from '../../src/records/place.ts';
import type { Records } from '../../src/records/records.ts';
import { StorageAway } from '../../src/records/storage-away.ts';
import { type Suggested, suggest } from '../../src/suggest.ts';
import { label } from './escape.ts';
import { LIMITS } from './limits.ts';
import type { Option } from './wire.ts';

const KEY_SUGGESTIONS: Partial<Record<KeyName, Suggested>> = {
  cassette: 'cassettes',
  newcassette: 'cassettes',
  bcd: 'circles',
  wheel: 'wheels',
};
const BY_KEY = new Map<string, Suggested>(Object.entries(KEY_SUGGESTIONS));

/** What may be suggested for a field while somebody types; null where nothing is. Without an action it is a bike's key. */
export function suggestedFor(command: string, action: string, name: string): Suggested | null {
  if (action === '') return BY_KEY.get(name) ?? null;
  const actions = KEPT_COMMANDS.find((each) => each.name === command)?.actions ?? [];
  const fields = actions.find((each) => each.name === action)?.fields ?? [];
  return fields.find((each) => each.name === name)?.suggest ?? null;
}

/** The options for a field as somebody types in it. What was typed is one of them, because a list is never all there is. */
export async function optionsFor(
  field: string,
  typed: string,
  who: Who | null,
  records: Records,
): Promise<readonly Option[]> {
  const [command = '', action = '', name = ''] = field.split('|');
  const what = suggestedFor(command, action, name);
  const found = what === null || who === null ? [] : await foundFor(what, typed, who, records);
  const options = found
    .filter(({ value }) => value.length <= LIMITS.optionValue)
    .map((each): Option => ({ text: label(each.label, LIMITS.optionText), value: each.value }));
  const own = typed.trim();
  const text = label(own, LIMITS.optionText);
  const known =
    text.text.trim() === '' || own.length > LIMITS.optionValue || options.some(({ value }) => value === own);
  return known ? options : [{ text, value: own }, ...options].slice(0, LIMITS.options);
}

async function foundFor(what: Suggested, typed: string, who: Who, records: Records) {
  try {
    return await suggest(what, typed, who, records);
  } catch (error) {
    if (!(error instanceof StorageAway)) throw error;
    return [];
  }
}
