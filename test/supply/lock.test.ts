import { describe, expect, it } from 'vitest';
import { lockFaults } from './lock-rules.ts';
import { npm } from './npm.ts';
import { type Lock, packagesOf, readLock, readManifest } from './packages.ts';

const manifest = readManifest();
const lock = readLock();

/** The lock with something changed in one package. */
function changed(path: string, change: Readonly<Record<string, unknown>>): Lock {
  const entry = lock.packages[path];
  if (entry === undefined) throw new Error(`no ${path}`);
  return { ...lock, packages: { ...lock.packages, [path]: { ...entry, ...change } } };
}

describe('the lock file', () => {
  it('brings in just what was looked at', () => {
    expect(packagesOf(lock).length).toBeGreaterThan(300);
    expect(lockFaults(manifest, lock)).toEqual([]);
  });

  it('agrees with what is installed', { timeout: 120_000 }, async () => {
    const { code, stderr } = await npm(['ls', '--all', '--json']);
    expect(stderr).toBe('');
    expect(code).toBe(0);
  });
});

describe('a lock is refused that', () => {
  it.each([
    ['has no checksum for a package', 'node_modules/zod', { integrity: undefined }, 'no checksum'],
    ['has a weak checksum', 'node_modules/zod', { integrity: 'sha1-2jmj7l5rSw0yVb/vlWAYkK/YBwk=' }, 'not SHA-512'],
    ['has half a checksum', 'node_modules/zod', { integrity: 'sha512-abc' }, 'not SHA-512'],
    ['names an address', 'node_modules/zod', { resolved: 'https://x.example/zod.tgz' }, 'names the address'],
    ['links to a folder', 'node_modules/zod', { link: true }, 'is a link'],
    ['has another version', 'node_modules/zod', { version: '4.6.6' }, 'locked as 4.6.6'],
    ['takes a package from a repository', 'node_modules/pg', { dependencies: { x: 'github:a/b' } }, 'takes x from'],
    [
      'takes a package from anywhere',
      'node_modules/pg',
      { dependencies: { x: 'https://x.example/x' } },
      'takes x from',
    ],
    ['takes a package from a short name', 'node_modules/pg', { dependencies: { x: 'a/b#main' } }, 'takes x from'],
    ['takes a package from the disk', 'node_modules/pg', { dependencies: { x: 'file:../x' } }, 'takes x from'],
    ['runs a script nobody allowed', 'node_modules/vitest', { hasInstallScript: true }, 'wants to run a script'],
    ['runs a script in production', 'node_modules/pg', { hasInstallScript: true }, 'runs in production'],
  ])('%s', (_, path, change, words) => {
    expect(lockFaults(manifest, changed(path, change)).join('\n')).toContain(words);
  });

  it('was made from another manifest', () => {
    const dependencies = { ...manifest.dependencies, zod: '4.6.8' };
    expect(lockFaults({ ...manifest, dependencies }, lock).join('\n')).toContain('zod is wanted as 4.6.8');
    const more = { ...manifest.dependencies, another: '1.0.0' };
    expect(lockFaults({ ...manifest, dependencies: more }, lock).join('\n')).toContain('another is wanted as 1.0.0');
  });

  it.each(['^4.6.7', '~4.6.7', '*', 'latest', '4.x', '4.6.7 || 5.0.0', 'git+ssh://x.example/zod'])(
    'leaves open which version is wanted: %s',
    (zod) => {
      const dependencies = { ...manifest.dependencies, zod };
      expect(lockFaults({ ...manifest, dependencies }, lock).join('\n')).toContain('no one version');
    },
  );

  it('allows a script to a package that has none', () => {
    const allowScripts = { ...manifest.allowScripts, zod: true };
    expect(lockFaults({ ...manifest, allowScripts }, lock)).toEqual(['zod is allowed a script and has none']);
  });
});
