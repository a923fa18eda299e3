import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { z } from 'zod';

export const ROOT = fileURLToPath(new URL('../..', import.meta.url));

/** As much of `package.json` as is looked at here. */
export const Manifest = z.object({
  name: z.string(),
  version: z.string(),
  dependencies: z.record(z.string(), z.string()),
  devDependencies: z.record(z.string(), z.string()),
  allowScripts: z.record(z.string(), z.boolean()),
});
export type Manifest = z.infer<typeof Manifest>;

const Entry = z.object({
  version: z.string().optional(),
  resolved: z.string().optional(),
  integrity: z.string().optional(),
  license: z.string().optional(),
  link: z.boolean().optional(),
  dev: z.boolean().default(false),
  devOptional: z.boolean().default(false),
  optional: z.boolean().default(false),
  hasInstallScript: z.boolean().default(false),
  os: z.array(z.string()).default([]),
  cpu: z.array(z.string()).default([]),
  libc: z.array(z.string()).default([]),
  dependencies: z.record(z.string(), z.string()).default({}),
  optionalDependencies: z.record(z.string(), z.string()).default({}),
  devDependencies: z.record(z.string(), z.string()).default({}),
});
type Entry = z.infer<typeof Entry>;

/** As much of `package-lock.json` as is looked at here: the project under an empty name, each package under its place. */
export const Lock = z.object({ lockfileVersion: z.number(), packages: z.record(z.string(), Entry) });
export type Lock = z.infer<typeof Lock>;

/** A package as it is locked. */
export type Package = Entry & {
  /** Its place, such as `node_modules/zod`. */
  readonly path: string;
  readonly name: string;
  /** Whether it is needed when the programs run. */
  readonly production: boolean;
};

export function readManifest(): Manifest {
  return Manifest.parse(JSON.parse(readFileSync(join(ROOT, 'package.json'), 'utf8')));
}

export function readLock(): Lock {
  return Lock.parse(JSON.parse(readFileSync(join(ROOT, 'package-lock.json'), 'utf8')));
}

/** Every locked package but the project itself, by place. */
export function packagesOf({ packages }: Lock): readonly Package[] {
  return Object.entries(packages)
    .filter(([path]) => path !== '')
    .map(([path, entry]) => {
      const name = path.slice(path.lastIndexOf('node_modules/') + 'node_modules/'.length);
      return { ...entry, path, name, production: !(entry.dev || entry.devOptional) };
    });
}

/** Whether a package is made for the machine of the image: Linux with the usual C library. */
export function isForImage({ os, libc }: Package): boolean {
  return takes(os, 'linux') && takes(libc, 'glibc');
}

/** A list of names of which some may be taken out by a mark; an empty one takes everything. */
function takes(list: readonly string[], name: string): boolean {
  if (list.includes(`!${name}`)) return false;
  return list.every((each) => each.startsWith('!')) || list.includes(name);
}

const Installed = z.object({ license: z.string().optional() });

/** What an installed package says of its own licence; `undefined` where it says nothing, null where it is not installed. */
export function installedLicence(path: string): string | undefined | null {
  const file = join(ROOT, path, 'package.json');
  return existsSync(file) ? Installed.parse(JSON.parse(readFileSync(file, 'utf8'))).license : null;
}
