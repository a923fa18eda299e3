import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { copiedPaths } from './contents.ts';
import { npm } from './npm.ts';
import { ROOT } from './packages.ts';

/** As the Dockerfile installs, from what this machine has fetched before wherever it can. */
const INSTALL = ['ci', '--omit=dev', '--ignore-scripts', '--prefer-offline', '--no-audit', '--no-fund'];

/** A folder with what the Dockerfile copies and the packages that run, and nothing else. */
export type Production = {
  readonly folder: string;
  /** Every installed package by place, such as `node_modules/zod`. */
  readonly installed: readonly string[];
  /** The list of parts that npm writes of it, in the form CycloneDX. */
  readonly parts: () => Promise<unknown>;
  readonly remove: () => void;
};

export async function installProduction(): Promise<Production> {
  const folder = mkdtempSync(join(tmpdir(), 'ringwright-production-'));
  const dockerfile = readFileSync(join(ROOT, 'deploy/Dockerfile'), 'utf8');
  for (const path of copiedPaths(dockerfile)) cpSync(join(ROOT, path), join(folder, path), { recursive: true });
  const { code, stderr } = await npm(INSTALL, folder);
  if (code !== 0) throw new Error(`npm ci ended with ${code}: ${stderr.trim()}`);
  return {
    folder,
    installed: placesIn(folder, 'node_modules').toSorted(),
    parts: async () => {
      // Tools that are not there would be reported as missing; left out by a flag, npm leaves out what they share as well.
      const file = join(folder, 'package.json');
      const { devDependencies: _, ...manifest } = JSON.parse(readFileSync(file, 'utf8')) as Record<string, unknown>;
      writeFileSync(file, JSON.stringify(manifest));
      return JSON.parse((await npm(['sbom', '--sbom-format', 'cyclonedx'], folder)).stdout);
    },
    remove: () => rmSync(folder, { recursive: true, force: true }),
  };
}

/** The places of packages below a folder `node_modules`, those within packages too. */
function placesIn(root: string, modules: string): readonly string[] {
  const names = foldersIn(join(root, modules)).flatMap((name) =>
    name.startsWith('@') ? foldersIn(join(root, modules, name)).map((each) => `${name}/${each}`) : [name],
  );
  return names.flatMap((name) => {
    const place = `${modules}/${name}`;
    return [place, ...placesIn(root, `${place}/node_modules`)];
  });
}

function foldersIn(folder: string): readonly string[] {
  try {
    const entries = readdirSync(folder, { withFileTypes: true });
    return entries.filter((each) => each.isDirectory() && !each.name.startsWith('.')).map(({ name }) => name);
  } catch (error) {
    if (error instanceof Error && 'code' in error && error.code === 'ENOENT') return [];
    throw error;
  }
}
