import type { Block, Card } from '../../src/card/card.ts';
import { hasWhy } from '../../src/card/views.ts';
import { screenBlocks, screenHead } from './screen.ts';
import { spokenBlocks, spokenHead } from './spoken.ts';

/** How text is shown: laid out for the eye, or as sentences for a screen reader. Without a width no line is wrapped. */
export type Look =
  | { readonly kind: 'screen'; readonly width: number; readonly colour: boolean }
  | { readonly kind: 'spoken'; readonly width: number | null };

/** The whole card as text, every string in it made inert, ending in a line break. */
export function render(card: Card, look: Look): string {
  return joined([...head(card, look), ...blocks(card.blocks, look)]);
}

/** Some blocks of a card as text. */
export function renderBlocks(some: readonly Block[], look: Look): string {
  return joined(blocks(some, look));
}

/** The card with one line in place of how its numbers came about. */
export function withoutWorking(card: Card): Card {
  if (!hasWhy(card)) return card;
  const kept = card.blocks.filter((block) => block.kind !== 'working');
  const pointer = { kind: 'text', section: 'summary', lines: ['How every number came about: add --why.'] } as const;
  return { ...card, blocks: [...kept, pointer] };
}

function head(card: Card, look: Look): string[] {
  return look.kind === 'screen' ? screenHead(card, look) : spokenHead(card, look.width);
}

function blocks(some: readonly Block[], look: Look): string[] {
  return look.kind === 'screen' ? screenBlocks(some, look) : spokenBlocks(some, look.width);
}

function joined(lines: readonly string[]): string {
  const from = lines[0] === '' ? 1 : 0;
  return `${lines.slice(from).join('\n')}\n`;
}
