import { describe, expect, it } from 'vitest';
import { type Import, type SourceFile, sourceFiles } from '../support/source-files.ts';

/** Each folder of `src` and the folders its files may import, itself included. `src` is the desk and its request. */
const MAY_IMPORT: Readonly<Record<string, readonly string[]>> = {
  tables: ['tables'],
  solve: ['tables', 'solve'],
  draw: ['tables', 'solve', 'draw'],
  bike: ['tables', 'bike'],
  records: ['tables', 'bike', 'records'],
  card: ['tables', 'solve', 'bike', 'records', 'card'],
  commands: ['tables', 'solve', 'bike', 'records', 'card', 'commands'],
  src: ['tables', 'solve', 'bike', 'card', 'commands', 'records', 'src'],
};

/** Types that may be imported against the grain: the shapes an answer has, which cards put into words. */
const SHARED_TYPES: readonly string[] = ['src/commands/answer.ts', 'src/commands/command.ts', 'src/request.ts'];

/** What a figure is made of, for the cards that carry one; and how a number is written, the same on card and picture. */
const FIGURE_SHAPES = 'src/draw/figure.ts';
const MEASURE_WORDS = 'src/card/measures.ts';

/** The only package `src` may use, but for scales and shapes in pictures. */
const PACKAGE = 'zod';
const DRAWING_PACKAGES: readonly string[] = ['d3-scale', 'd3-shape'];

/** Programs that are started by another name than main; as there, the environment and the disk are handed in. */
const OTHER_PROGRAMS: readonly string[] = ['adapters/storage/backup.ts', 'adapters/storage/migrate.ts'];

/** Lists that are one idea however long they grow; every other file is two ideas long before this. */
const LINES_AT_MOST = 350;
const LONG_LISTS: readonly string[] = ['src/tables/', 'src/bike/keys.ts'];

const SRC = sourceFiles('src');
const ADAPTERS = sourceFiles('adapters');
const ALL = [...SRC, ...ADAPTERS];

function folderOf(path: string): string {
  const parts = path.split('/');
  return parts.length > 2 ? (parts[1] ?? '') : 'src';
}

function isRelative(to: string): boolean {
  return to.startsWith('src/') || to.startsWith('adapters/') || to.startsWith('test/');
}

function readsSettings(path: string): boolean {
  return path.endsWith('/config.ts') || OTHER_PROGRAMS.includes(path);
}

/** Every `file → import` that a rule rejects, so that a failure names them all. */
function offences(files: readonly SourceFile[], bad: (file: SourceFile, to: string, typeOnly: boolean) => boolean) {
  return files.flatMap((file) =>
    file.imports.filter(({ to, typeOnly }) => bad(file, to, typeOnly)).map(({ to }) => `${file.path} → ${to}`),
  );
}

/** Every circle among the imports that count, as the path round it. */
function circles(files: readonly SourceFile[], counts: (each: Import) => boolean): readonly string[] {
  const byPath = new Map(files.map((file) => [file.path, file]));
  const done = new Set<string>();
  const found: string[] = [];
  const walk = (path: string, trail: readonly string[]) => {
    if (trail.includes(path)) found.push([...trail.slice(trail.indexOf(path)), path].join(' → '));
    if (trail.includes(path) || done.has(path)) return;
    for (const each of byPath.get(path)?.imports ?? []) if (counts(each)) walk(each.to, [...trail, path]);
    done.add(path);
  };
  for (const file of files) walk(file.path, []);
  return found;
}

describe('imports', () => {
  it('are found at all', () => {
    expect(SRC.length).toBeGreaterThan(40);
    expect(SRC.flatMap((file) => file.imports).length).toBeGreaterThan(100);
    expect(ADAPTERS.flatMap((file) => file.imports).length).toBeGreaterThan(20);
  });

  it('run from tables to solve to card to commands to the desk', () => {
    const bad = offences(SRC, (file, to, typeOnly) => {
      if (!to.startsWith('src/')) return false;
      if (typeOnly && SHARED_TYPES.includes(to))
        return folderOf(file.path) === 'solve' || folderOf(file.path) === 'tables';
      if (to === FIGURE_SHAPES && typeOnly && folderOf(file.path) === 'card') return false;
      if (to === MEASURE_WORDS && folderOf(file.path) === 'draw') return false;
      return !(MAY_IMPORT[folderOf(file.path)] ?? []).includes(folderOf(to));
    });
    expect(bad).toEqual([]);
  });

  it('know every folder of src', () => {
    expect(SRC.map((file) => folderOf(file.path)).filter((folder) => !(folder in MAY_IMPORT))).toEqual([]);
  });

  it('of src reach no adapter, no test and no package but one', () => {
    const bad = offences(SRC, (file, to) => {
      if (to.startsWith('src/') || to === PACKAGE) return false;
      return !(folderOf(file.path) === 'draw' && DRAWING_PACKAGES.includes(to));
    });
    expect(bad).toEqual([]);
  });

  it('of an adapter reach no other adapter, except from its main; settings are for configs and programs', () => {
    const bad = offences(ADAPTERS, (file, to, typeOnly) => {
      if (!to.startsWith('adapters/')) return false;
      if (folderOf(to) === 'settings' && (typeOnly || readsSettings(file.path))) return false;
      return folderOf(to) !== folderOf(file.path) && !file.path.endsWith('/main.ts');
    });
    expect(bad).toEqual([]);
  });

  it('of product code reach no test', () => {
    expect(offences(ALL, (_, to) => to.startsWith('test/'))).toEqual([]);
  });

  it('name a file that exists, with its ending', () => {
    const paths = new Set(ALL.map((file) => file.path));
    expect(offences(ALL, (_, to) => isRelative(to) && !paths.has(to))).toEqual([]);
  });

  it('never go in a circle: in src not even by a type, elsewhere not at run time', () => {
    expect(circles(SRC, () => true)).toEqual([]);
    expect(circles(ALL, (each) => !each.typeOnly)).toEqual([]);
  });

  it('of the desk load no package at run time: a start must stay short', () => {
    const byPath = new Map(SRC.map((file) => [file.path, file]));
    const reached = new Set<string>();
    const walk = (path: string) => {
      if (reached.has(path)) return;
      reached.add(path);
      for (const { to, typeOnly } of byPath.get(path)?.imports ?? []) if (!typeOnly) walk(to);
    };
    walk('src/workbench.ts');
    expect(reached.size).toBeGreaterThan(20);
    expect([...reached].filter((path) => !path.startsWith('src/'))).toEqual([]);
    // A card carries a figure's numbers; what draws them is loaded beside the desk, not by it.
    expect([...reached].filter((path) => path.startsWith('src/draw/'))).toEqual([]);
  });
});

describe('files', () => {
  it('are never an index that only passes on', () => {
    expect(ALL.map((file) => file.path).filter((path) => path.endsWith('/index.ts'))).toEqual([]);
  });

  it('hold one idea', () => {
    const long = ALL.filter((file) => !LONG_LISTS.some((list) => file.path.startsWith(list)))
      .map((file) => [file.path, file.text.split('\n').length] as const)
      .filter(([, lines]) => lines > LINES_AT_MOST);
    expect(long).toEqual([]);
  });
});
