import type { Compilable, CompiledQuery, DialectAdapter, Kysely } from 'kysely';
import type { Place } from '../../src/records/place.ts';
import { type Across, across, inPlace, type Scope } from './scope.ts';
import type { Tables } from './tables.ts';

type Values = Readonly<Record<string, string | number>>;

/** A query built once, and for each of its parameters the mark of what stands there, or null where it never changes. */
type Built<Mark> = { readonly query: CompiledQuery; readonly marks: readonly (Mark | null)[] };

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
  const known = new WeakMap<DialectAdapter, Built<string>>();
  return (scope, given) => {
    const { adapter } = scope.getExecutor();
    const built = known.get(adapter) ?? marked(scope, names, build);
    known.set(adapter, built);
    return run<string, Row>(scope, built, (name) => (name === PLACE ? scope.place : given[name]));
  };
}

/** The same for a query that puts in as many rows as there are, each into its own place; built once for each number. */
export function rowsStatement<Given extends Values, Row>(
  names: readonly (keyof Given & string)[],
  build: (into: Across, rows: readonly Given[]) => Compilable<Row>,
): (into: Across, rows: readonly (Given & { readonly place: Place })[]) => Promise<readonly Row[]> {
  const known = new WeakMap<DialectAdapter, Map<number, Built<RowMark>>>();
  return (into, rows) => {
    const { adapter } = into.getExecutor();
    const counts = known.get(adapter) ?? new Map<number, Built<RowMark>>();
    known.set(adapter, counts);
    const built = counts.get(rows.length) ?? markedRows(into, rows.length, names, build);
    counts.set(rows.length, built);
    return run<RowMark, Row>(into, built, ({ row, name }) => rows[row]?.[name]);
  };
}

type RowMark = { readonly row: number; readonly name: string };

async function run<Mark, Row>(
  db: Kysely<Tables>,
  { query, marks }: Built<Mark>,
  valueAt: (mark: Mark) => string | number | undefined,
): Promise<readonly Row[]> {
  const parameters = query.parameters.map((fixed, index) => {
    const mark = marks[index] ?? null;
    return mark === null ? fixed : valueAt(mark);
  });
  const { rows } = await db.executeQuery({ ...query, parameters } as CompiledQuery<Row>);
  return rows;
}

/** Builds the query with a mark in place of each value, and looks where the marks have come to stand. */
function marked<Given extends Values, Row>(
  scope: Scope,
  names: readonly (keyof Given & string)[],
  build: (scope: Scope, given: Given) => Compilable<Row>,
): Built<string> {
  const marks = new Map<unknown, string>([PLACE, ...names].map((name) => [Symbol(name), name]));
  const [place, ...values] = [...marks.keys()];
  const given = Object.fromEntries(names.map((name, index) => [name, values[index]]));
  const query = build(inPlace(scope.withoutPlugins(), place as Place), given as unknown as Given).compile();
  return { query, marks: query.parameters.map((value) => marks.get(value) ?? null) };
}

function markedRows<Given extends Values, Row>(
  into: Across,
  count: number,
  names: readonly (keyof Given & string)[],
  build: (into: Across, rows: readonly Given[]) => Compilable<Row>,
): Built<RowMark> {
  const marks = new Map<unknown, RowMark>();
  const mark = (row: number, name: string) => {
    const symbol = Symbol(name);
    marks.set(symbol, { row, name });
    return symbol;
  };
  const rows = Array.from({ length: count }, (_, row) =>
    Object.fromEntries(names.map((name) => [name, mark(row, name)])),
  );
  const places = rows.map((_, row) => mark(row, PLACE));
  const open = across(into.withoutPlugins(), places as unknown as readonly Place[]);
  const query = build(open, rows as unknown as readonly Given[]).compile();
  return { query, marks: query.parameters.map((value) => marks.get(value) ?? null) };
}
