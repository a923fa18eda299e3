import { overLimit } from '../../src/records/limits.ts';
import type { Author } from '../../src/records/place.ts';
import {
  type KeptReceipt,
  LATEST_RECEIPTS,
  type Receipt,
  type Receipts,
  readReceiptCode,
} from '../../src/records/receipts.ts';
import { packed, unpacked } from './packing.ts';
import { authorsOf, knownKey } from './people.ts';
import type { Keep } from './receipt-keeping.ts';
import type { PlaceStore } from './store.ts';
import type { Tables } from './tables.ts';

type Head = Omit<Receipt, 'code' | 'answer' | 'card'>;

/** Answer and card are packed; those that were kept before that was so stand beside the rest. */
type Content = Head & ({ readonly packed: string } | Pick<Receipt, 'answer' | 'card'>);

export function receiptsIn(store: PlaceStore, keep: Keep): Receipts {
  return {
    keep: async (who, { code, command, setup, options, rules, answer, card }, atMs) => {
      if (readReceiptCode(code) !== code) return { kind: 'not-a-code' };
      const over = overLimit({
        command: command.length,
        setup: setup.length,
        options: JSON.stringify(options).length,
        rules: rules.length,
        answer: answer.length,
        card: card.length,
      });
      if (over !== null) return over;
      const head = { command, setup, options, rules };
      const content = JSON.stringify({ ...head, packed: packed([answer, card]) } satisfies Content);
      return keep({ who, code, content, atMs });
    },

    read: (place, typed) =>
      store.read(place, async ({ scope }) => {
        const code = readReceiptCode(typed);
        if (code === null) return null;
        const row = await scope.selectFrom('receipts').selectAll().where('code', '=', code).executeTakeFirst();
        return row === undefined ? null : keptReceipt(row, (await authorsOf(scope, [row.owner]))(row.owner));
      }),

    latest: (who) =>
      store.read(who.place, async ({ scope }) => {
        const owner = await knownKey(scope, who);
        if (owner === null) return [];
        const rows = await scope
          .selectFrom('receipts')
          .select(['code', 'at', 'content'])
          .where('owner', '=', owner)
          .orderBy('at', 'desc')
          .limit(LATEST_RECEIPTS)
          .execute();
        return rows.map(({ code, at, content }) => {
          const { command, setup } = JSON.parse(content) as Content;
          return { code, command, setup, atMs: at };
        });
      }),
  };
}

/** A receipt as it was given, back from its row. */
export function keptReceipt(row: Omit<Tables['receipts'], 'place'>, owner: Author): KeptReceipt {
  const content = JSON.parse(row.content) as Content;
  const { command, setup, options, rules } = content;
  const [answer = '', card = ''] = 'packed' in content ? unpacked(content.packed) : [content.answer, content.card];
  return { code: row.code, command, setup, options, rules, answer, card, owner, atMs: row.at };
}
