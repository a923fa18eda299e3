import type { Who } from '../../src/records/place.ts';
import { StorageAway } from '../../src/records/storage-away.ts';
import { keyOf, keysOf } from './people.ts';
import { rowsStatement, statement } from './statements.ts';
import type { PlaceStore, Store, Together } from './store.ts';

/** A receipt, ready to be put into its row. */
export type NewReceipt = { readonly who: Who; readonly code: string; readonly content: string; readonly atMs: number };

type Kept = { readonly kind: 'kept' } | { readonly kind: 'taken' };

/** Settles when the receipt is saved, or its code was found taken. */
export type Keep = (receipt: NewReceipt) => Promise<Kept>;

type Row = { code: string; owner: string; at: number; content: string };
const COLUMNS = ['code', 'owner', 'at', 'content'] as const;

const insert = statement<Row, { code: string }>(COLUMNS, (scope, row) =>
  scope
    .insertInto('receipts')
    .values(row)
    .onConflict((conflict) => conflict.columns(['place', 'code']).doNothing())
    .returning('code'),
);

const insertAll = rowsStatement<Row, { place: string; code: string }>(COLUMNS, (into, rows) =>
  into
    .insertInto('receipts')
    .values(rows)
    .onConflict((conflict) => conflict.columns(['place', 'code']).doNothing())
    .returning(['place', 'code']),
);

/** Each receipt in a change of its own, as whatever else its store has to save with it demands. */
export function keepingAlone(store: PlaceStore): Keep {
  return ({ who, code, content, atMs }) =>
    store.change(who.place, async ({ scope }) => {
      const owner = await keyOf(scope, who, atMs);
      const kept = await insert(scope, { code, owner, at: atMs, content });
      return kept.length === 0 ? { kind: 'taken' } : { kind: 'kept' };
    });
}

/** Half a megabyte at 13 000 characters a plan: nobody who wants to write meanwhile waits for long. */
const MOST_TOGETHER = 32;

/**
 * Changes under way at once. With one, a person whose row another process holds would keep everybody waiting; each more
 * makes fewer receipts of each change. An engine with one writer runs them one after the other.
 */
const MOST_UNDER_WAY = 2;

type Waiting = {
  readonly receipt: NewReceipt;
  readonly resolve: (kept: Kept) => void;
  readonly reject: (error: unknown) => void;
};

/**
 * Receipts that are asked for at the same time, in one change. What is saved costs little beside the saving itself, so
 * whoever comes until a change has begun goes with it. Nobody waits for others to come: the first begins a change at the
 * end of this turn of the event loop, and a promise settles only after the change that holds its row is saved.
 */
export function keepingTogether(store: Store): Keep {
  const alone = keepingAlone(store);
  const waiting: Waiting[] = [];
  let beginning = false;
  let underWay = 0;

  const begin = () => {
    if (beginning || waiting.length === 0 || underWay === MOST_UNDER_WAY) return;
    beginning = true;
    underWay += 1;
    setImmediate(save);
  };
  const begun = (count: number): readonly Waiting[] => {
    const those = waiting.splice(0, count);
    beginning = false;
    begin();
    return those;
  };
  const save = async () => {
    const first = waiting.length;
    // Stays the same when the engine has the change begin again.
    let those: readonly Waiting[] | null = null;
    try {
      const kept = await store.together((at) => {
        those ??= begun(MOST_TOGETHER);
        return keptRows(
          at,
          those.map(({ receipt }) => receipt),
        );
      });
      settle(those ?? [], kept);
    } catch (error) {
      // Where it could not even begin, whoever came since then has not waited as long, and tries for themselves.
      await failed(those ?? begun(first), error, alone);
    }
    underWay -= 1;
    begin();
  };
  return (receipt) =>
    new Promise((resolve, reject) => {
      waiting.push({ receipt, resolve, reject });
      begin();
    });
}

function settle(those: readonly Waiting[], kept: readonly Kept[]): void {
  for (const [index, { resolve, reject }] of those.entries()) {
    const mine = kept[index];
    if (mine === undefined) reject(new TypeError('whoever asked has an outcome'));
    else resolve(mine);
  }
}

/**
 * A storage that is away is away for all of them, and one that may have saved them must not be asked again. For anything
 * else one of them may be to blame, or all together may be too much for the room that is left: each tries alone.
 */
async function failed(those: readonly Waiting[], error: unknown, alone: Keep): Promise<void> {
  const isAway = error instanceof StorageAway && error.code !== 'full';
  if (isAway || those.length === 1) {
    for (const { reject } of those) reject(error);
    return;
  }
  await Promise.all(those.map(({ receipt, resolve, reject }) => alone(receipt).then(resolve, reject)));
}

async function keptRows(at: Together, receipts: readonly NewReceipt[]): Promise<readonly Kept[]> {
  const ownerOf = await keysOf(at, receipts);
  // Of two with one code in one place the first has it, as when they come one after the other.
  const firsts = new Map<string, NewReceipt>();
  for (const each of receipts) {
    const name = nameOf(each.who.place, each.code);
    if (!firsts.has(name)) firsts.set(name, each);
  }
  const rows = [...firsts.values()].map(({ who, code, content, atMs }) => {
    return { place: who.place, code, owner: ownerOf(who), at: atMs, content };
  });
  const put = new Set((await insertAll(at.into, rows)).map(({ place, code }) => nameOf(place, code)));
  return receipts.map((each) => {
    const name = nameOf(each.who.place, each.code);
    return { kind: put.has(name) && firsts.get(name) === each ? 'kept' : 'taken' };
  });
}

/** Neither of them holds a blank, so that no two names are alike. */
function nameOf(place: string, code: string): string {
  return `${code} ${place}`;
}
