import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { KEYS } from '../../src/bike/keys.ts';
import { KEPT_COMMANDS } from '../../src/commands/kept-list.ts';
import { COMMANDS } from '../../src/commands/list.ts';
import { ask } from '../../src/workbench.ts';

const README = readFileSync(new URL('../../README.md', import.meta.url), 'utf8');
const PACKAGE = JSON.parse(readFileSync(new URL('../../package.json', import.meta.url), 'utf8')) as {
  readonly scripts: Readonly<Record<string, string>>;
};

describe('the README', () => {
  it.each(Object.entries(KEYS))('lists the key %s with its example', (name, key) => {
    expect(README).toContain(`| \`${name}\` | ${key.label} |`);
    expect(README).toContain(`\`${key.example}\``);
  });

  it.each([...COMMANDS, ...KEPT_COMMANDS].map((command) => command.name))('names the command %s', (name) => {
    expect(README).toContain(`| \`${name}\` |`);
  });

  it('starts only scripts there are', () => {
    const started = [...README.matchAll(/npm (?:run (?:-s )?)?([a-z][a-z:-]*)/g)].map((match) => match[1] ?? '');
    const own = started.filter((name) => !['ci', 'run'].includes(name));
    expect(own.length).toBeGreaterThan(2);
    expect(own.filter((name) => !(name in PACKAGE.scripts))).toEqual([]);
  });

  it('shows the card of its first command as it is', () => {
    const [, setup] = /ask -- convert "([^"]+)"/.exec(README) ?? [];
    const reply = ask({ command: 'convert', setup: setup ?? '' });
    expect(reply.kind).toBe('answered');
    const firstLines = [reply.card.answer, ...reply.card.lines];
    const shown = README.replaceAll(/\s+/g, ' ');
    for (const line of firstLines) expect(shown).toContain(line.replaceAll(/\s+/g, ' '));
  });
});
