import { describe, expect, it } from 'vitest';
import { SOURCES } from '../../src/tables/sources.ts';
import { sourceFiles } from '../support/source-files.ts';

/** What a docstring may rest on besides a cited work. */
const OTHER_GROUNDS: readonly string[] = ['common practice', 'memory', 'geometry'];

type Solver = {
  readonly name: string;
  readonly path: string;
  readonly parameters: readonly string[];
  /** The docstring without its stars; empty where there is none. */
  readonly doc: string;
  readonly tags: readonly { readonly tag: string; readonly text: string }[];
};

const FUNCTION = /^(\/\*\*\n(?: \*[^\n]*\n)+? \*\/\n)?export (?:async )?function (\w+)(?:<[^(]*>)?\(/gm;

/** The names at the top level of a parameter list that starts just before `from`. */
function parameterNames(text: string, from: number): readonly string[] {
  let depth = 1;
  let at = from;
  let top = '';
  for (; at < text.length && depth > 0; at += 1) {
    const sign = text[at] ?? '';
    // The arrow of a function type opens nothing.
    if (sign === '>' && text[at - 1] === '=') continue;
    if ('([{<'.includes(sign)) depth += 1;
    else if (')]}>'.includes(sign)) depth -= 1;
    else if (depth === 1) top += sign;
  }
  return top.split(',').flatMap((part) => /^\s*(\w+)\??\s*:/.exec(part)?.[1] ?? []);
}

function solversOf(path: string, text: string): readonly Solver[] {
  return [...text.matchAll(FUNCTION)].map((match) => {
    const doc = (match[1] ?? '')
      .split('\n')
      .slice(1, -2)
      .map((line) => line.replace(/^ \* ?/, ''))
      .join('\n');
    const tags = doc
      .split(/^@/m)
      .slice(1)
      .map((tag) => {
        const [name = '', ...words] = tag.trim().split(/\s+/);
        return { tag: name, text: words.join(' ') };
      });
    return { name: match[2] ?? '', path, parameters: parameterNames(text, match.index + match[0].length), doc, tags };
  });
}

const SOLVERS = sourceFiles('src/solve').flatMap((file) => solversOf(file.path, file.text));
const NAMED = SOLVERS.map((solver) => [solver.name, solver] as const);

const tagged = (solver: Solver, tag: string) => solver.tags.filter((each) => each.tag === tag).map((each) => each.text);

/** Paragraphs before the first tag, each with its lines joined. */
const paragraphs = (solver: Solver) =>
  (solver.doc.split(/^@/m)[0] ?? '')
    .trim()
    .split(/\n\s*\n/)
    .map((each) => each.replace(/\s+/g, ' ').trim());

/** Whether `actual` is `printed`, numbers to half a unit of their last printed digit. */
function agrees(actual: unknown, printed: string): boolean {
  const number = /^[-−]?\d+(?:\.(\d+))?$/.exec(printed);
  if (number !== null) {
    if (typeof actual !== 'number') return false;
    const unit = 10 ** -(number[1]?.length ?? 0);
    return Math.abs(actual - Number(printed.replace('−', '-'))) <= unit / 2 + 1e-9;
  }
  return alike(actual, JSON.parse(printed));
}

function alike(actual: unknown, expected: unknown): boolean {
  if (typeof expected === 'number') return agrees(actual, String(expected));
  if (Array.isArray(expected)) {
    return (
      Array.isArray(actual) &&
      actual.length === expected.length &&
      expected.every((each, at) => alike(actual[at], each))
    );
  }
  if (typeof expected === 'object' && expected !== null) {
    if (typeof actual !== 'object' || actual === null) return false;
    const fields = new Map<string, unknown>(Object.entries(actual));
    return (
      fields.size === Object.keys(expected).length &&
      Object.entries(expected).every(([key, value]) => fields.has(key) && alike(fields.get(key), value))
    );
  }
  return Object.is(actual, expected);
}

describe('docstrings of the solver', () => {
  it('are looked at for every exported function', () => {
    expect(SOLVERS.length).toBeGreaterThan(30);
    const exported = sourceFiles('src/solve').flatMap((file) => [
      ...file.text.matchAll(/^export (?:async )?function /gm),
    ]);
    expect(SOLVERS.length).toBe(exported.length);
    const arrows = sourceFiles('src/solve').filter((file) =>
      /^export const \w+[^=\n]*= (?:async )?\(/m.test(file.text),
    );
    expect(arrows.map((file) => file.path)).toEqual([]);
  });

  it.each(NAMED)('%s opens with a sentence, prints its formula and says where it holds', (_, solver) => {
    const [first = '', ...rest] = paragraphs(solver);
    expect(first).toMatch(/^[A-Z].*\.$/);
    expect(rest.length).toBeGreaterThanOrEqual(2);
    expect(rest.some((each) => /^Valid\b/.test(each))).toBe(true);
  });

  it.each(NAMED)('%s gives every parameter and its result a unit', (_, solver) => {
    const described = tagged(solver, 'param');
    expect(described.map((text) => text.split(' ')[0])).toEqual(solver.parameters);
    for (const text of described) expect(text).toMatch(/\[[^\]]+\]/);
    const returned = tagged(solver, 'returns');
    expect(returned).toHaveLength(1);
    expect(returned[0]).toMatch(/\[[^\]]+\]/);
  });

  it.each(NAMED)('%s says who stands behind it', (_, solver) => {
    const grounds = tagged(solver, 'see');
    expect(grounds.length).toBeGreaterThan(0);
    for (const ground of grounds) {
      const [key = '', ...locator] = ground.split(',');
      const known = key in SOURCES && locator.join(',').trim() !== '';
      expect(known || OTHER_GROUNDS.some((other) => ground.startsWith(other)), ground).toBe(true);
    }
  });

  it.each(NAMED)('%s shows an example that is true', async (_, solver) => {
    const module: Readonly<Record<string, unknown>> = await import(/* @vite-ignore */ `../../${solver.path}`);
    const names = Object.keys(module);
    const examples = tagged(solver, 'example');
    expect(examples.length).toBeGreaterThan(0);
    for (const example of examples) {
      const cut = example.lastIndexOf(' // ');
      expect(cut, example).toBeGreaterThan(0);
      expect(example).toContain(solver.name);
      const run = new Function(...names, `return (${example.slice(0, cut)});`);
      const actual: unknown = run(...names.map((name) => module[name]));
      expect(agrees(actual, example.slice(cut + 4).trim()), `${example}, but it gives ${JSON.stringify(actual)}`).toBe(
        true,
      );
    }
  });
});
