import type { Item } from './items.ts';

/** Items that start at a word, and how many words they took. */
export type Lexed = { readonly items: readonly Item[]; readonly words: number };

export function one(item: Item, words: number): Lexed {
  return { items: [item], words };
}
