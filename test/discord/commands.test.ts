import { describe, expect, it } from 'vitest';
import { wantedCommands } from '../../adapters/discord/commands.ts';
import { LIMITS, registrationFaults } from '../../adapters/discord/limits.ts';
import { changeLines, changesBetween, isChanged } from '../../adapters/discord/register.ts';
import type { CommandOption, RegisteredCommand } from '../../adapters/discord/wire.ts';
import { KEYS, type Key, type KeyName } from '../../src/bike/keys.ts';
import { KEPT_COMMANDS } from '../../src/commands/kept-list.ts';
import { COMMANDS, TOPIC_COMMANDS } from '../../src/commands/list.ts';
import { commandSchemaFaults } from '../support/discord-rules.ts';

const WANTED = wantedCommands();
const byName = (name: string) => WANTED.find((command) => command.name === name);
const everyOption = (options: readonly CommandOption[]): readonly CommandOption[] =>
  options.flatMap((option) => [option, ...everyOption(option.options ?? [])]);

describe('the commands', () => {
  it('are every command there is, each once, and two on a message', () => {
    const slash = WANTED.filter(({ type }) => type === 1).map(({ name }) => name);
    const there = [...COMMANDS.map(({ name }) => name), ...TOPIC_COMMANDS, ...KEPT_COMMANDS.map(({ name }) => name)];
    expect(slash).toEqual(there);
    expect(registrationFaults(WANTED)).toEqual([]);
    const tooMany = Array.from({ length: LIMITS.slashCommands + 1 }, () => WANTED[0]).filter(
      (each) => each !== undefined,
    );
    expect(registrationFaults(tooMany)).toContain(`${tooMany.length} commands`);
    expect(WANTED.filter(({ type }) => type === 3).length).toBe(2);
  });

  it.each(WANTED)('$name passes the platform’s own schema and every rule of its documentation', (command) => {
    expect(registrationFaults([command])).toEqual([]);
    expect(commandSchemaFaults(command)).toEqual([]);
  });

  it('take the line first, then keys by their own names and within their own bounds', () => {
    for (const { name, keys } of COMMANDS) {
      const options = byName(name)?.options ?? [];
      expect(options.slice(0, 3).map((option) => option.name)).toEqual(['setup', 'bike', 'code']);
      expect(options.slice(3).map((option) => option.name)).toEqual(keys.slice(0, 22));
      for (const option of options.slice(3)) {
        const key: Key = KEYS[option.name as KeyName];
        if (option.type === 4 || option.type === 10)
          expect([option.min_value, option.max_value]).toEqual([key.low, key.high]);
        if (key.choices !== undefined) expect(option.choices?.map(({ value }) => value)).toEqual(key.choices);
      }
    }
  });

  it('suggest cassettes, circles, wheels, bikes, answers given, topics and jobs', () => {
    const suggested = new Set(
      everyOption(WANTED.flatMap((command) => command.options ?? [])).flatMap((each) =>
        each.autocomplete ? [each.name] : [],
      ),
    );
    for (const name of ['cassette', 'newcassette', 'bcd', 'wheel', 'bike', 'code', 'topic', 'job', 'name', 'from']) {
      expect(suggested).toContain(name);
    }
  });

  it('have all their texts in a second language, and none in two ways', () => {
    for (const each of [...WANTED, ...everyOption(WANTED.flatMap((command) => command.options ?? []))]) {
      expect(each.name_localizations.de, each.name).toBeTruthy();
      if (each.description !== undefined) {
        expect(each.description_localizations?.de, each.name).toBeTruthy();
        expect(each.description, each.name).not.toMatch(/…$/);
      }
    }
  });

  it('are kept from those who do not run or moderate a server, where they change it for all', () => {
    expect(byName('settings')).toMatchObject({ default_member_permissions: '32', contexts: [0] });
    expect(byName('Pin as standard answer')).toMatchObject({ default_member_permissions: '8192', contexts: [0] });
    expect(byName('convert')).toMatchObject({
      default_member_permissions: null,
      contexts: [0, 1, 2],
      integration_types: [0, 1],
    });
  });
});

describe('our own rules of commands', () => {
  const option = (name: string, more: Partial<CommandOption> = {}): CommandOption => ({
    type: 3,
    name,
    name_localizations: {},
    description: 'x',
    description_localizations: {},
    ...more,
  });
  const command = (options: readonly CommandOption[], more: Partial<RegisteredCommand> = {}): RegisteredCommand => ({
    type: 1,
    name: 'x',
    name_localizations: {},
    description: 'x',
    description_localizations: {},
    options,
    default_member_permissions: null,
    contexts: [0],
    integration_types: [0],
    ...more,
  });

  it.each([
    ['a required option after one that is not', command([option('a'), option('b', { required: true })])],
    ['a name with a capital', command([option('Big')])],
    ['a name with a blank', command([option('a b')])],
    ['a name twice', command([option('a'), option('a')])],
    [
      'choices and suggestions together',
      command([option('a', { autocomplete: true, choices: [{ name: 'a', value: 'a' }] })]),
    ],
    ['26 options', command(Array.from({ length: 26 }, (_, index) => option(`o${index}`)))],
    ['a description of 101', command([option('a', { description: 'x'.repeat(101) })])],
    [
      'more than 8000 characters in all',
      command(
        Array.from({ length: 25 }, (_, index) =>
          option(`o${index}`, {
            choices: Array.from({ length: 25 }, (_, n) => ({ name: 'x'.repeat(20), value: `${n}` })),
          }),
        ),
      ),
    ],
  ])('catch %s', (_, wrong) => {
    expect(registrationFaults([wrong])).not.toEqual([]);
  });
});

describe('registering', () => {
  /** As the platform gives them back: with ids, with defaults, and without what is empty. */
  const registered = WANTED.map((command, index) => ({
    ...JSON.parse(JSON.stringify(command)),
    id: String(index),
    application_id: '1',
    version: '1',
    nsfw: false,
    description: command.description ?? '',
    description_localizations: command.description_localizations ?? null,
    contexts: [...command.contexts].reverse(),
  }));

  it('changes nothing where all is as it should be', () => {
    const changes = changesBetween(registered, WANTED);
    expect(isChanged(changes)).toBe(false);
    expect(changeLines(changes)).toEqual([`${WANTED.length} of ${WANTED.length} are as they should be.`]);
  });

  it('names what it would add, change and remove', () => {
    const [first, second, ...rest] = registered;
    const before = [{ ...second, description: 'another' }, ...rest, { type: 1, name: 'old', description: 'x' }];
    expect(first.name).toBe('convert');
    expect(changesBetween(before, WANTED)).toMatchObject({
      added: ['/convert'],
      changed: ['/gears'],
      removed: ['/old'],
    });
  });

  it('sees another language, another bound and another order of options', () => {
    const [first, ...rest] = registered;
    const other = (change: (options: readonly CommandOption[]) => readonly CommandOption[]) => {
      const copy = { ...first, options: change(first.options) };
      return changesBetween([copy, ...rest], WANTED).changed;
    };
    const changed = (at: number, more: object) => (options: readonly CommandOption[]) =>
      options.map((each, index) => (index === at ? { ...each, ...more } : each));
    expect(other((options) => options)).toEqual([]);
    expect(other(changed(0, { name_localizations: { de: 'x' } }))).toEqual(['/convert']);
    expect(other(changed(5, { max_value: 99 }))).toEqual(['/convert']);
    expect(other((options) => [...options].reverse())).toEqual(['/convert']);
  });
});
