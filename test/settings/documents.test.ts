import { readFileSync } from 'node:fs';
import { parseEnv } from 'node:util';
import { describe, expect, it } from 'vitest';
import { exampleFile, withTables } from '../../adapters/settings/documents.ts';
import { secretNames } from '../../adapters/settings/reading.ts';
import { GROUPS, Settings } from '../../adapters/settings/settings.ts';

const inDeploy = (name: string) => readFileSync(new URL(`../../deploy/${name}`, import.meta.url), 'utf8');

const EXAMPLE = inDeploy('.env.example');
const NAMES = Object.keys(Settings.shape);
const SECRETS = secretNames(Settings);

/** The example with everything that stands behind a # taken up as well. */
const filledIn = parseEnv(EXAMPLE.replaceAll(/^# (?=[A-Z_]+=)/gm, ''));

describe('the example of an environment', () => {
  it('is the one that the settings give: npm run settings:example', () => {
    expect(EXAMPLE).toBe(exampleFile());
  });

  it('has every setting, each secret a second time as a file, and nothing else', () => {
    const names = [...NAMES, ...SECRETS.map((name) => `${name}_FILE`)];
    expect(Object.keys(filledIn).toSorted()).toEqual(names.toSorted());
  });

  it('sets nothing as it is, so that it can be copied', () => {
    const told = Object.entries(parseEnv(EXAMPLE));
    expect(told.map(([name]) => name).toSorted()).toEqual([...SECRETS].toSorted());
    expect(told.filter(([, value]) => value !== '')).toEqual([]);
  });

  it('has examples that the settings take', () => {
    const given = Object.fromEntries(
      Object.entries(filledIn).filter(([name, value]) => name in Settings.shape && value),
    );
    expect(Object.keys(given).length).toBe(NAMES.length - SECRETS.length);
    expect(Settings.safeParse(given).error?.issues ?? []).toEqual([]);
  });
});

describe('the tables of settings', () => {
  it.each(['discord.md', 'slack.md'])('in %s are the ones that the settings give: npm run settings:example', (name) => {
    expect(inDeploy(name)).toBe(withTables(inDeploy(name)));
  });

  it.each([
    ['discord.md', ['discord', 'records', 'running']],
    ['slack.md', ['slack', 'records', 'running']],
  ] as const)('in %s have every setting of its program', (document, groups) => {
    const names = groups.flatMap((group) => Object.keys(GROUPS[group].settings));
    const rows = [...inDeploy(document).matchAll(/^\| `([A-Z_]+)`/gm)].map(([, name]) => name);
    expect(rows).toEqual(names);
  });

  it('leave out what stands in none of these documents only where its program has no other setting', () => {
    const documented = new Set(['discord', 'slack', 'records', 'running']);
    expect(Object.keys(GROUPS).filter((group) => !documented.has(group))).toEqual(['terminal']);
  });
});
