import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseAllDocuments } from 'yaml';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));

export const DEPLOY = join(ROOT, 'deploy');

export function isInRepository(path: string): boolean {
  return existsSync(join(ROOT, path));
}

export function fileText(path: string): string {
  return readFileSync(join(ROOT, path), 'utf8');
}

/** The documents of a YAML text. A key that stands twice, and anything else that is only nearly YAML, is refused. */
export function yamlDocuments(text: string): readonly unknown[] {
  // Merged keys are how a compose file says the same once.
  const documents = parseAllDocuments(text, { uniqueKeys: true, merge: true });
  if (!Array.isArray(documents)) return [];
  for (const { errors, warnings } of documents) {
    const [first] = [...errors, ...warnings];
    if (first !== undefined) throw first;
  }
  return documents.map((document): unknown => document.toJS()).filter((each) => each !== null);
}
