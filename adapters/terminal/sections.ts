import type { Card } from '../../src/card/card.ts';
import { hasWhy, sectionsOf, type View, viewBlocks, viewTitle } from '../../src/card/views.ts';

type Opened = Exclude<View, 'short'>;

/** What of a card can be opened by its name, in the order it stands there. */
function viewsOf(card: Card): readonly Opened[] {
  return hasWhy(card) ? [...sectionsOf(card), 'why'] : sectionsOf(card);
}

/** The word to type for a view: its heading where that is one word, its name else. */
function wordFor(view: Opened): string {
  const title = viewTitle(view);
  return title.includes(' ') ? view : title.toLowerCase();
}

/** The view of the card that a typed word names. */
export function viewNamed(typed: string, card: Card): Opened | undefined {
  const word = typed.toLowerCase();
  return viewsOf(card).find((view) => [view, wordFor(view), viewTitle(view).toLowerCase()].includes(word));
}

/** What fits a small screen: the answer, what was read, the short lines and every caution; the rest by its names. */
export function shortCard(card: Card): Card {
  const short = new Set(viewBlocks(card, 'short'));
  const blocks = card.blocks
    .filter((block) => block.kind === 'caution' || short.has(block))
    .map((block) => ({ ...block, section: 'summary' as const }));
  const more = viewsOf(card).map(wordFor);
  if (more.length === 0) return { ...card, blocks };
  const names = { kind: 'text', section: 'summary', lines: [`More: ${more.join(', ')}, or all.`] } as const;
  return { ...card, blocks: [...blocks, names] };
}
