import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { secretNames } from '../../adapters/settings/reading.ts';
import { Settings } from '../../adapters/settings/settings.ts';
import { sourceFiles } from '../support/source-files.ts';

const KNOWN: ReadonlySet<string> = new Set([
  ...Object.keys(Settings.shape),
  ...secretNames(Settings).map((name) => `${name}_FILE`),
]);

/** What nobody sets by hand: a terminal says of itself what it is. */
const NOT_SET_BY_HAND: ReadonlySet<string> = new Set(['TERM']);

/** Named like settings, and read by tests alone: more work, and other places for what they leave behind. */
const OF_TESTS: ReadonlySet<string> = new Set([
  'DISCORD_SCREENS',
  'RINGWRIGHT_BROWSER',
  'RINGWRIGHT_CHAOS_SEED',
  'RINGWRIGHT_KILLS',
  'RINGWRIGHT_SHOTS',
]);

// `env.NAME`, `env['NAME']`, `{ NAME, OTHER: here = 1 } = … env`: the ways there are to read a variable.
const MEMBER = /\benv(?:\.|\??\.?\[\s*['"`])([A-Z][A-Z0-9_]*)\b/g;
const TAKEN_APART = /\{([^{}]*)\}\s*=\s*(?:process\.)?env\b/g;

function namesRead(text: string): readonly string[] {
  const members = [...text.matchAll(MEMBER)].map(([, name]) => name ?? '');
  const taken = [...text.matchAll(TAKEN_APART)].flatMap(
    ([, names]) => (names ?? '').match(/\b[A-Z][A-Z0-9_]*\b/g) ?? [],
  );
  return [...members, ...taken];
}

const LOOKS_OURS = '(?:DISCORD|SLACK|RINGWRIGHT|DATABASE|WATCH)_[A-Z0-9_]+|LOG_LEVEL';

/** Names of settings in words and types: they look like ours, and must be ours. */
const OURS_BY_LOOK = new RegExp(`['"\`](?:${LOOKS_OURS})\\b`, 'g');

describe('every variable that is read', () => {
  it('is found, however it is read', () => {
    const text = `const { A_ONE, B_TWO: two } = process.env; env.C_THREE ?? process.env['D_FOUR'] ?? env?.["E_FIVE"];`;
    expect(namesRead(text).toSorted()).toEqual(['A_ONE', 'B_TWO', 'C_THREE', 'D_FOUR', 'E_FIVE']);
  });

  it('by the program is one of the settings', () => {
    const files = [...sourceFiles('src'), ...sourceFiles('adapters')];
    const read = files.flatMap(({ path, text }) => namesRead(text).map((name) => ({ path, name })));
    expect(read.map(({ name }) => name)).toContain('NO_COLOR');
    expect(read.filter(({ name }) => !KNOWN.has(name) && !NOT_SET_BY_HAND.has(name))).toEqual([]);
  });

  it('by a test is one of the settings, or listed as a thing of tests, where it is named like one', () => {
    const ours = new RegExp(`^(?:${LOOKS_OURS})$`);
    const read = sourceFiles('test')
      .flatMap(({ path, text }) => namesRead(text).map((name) => ({ path, name })))
      .filter(({ name }) => ours.test(name));
    expect(read.map(({ name }) => name)).toContain('RINGWRIGHT_KILLS');
    expect(read.filter(({ name }) => !KNOWN.has(name) && !OF_TESTS.has(name))).toEqual([]);
  });
});

describe('every setting that is spoken of', () => {
  it('in the program there is', () => {
    const spoken = [...sourceFiles('src'), ...sourceFiles('adapters')].flatMap(({ path, text }) =>
      (text.match(OURS_BY_LOOK) ?? []).map((name) => ({ path, name: name.slice(1) })),
    );
    expect(spoken.length).toBeGreaterThan(10);
    expect(spoken.filter(({ name }) => !KNOWN.has(name))).toEqual([]);
  });

  it('in the documents there is', () => {
    const folder = new URL('../../deploy/', import.meta.url);
    const documents = readdirSync(folder).filter((name) => name.endsWith('.md'));
    const texts = [
      ...documents.map((name) => readFileSync(new URL(name, folder), 'utf8')),
      ...['README.md', 'DEVELOPERS.md'].map((name) => readFileSync(new URL(`../../${name}`, import.meta.url), 'utf8')),
    ];
    const spoken = texts.flatMap((text) => text.match(OURS_BY_LOOK) ?? []).map((name) => name.slice(1));
    expect(spoken).toContain('DISCORD_TOKEN_FILE');
    expect(spoken.filter((name) => !KNOWN.has(name) && !OF_TESTS.has(name))).toEqual([]);
  });
});

describe('the terminal', () => {
  const byPath = new Map([...sourceFiles('src'), ...sourceFiles('adapters')].map((file) => [file.path, file]));
  const reachedFrom = (start: string) => {
    const reached = new Set<string>();
    const walk = (path: string) => {
      if (reached.has(path)) return;
      reached.add(path);
      for (const { to, typeOnly } of byPath.get(path)?.imports ?? []) if (!typeOnly) walk(to);
    };
    walk(start);
    return [...reached];
  };

  it('never loads the list of settings, and no package to find its records', () => {
    expect(reachedFrom('adapters/discord/main.ts')).toContain('adapters/settings/settings.ts');
    const terminal = reachedFrom('adapters/terminal/main.ts');
    expect(terminal).toContain('adapters/settings/record-place.ts');
    expect(terminal).not.toContain('adapters/settings/settings.ts');
    const packages = reachedFrom('adapters/settings/record-place.ts').filter((path) => !byPath.has(path));
    expect(packages).toEqual(['node:fs']);
  });
});
