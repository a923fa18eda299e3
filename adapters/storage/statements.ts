import type { Compilable, CompiledQuery, DialectAdapter } from 'kysely';
import type { Place } from '../../src/records/place.ts';
import { inPlace, type Scope } from './scope.ts';

type Values = Readonly<Record<string, string | number>>;

/** A query built once, and for each of its parameters the name of what stands there, or null where it never changes. */
type Built = { readonly query: CompiledQuery; readonly names: readonly (string | null)[] };

/** Where the place stands among what differs from run to run. */
const PLACE = 'place';

/**
 * A query of which only the named values differ from run to run. Building one takes longer than running it, so those
 * that belong to every question are built once for each database. They are built within a place like any other, and
 * hold the condition on it; which place, is told by the scope they run in.
 */
export function statement<Given extends Values, Row>(
  names: readonly (keyof Given & string)[],
  build: (scope: Scope, given: Given) => Compilable<Row>,
): (scope: Scope, given: Given) => Promise<readonly Row[]> {
  const known = new WeakMap<DialectAdapter, Built>();
  return async (scope, given) => {
    const { adapter } = scope.getExecutor();
    const built = known.get(adapter) ?? marked(scope, names, build);
    known.set(adapter, built);
    const value = (name: string) => (name === PLACE ? scope.place : given[name]);
    const parameters = built.query.parameters.map((fixed, index) => {
      const name = built.names[index] ?? null;
      return name === null ? fixed : value(name);
    });
    const { rows } = await scope.executeQuery({ ...built.query, parameters } as CompiledQuery<Row>);
    return rows;
  };
}

/** Builds the query with a mark in place of each value, and looks where the marks have come to stand. */
function marked<Given extends Values, Row>(
  scope: Scope,
  names: readonly (keyof Given & string)[],
  build: (scope: Scope, given: Given) => Compilable<Row>,
): Built {
  const marks = new Map<unknown, string>([PLACE, ...names].map((name) => [Symbol(name), name]));
  const [place, ...values] = [...marks.keys()];
  const given = Object.fromEntries(names.map((name, index) => [name, values[index]]));
  const query = build(inPlace(scope.withoutPlugins(), place as Place), given as unknown as Given).compile();
  return { query, names: query.parameters.map((value) => marks.get(value) ?? null) };
}
