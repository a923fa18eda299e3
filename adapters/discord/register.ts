import { COMMAND, type RegisteredCommand } from './wire.ts';

/** What registering would change, by the names of commands. */
export type Changes = {
  readonly added: readonly string[];
  readonly changed: readonly string[];
  readonly removed: readonly string[];
  readonly same: readonly string[];
};

/** What is registered against what should be. */
export function changesBetween(registered: readonly unknown[], wanted: readonly RegisteredCommand[]): Changes {
  const before = new Map(registered.map((each) => [keyOf(each), comparable(each)]));
  const after = new Map(wanted.map((each) => [keyOf(each), comparable(each)]));
  const names = [...after.keys()];
  return {
    added: names.filter((key) => !before.has(key)),
    changed: names.filter((key) => before.has(key) && before.get(key) !== after.get(key)),
    removed: [...before.keys()].filter((key) => !after.has(key)),
    same: names.filter((key) => before.get(key) === after.get(key)),
  };
}

/** The changes in words, one line each. */
export function changeLines({ added, changed, removed, same }: Changes): readonly string[] {
  return [
    ...added.map((name) => `add      ${name}`),
    ...changed.map((name) => `change   ${name}`),
    ...removed.map((name) => `remove   ${name}`),
    `${same.length} of ${same.length + added.length + changed.length} are as they should be.`,
  ];
}

export function isChanged({ added, changed, removed }: Changes): boolean {
  return added.length + changed.length + removed.length > 0;
}

function keyOf(command: unknown): string {
  const { type = COMMAND.slash, name } = command as { readonly type?: number; readonly name: string };
  return type === COMMAND.slash ? `/${name}` : name;
}

/** What we say of a command; the platform adds its own, and leaves out or spells out what is empty. */
const SAID = [
  'type',
  'name',
  'name_localizations',
  'description',
  'description_localizations',
  'options',
  'required',
  'choices',
  'value',
  'min_value',
  'max_value',
  'max_length',
  'autocomplete',
  'default_member_permissions',
  'contexts',
  'integration_types',
] as const;

/** Texts by language have the platform's keys, not ours. */
const BY_LANGUAGE: readonly string[] = ['name_localizations', 'description_localizations'];

function comparable(value: unknown): string {
  return JSON.stringify(told(value, false));
}

function told(value: unknown, everyKey: boolean): unknown {
  if (Array.isArray(value)) return value.map((each) => told(each, false));
  if (typeof value !== 'object' || value === null) return value;
  const keys = everyKey ? Object.keys(value).sort() : SAID;
  const fields = keys.flatMap((key) => {
    const each = (value as Readonly<Record<string, unknown>>)[key];
    const kept = told(
      key === 'contexts' || key === 'integration_types' ? sorted(each) : each,
      BY_LANGUAGE.includes(key),
    );
    return isEmpty(kept) ? [] : [[key, kept] as const];
  });
  return Object.fromEntries(fields);
}

function sorted(value: unknown): unknown {
  return Array.isArray(value) ? [...value].sort() : value;
}

function isEmpty(value: unknown): boolean {
  if (value === undefined || value === null || value === false || value === '') return true;
  return typeof value === 'object' && Object.keys(value).length === 0;
}
