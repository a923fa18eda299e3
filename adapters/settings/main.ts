import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { exampleFile, withTables } from './documents.ts';

// Writes what people read about the settings: the example of an environment, and the tables in the documents beside it.
const FOLDER = join(import.meta.dirname, '..', '..', 'deploy');

writeFileSync(join(FOLDER, '.env.example'), exampleFile());
for (const name of readdirSync(FOLDER).filter((each) => each.endsWith('.md'))) {
  const document = readFileSync(join(FOLDER, name), 'utf8');
  const written = withTables(document);
  if (written !== document) writeFileSync(join(FOLDER, name), written);
}
