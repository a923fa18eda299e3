import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, posix, relative, sep } from 'node:path';
import { fileURLToPath } from 'node:url';

const ROOT = join(dirname(fileURLToPath(import.meta.url)), '..', '..');

/** An import or re-export as it stands in a file: where it points, and whether it is gone at run time. */
export type Import = { readonly to: string; readonly typeOnly: boolean };

export type SourceFile = { readonly path: string; readonly text: string; readonly imports: readonly Import[] };

/** Every TypeScript file under a folder of the repository, with its imports resolved to repository paths. */
export function sourceFiles(folder: string): readonly SourceFile[] {
  return readdirSync(join(ROOT, folder), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && entry.name.endsWith('.ts'))
    .map((entry) => {
      const full = join(entry.parentPath, entry.name);
      const path = relative(ROOT, full).split(sep).join('/');
      const text = readFileSync(full, 'utf8');
      return { path, text, imports: importsOf(path, text) };
    });
}

// Statements begin a line: the formatter sees to that, and it keeps examples inside comments and strings out.
const STATIC = /^(?:import|export)\s+(type\s+)?[^'";]*?\bfrom\s+'([^']+)'/gm;
const BARE = /^import\s+'([^']+)'/gm;
const DYNAMIC = /\bimport\(\s*'([^']+)'\s*\)/g;

function importsOf(path: string, text: string): readonly Import[] {
  const found: Import[] = [];
  const add = (to: string, typeOnly: boolean) => {
    found.push({ to: to.startsWith('.') ? posix.join(posix.dirname(path), to) : to, typeOnly });
  };
  for (const [, type, to] of text.matchAll(STATIC)) if (to !== undefined) add(to, type !== undefined);
  for (const [, to] of text.matchAll(BARE)) if (to !== undefined) add(to, false);
  for (const [, to] of text.matchAll(DYNAMIC)) if (to !== undefined) add(to, false);
  return found;
}
