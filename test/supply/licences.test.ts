import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import parse from 'spdx-expression-parse';
import { describe, expect, it } from 'vitest';
import { ALLOWED, ALLOWED_FOR_TOOLS, licenceFaults, licenceOf, READ_FROM_FILE } from './licences.ts';
import { installedLicence, type Package, packagesOf, ROOT, readLock } from './packages.ts';

const packages = packagesOf(readLock());

function packageOf(name: string): Package {
  const found = packages.find((each) => each.path === `node_modules/${name}`);
  if (found === undefined) throw new Error(`no ${name}`);
  return found;
}

describe('every package', () => {
  it('is under a licence that is known and allowed, tools and all', () => {
    expect(packages.length).toBeGreaterThan(300);
    expect(licenceFaults(packages)).toEqual([]);
  });

  it('that names no licence is one of those whose file was read, and still names none', () => {
    const silent = packages.filter(({ path }) => installedLicence(path) === undefined).map(({ name }) => name);
    expect(new Set(silent)).toEqual(new Set(Object.keys(READ_FROM_FILE)));
  });
});

describe('the list of licences', () => {
  const allowed = Object.keys({ ...ALLOWED, ...ALLOWED_FOR_TOOLS });

  it.each(allowed)('names %s as the published list does, and a package is under it', (name) => {
    expect(parse(name)).toEqual({ license: name });
    expect(packages.some((each) => (licenceOf(each) ?? '').includes(name))).toBe(true);
  });

  it.each([
    ['GPL-3.0-only', true],
    ['AGPL-3.0-or-later', true],
    ['MIT AND GPL-2.0-only', true],
    ['SEE LICENSE IN LICENSE.txt', true],
    ['UNLICENSED', true],
    ['Unknown-1.0', true],
    ['', true],
    ['CC-BY-3.0', true],
    ['MIT OR GPL-3.0-only', false],
    ['(MIT AND OFL-1.1)', false],
    ['Apache-2.0 WITH LLVM-exception', true],
  ])('has %j refused in a program: %s', (licence, refused) => {
    const { license: _, ...zod } = packageOf('zod');
    expect(licenceFaults([zod], () => licence).length).toBe(refused ? 1 : 0);
  });

  it('has a package refused that says nothing, or another thing than the lock', () => {
    expect(licenceFaults([packageOf('zod')], () => null)).toEqual(['node_modules/zod names no licence']);
    expect(licenceFaults([packageOf('zod')], () => 'ISC')).toEqual([
      'node_modules/zod is under ISC, the lock says MIT',
    ]);
  });
});

describe('the fonts', () => {
  it('come with the licence that lets them go along', () => {
    const font = packageOf('@expo-google-fonts/barlow-semi-condensed');
    expect(licenceOf(font)).toBe('MIT AND OFL-1.1');
    const file = ['LICENSE_FONT', 'OFL.txt', 'LICENSE'].map((name) => join(ROOT, font.path, name)).find(existsSync);
    expect(readFileSync(file ?? '', 'utf8')).toContain('SIL OPEN FONT LICENSE');
  });
});
