import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { contentsPage, copiedPaths, imagePackages, purposeFaults } from './contents.ts';
import { ROOT, readLock, readManifest } from './packages.ts';

const manifest = readManifest();
const lock = readLock();
const dockerfile = readFileSync(join(ROOT, 'deploy/Dockerfile'), 'utf8');
const page = contentsPage(manifest, lock, dockerfile);

describe('the page about the image', () => {
  it('is current, or `npm run supply -- contents` makes it so', () => {
    expect(readFileSync(join(ROOT, 'deploy/image-contents.md'), 'utf8')).toBe(page);
  });

  it('names what the Dockerfile copies', () => {
    const copied = copiedPaths(dockerfile);
    expect(copied).toEqual(expect.arrayContaining(['package.json', 'package-lock.json', 'src', 'adapters']));
    expect(copied).not.toContain('test');
    expect(page).toMatch(/\| src\/solve \| \d+ \|/);
    expect(page).not.toContain('| test');
  });

  it('says of every package we ask for what it is for', () => {
    expect(purposeFaults(manifest)).toEqual([]);
    const more = { ...manifest, dependencies: { ...manifest.dependencies, another: '1.0.0' } };
    expect(purposeFaults(more)).toEqual(['nobody says what another is for']);
  });

  it('holds no tool, and no package for another system', () => {
    const names = imagePackages(lock).map(({ name }) => name);
    expect(names).toContain('@resvg/resvg-js-linux-x64-gnu');
    expect(names.filter((name) => /win32|darwin|android|musl/.test(name))).toEqual([]);
    for (const tool of ['typescript', 'vitest', '@biomejs/biome', 'node']) expect(names).not.toContain(tool);
  });
});
