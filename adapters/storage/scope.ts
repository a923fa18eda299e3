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
  ReferenceNode,
  type RootOperationNode,
  type SelectQueryNode,
  TableNode,
  ValueListNode,
  ValueNode,
  ValuesNode,
} from 'kysely';
import type { Place } from '../../src/records/place.ts';
import type { Tables } from './tables.ts';

/**
 * A database that can see one place only. Every table of every query gets the condition on its place (in the join where
 * it is joined), and every row that is put in gets the place. A query that this cannot be said of is not run at all.
 */
export type Scope = Kysely<Tables>;

/** Narrows a database, or a transaction on one, to a place. */
export function inPlace(db: Kysely<Tables>, place: Place): Scope {
  return db.withPlugin(placePlugin(place));
}

function placePlugin(place: Place): KyselyPlugin {
  return {
    transformQuery: ({ node }) => scoped(node, place),
    transformResult: ({ result }) => Promise.resolve(result),
  };
}

function scoped(node: RootOperationNode, place: Place): RootOperationNode {
  switch (node.kind) {
    case 'SelectQueryNode': {
      if (node.with !== undefined || node.setOperations !== undefined) return refuse(node);
      const joins = node.joins?.map((join) => JoinNode.cloneWithOn(join, isPlace(join.table, place)));
      const query = joins === undefined ? node : { ...node, joins };
      return (node.from?.froms ?? refuse(node)).reduce<SelectQueryNode>(
        (all, table) => QueryNode.cloneWithWhere(all, isPlace(table, place)),
        query,
      );
    }
    case 'UpdateQueryNode':
      if (node.with !== undefined || node.from !== undefined || node.joins !== undefined) return refuse(node);
      return QueryNode.cloneWithWhere(node, isPlace(node.table, place));
    case 'DeleteQueryNode':
      if (node.with !== undefined || node.using !== undefined || node.joins !== undefined) return refuse(node);
      return node.from.froms.reduce<DeleteQueryNode>(
        (all, table) => QueryNode.cloneWithWhere(all, isPlace(table, place)),
        node,
      );
    case 'InsertQueryNode':
      return intoPlace(node, place);
    default:
      return refuse(node);
  }
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

function intoPlace(node: InsertQueryNode, place: Place): InsertQueryNode {
  const { values, columns } = node;
  if (node.with !== undefined || columns === undefined || values === undefined || !ValuesNode.is(values)) {
    return refuse(node);
  }
  const rows = values.values.map((row) =>
    PrimitiveValueListNode.is(row)
      ? PrimitiveValueListNode.create([...row.values, place])
      : ValueListNode.create([...row.values, ValueNode.create(place)]),
  );
  return InsertQueryNode.cloneWith(node, {
    columns: [...columns, ColumnNode.create('place')],
    values: ValuesNode.create(rows),
  });
}

function refuse(node: OperationNode | undefined): never {
  throw new TypeError(`a ${node?.kind ?? 'missing table'} cannot be kept within one place`);
}
