import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { Ajv, type ValidateFunction } from 'ajv';
import { createGenerator } from 'ts-json-schema-generator';
import type { Json } from './slack-payloads.ts';

/** "Maximum length for this field is 255 characters", in the words of the platform's own types. */
const TEXT_LIMIT = /[Mm]ax(?:imum)?\.? length (?:for|of)[^.]*?(?:is )?(\d[\d,]*)\s+characters/;
const LIST_LIMIT = /(?:[Mm]aximum number of (?:items|options) is|[Mm]aximum of|Max of) (\d+)/;

/**
 * Validators made from `@slack/types`, the platform's published types, with the limits that stand in the words beside
 * them. Nothing here was written by us but the reading of those words.
 */
export function blockSchema(): {
  readonly faultsOf: (blocks: readonly unknown[]) => readonly string[];
  readonly viewFaultsOf: (view: { readonly blocks: readonly unknown[] }) => readonly string[];
  readonly limits: number;
} {
  const types = createRequire(createRequire(import.meta.url).resolve('@slack/bolt')).resolve('@slack/types');
  const path = join(dirname(types), 'index.d.ts');
  const generator = createGenerator({ path, skipTypeCheck: true, additionalProperties: false, expose: 'all' });
  const schema = generator.createSchema('*') as { definitions: Record<string, Json> };
  let limits = 0;
  for (const definition of Object.values(schema.definitions)) limits += lift(definition);
  const ajv = new Ajv({ allErrors: false, strict: false });
  ajv.addSchema(schema, 'slack');
  const compiled = new Map<string, ValidateFunction>();
  const validator = (name: string): ValidateFunction => {
    const known = compiled.get(name) ?? ajv.compile({ $ref: `slack#/definitions/${name}` });
    compiled.set(name, known);
    return known;
  };
  const faults = (name: string, value: unknown) => {
    const validate = validator(name);
    if (validate(value)) return [];
    const [first] = validate.errors ?? [];
    return [`${name}${first?.instancePath ?? ''} ${first?.message ?? ''} ${JSON.stringify(first?.params)}`];
  };
  const faultsOf = (blocks: readonly unknown[]) => blocks.flatMap((block) => faults(nameOf(block), block));
  return {
    limits,
    faultsOf,
    viewFaultsOf: (view) => [
      ...faults((view as Json).type === 'home' ? 'HomeView' : 'ModalView', view),
      ...faultsOf(view.blocks),
    ],
  };
}

const NAMES: Readonly<Record<string, string>> = {
  rich_text: 'RichTextBlock',
  context: 'ContextBlock',
  divider: 'DividerBlock',
  image: 'ImageBlock',
  actions: 'ActionsBlock',
  input: 'InputBlock',
};

/** The definition of a block by its type: the union of all would only say that none fits. */
function nameOf(block: unknown): string {
  return NAMES[String((block as Json).type)] ?? 'KnownBlock';
}

/** Turns the limits in the words of a definition into limits of the schema; gives how many there were. */
function lift(definition: Json): number {
  const properties = (definition.properties ?? {}) as Record<string, Json>;
  let found = 0;
  for (const [name, property] of Object.entries(properties)) {
    const words = String(property.description ?? '').replaceAll(/\s+/g, ' ');
    const text = TEXT_LIMIT.exec(words)?.[1]?.replace(',', '');
    const list = LIST_LIMIT.exec(words)?.[1];
    if (text !== undefined && property.type === 'string') {
      properties[name] = { ...property, maxLength: Number(text) };
      found += 1;
    } else if (text !== undefined && '$ref' in property) {
      // The limit is that of the text within.
      const inner = { properties: { text: { type: 'string', maxLength: Number(text) } } };
      properties[name] = { allOf: [property, inner] };
      found += 1;
    } else if (list !== undefined && property.type === 'array') {
      properties[name] = { ...property, maxItems: Number(list) };
      found += 1;
    }
  }
  for (const part of [definition.allOf, definition.anyOf].flatMap((parts) => (parts ?? []) as Json[]))
    found += lift(part);
  return found;
}
