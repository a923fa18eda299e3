import { describe, expect, it } from 'vitest';
import { SOURCES } from '../../src/tables/sources.ts';
import { sourceFiles } from '../support/source-files.ts';

/** Shapes and the list of works themselves; everything else under `src/tables` is rows. */
const NOT_ROWS: readonly string[] = ['src/tables/row.ts', 'src/tables/sources.ts'];

const BASES: readonly string[] = ['published', 'calculated', 'common-practice', 'memory'];

type Found = { readonly where: string; readonly row: Readonly<Record<string, unknown>> };

function isRecord(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** The rows of one export: itself when it states its basis, else each of its members. */
function rowsOf(where: string, value: unknown): readonly Found[] {
  if (Array.isArray(value)) {
    return value.flatMap((row: unknown, at) => (isRecord(row) ? [{ where: `${where}[${at}]`, row }] : []));
  }
  if (!isRecord(value)) return [];
  if ('basis' in value) return [{ where, row: value }];
  return Object.entries(value).flatMap(([key, row]) => (isRecord(row) ? [{ where: `${where}.${key}`, row }] : []));
}

/** Every object inside a row that makes a claim of its own: it states a basis, or it cites. */
function claimsIn({ where, row }: Found): readonly Found[] {
  const inner = Object.entries(row).flatMap(([key, value]): readonly Found[] => {
    if (key === 'cite') return [];
    if (Array.isArray(value)) {
      return value.flatMap((each: unknown, at) =>
        isRecord(each) ? claimsIn({ where: `${where}.${key}[${at}]`, row: each }) : [],
      );
    }
    return isRecord(value) ? claimsIn({ where: `${where}.${key}`, row: value }) : [];
  });
  return 'basis' in row || 'cite' in row ? [{ where, row }, ...inner] : inner;
}

const MODULES = await Promise.all(
  sourceFiles('src/tables')
    .filter((file) => !NOT_ROWS.includes(file.path))
    .map(async (file) => ({
      path: file.path,
      exports: (await import(/* @vite-ignore */ `../../${file.path}`)) as object,
    })),
);
const EXPORTS = MODULES.flatMap(({ path, exports }) =>
  Object.entries(exports).map(([name, value]: [string, unknown]) => ({ where: `${path} ${name}`, value })),
);
const ROWS = EXPORTS.flatMap(({ where, value }) => rowsOf(where, value));
const CLAIMS = ROWS.flatMap(claimsIn);

describe('table rows', () => {
  it('are found in every table', () => {
    expect(MODULES.length).toBeGreaterThan(10);
    expect(ROWS.length).toBeGreaterThan(150);
    const empty = EXPORTS.filter(({ where, value }) => rowsOf(where, value).length === 0);
    expect(empty.map(({ where }) => where)).toEqual([]);
  });

  it('say what they rest on', () => {
    const bad = [...ROWS, ...CLAIMS.filter(({ row }) => 'basis' in row)].filter(
      ({ row }) => typeof row.basis !== 'string' || !BASES.includes(row.basis),
    );
    expect(bad.map(({ where }) => where)).toEqual([]);
  });

  it('name a source and a place in it when they are published', () => {
    const bad = CLAIMS.filter(({ row }) => row.basis === 'published' && row.cite === undefined);
    expect(bad.map(({ where }) => where)).toEqual([]);
  });

  it('cite only known sources, each with a place a reader can find', () => {
    const bad = CLAIMS.filter(({ row }) => {
      const { cite } = row;
      if (cite === undefined) return false;
      if (!isRecord(cite) || typeof cite.source !== 'string' || typeof cite.locator !== 'string') return true;
      return !(cite.source in SOURCES) || cite.locator.trim() === '';
    });
    expect(bad.map(({ where }) => where)).toEqual([]);
  });

  it('cite nobody for what nobody published', () => {
    const bad = CLAIMS.filter(
      ({ row }) => (row.basis === 'common-practice' || row.basis === 'memory') && row.cite !== undefined,
    );
    expect(bad.map(({ where }) => where)).toEqual([]);
  });

  it('stand once: no key and no row twice in a table', () => {
    const twice = EXPORTS.flatMap(({ where, value }) => {
      if (!Array.isArray(value)) return [];
      const keys = value.map((row: unknown) =>
        isRecord(row) && typeof row.key === 'string' ? row.key : JSON.stringify(row),
      );
      return keys.filter((key, at) => keys.indexOf(key) !== at).map((key) => `${where}: ${key}`);
    });
    expect(twice).toEqual([]);
  });

  it('have no number that is not one', () => {
    const bad = ROWS.filter(({ row }) =>
      Object.values(row).some((value) => typeof value === 'number' && !Number.isFinite(value)),
    );
    expect(bad.map(({ where }) => where)).toEqual([]);
  });
});

describe('sources', () => {
  const texts = [...sourceFiles('src'), ...sourceFiles('test')]
    .filter((file) => file.path !== 'src/tables/sources.ts' && file.path !== 'test/house/tables.test.ts')
    .map((file) => file.text);

  it.each(Object.keys(SOURCES))('%s is cited by a row, a docstring or a test', (key) => {
    const named = new RegExp(`(?<![\\w-])${key}(?![\\w-])`);
    expect(texts.some((text) => named.test(text))).toBe(true);
  });

  it('each say something, and no two the same', () => {
    const works = Object.values(SOURCES);
    expect(works.every((work) => work.trim().length > 5)).toBe(true);
    expect(new Set(works).size).toBe(works.length);
  });
});
