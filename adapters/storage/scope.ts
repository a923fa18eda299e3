import {
  AliasNode,
  BinaryOperationNode,
  ColumnNode,
  type DeleteQueryNode,
  IdentifierNode,
  InsertQueryNode,
  JoinNode,
  type Kysely,
  type KyselyPlugin,
  type OperationNode,
  OperatorNode,
  PrimitiveValueListNode,
  QueryNode,
  RawNode,
  ReferenceNode,
  type RootOperationNode,
  SelectQueryNode,
  SetOperationNode,
  TableNode,
  ValueListNode,
  ValueNode,
  ValuesNode,
  WithNode,
} from 'kysely';
import type { Place } from '../../src/records/place.ts';
import type { Tables } from './tables.ts';

/**
 * A database that can see one place only. Every table of every query gets the condition on its place (in the join where
 * it is joined), and every row that is put in gets the place. A query that this cannot be said of is not run at all.
 */
export type Scope = Kysely<Tables> & { readonly place: Place };

/**
 * A database that rows can only be put into, each into a place of its own. Nothing is read, changed or deleted through
 * it, and a query that puts in more or fewer rows than there are places is not run.
 */
export type Across = Kysely<Tables> & { readonly places: readonly Place[] };

/** Narrows a database, or a transaction on one, to a place. */
export function inPlace(db: Kysely<Tables>, place: Place): Scope {
  return Object.assign(db.withPlugin(placePlugin(place)), { place });
}

/** Opens a database, or a transaction on one, to new rows: the first goes into the first place, and so on. */
export function across(db: Kysely<Tables>, places: readonly Place[]): Across {
  return Object.assign(db.withPlugin(acrossPlugin(places)), { places });
}

function acrossPlugin(places: readonly Place[]): KyselyPlugin {
  return {
    transformQuery: ({ node }) => {
      for (const part of partsOf(node)) refuseInner(part);
      return InsertQueryNode.is(node)
        ? intoPlaces(node, (count) => (count === places.length ? places : null))
        : refuse(node);
    },
    transformResult: ({ result }) => Promise.resolve(result),
  };
}

function placePlugin(place: Place): KyselyPlugin {
  return {
    transformQuery: ({ node }) => scoped(node, place),
    transformResult: ({ result }) => Promise.resolve(result),
  };
}

function scoped(node: RootOperationNode, place: Place): RootOperationNode {
  for (const part of partsOf(node)) refuseInner(part);
  switch (node.kind) {
    case 'SelectQueryNode': {
      const joins = node.joins?.map((join) => JoinNode.cloneWithOn(join, isPlace(join.table, place)));
      const query = joins === undefined ? node : { ...node, joins };
      return (node.from?.froms ?? refuse(node)).reduce<SelectQueryNode>(
        (all, table) => QueryNode.cloneWithWhere(all, isPlace(table, place)),
        query,
      );
    }
    case 'UpdateQueryNode':
      if (node.from !== undefined || node.joins !== undefined) return refuse(node);
      return QueryNode.cloneWithWhere(node, isPlace(node.table, place));
    case 'DeleteQueryNode':
      if (node.using !== undefined || node.joins !== undefined) return refuse(node);
      return node.from.froms.reduce<DeleteQueryNode>(
        (all, table) => QueryNode.cloneWithWhere(all, isPlace(table, place)),
        node,
      );
    case 'InsertQueryNode':
      return intoPlaces(node, (count) => Array.from({ length: count }, () => place));
    default:
      return refuse(node);
  }
}

/** The only words of SQL that the query builder itself puts into a tree; a literal is words of SQL around nothing. */
const HARMLESS = new Set(['', 'asc', 'desc']);

/** What could look elsewhere from inside a query is another query, or words of SQL. */
function refuseInner(node: OperationNode): void {
  if (ValueNode.is(node) || PrimitiveValueListNode.is(node)) return;
  if (SelectQueryNode.is(node) || SetOperationNode.is(node) || WithNode.is(node)) refuse(node);
  if (RawNode.is(node) && node.sqlFragments.some((words) => !HARMLESS.has(words))) refuse(node);
  for (const part of partsOf(node)) refuseInner(part);
}

function partsOf(node: OperationNode): readonly OperationNode[] {
  return Object.values(node).flat().filter(isNode);
}

function isNode(value: unknown): value is OperationNode {
  return typeof value === 'object' && value !== null && 'kind' in value;
}

function isPlace(table: OperationNode | undefined, place: Place): OperationNode {
  const column = ReferenceNode.create(ColumnNode.create('place'), TableNode.create(nameOf(table)));
  return BinaryOperationNode.create(column, OperatorNode.create('='), ValueNode.create(place));
}

/** The name a table goes by within the query. */
function nameOf(table: OperationNode | undefined): string {
  if (table !== undefined && TableNode.is(table)) return table.table.identifier.name;
  if (table !== undefined && AliasNode.is(table) && IdentifierNode.is(table.alias)) return table.alias.name;
  return refuse(table);
}

/** Puts each row into its place; `placesOf` gives as many places as there are rows, or null where there are others. */
function intoPlaces(node: InsertQueryNode, placesOf: (count: number) => readonly Place[] | null): InsertQueryNode {
  const { values, columns } = node;
  if (columns === undefined || values === undefined || !ValuesNode.is(values)) {
    return refuse(node);
  }
  const places = placesOf(values.values.length) ?? refuse(node);
  const rows = values.values.map((row, index) =>
    PrimitiveValueListNode.is(row)
      ? PrimitiveValueListNode.create([...row.values, places[index]])
      : ValueListNode.create([...row.values, ValueNode.create(places[index])]),
  );
  return InsertQueryNode.cloneWith(node, {
    columns: [...columns, ColumnNode.create('place')],
    values: ValuesNode.create(rows),
  });
}

function refuse(node: OperationNode | undefined): never {
  throw new TypeError(`a ${node?.kind ?? 'missing table'} cannot be kept within one place`);
}
