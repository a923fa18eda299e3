import type { Card } from './card.ts';

/** Every pair of units that `measures.ts` writes: metric first, imperial behind it in brackets. */
const PAIR = /([−\d.]+(?:–[\d.]+)?) (mm|km\/h|N·m|g) \(([−\d.]+(?:–[\d.]+)?) (in|mph|lbf·in|oz)\)/g;

/** The same card with the imperial figure of every pair first; nothing else changes, and no figure is lost. */
export function imperialFirst(card: Card): Card {
  return turned(card) as Card;
}

function turned(value: unknown): unknown {
  if (typeof value === 'string') return value.replace(PAIR, '$3 $4 ($1 $2)');
  if (Array.isArray(value)) return value.map(turned);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([key, each]) => [key, turned(each)]));
}
