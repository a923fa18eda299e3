import type { Card } from './card.ts';

/** Every pair of units that `measures.ts` writes: metric first, imperial behind it in brackets. */
const PAIR = /([−\d.]+(?:–[\d.]+)?) (mm|km\/h|N·m|g) \(([−\d.]+(?:–[\d.]+)?) (in|mph|lbf·in|oz)\)/g;
const POINT = /(\d)\.(\d)/g;

/** The same card with the imperial figure of every pair first; nothing else changes, and no figure is lost. */
export function imperialFirst(card: Card): Card {
  return turned(card, (text) => text.replace(PAIR, '$3 $4 ($1 $2)')) as Card;
}

/** The same card with decimal commas, as much of the world writes them; what is copied into a setup line stays. */
export function withDecimalComma(card: Card): Card {
  return turned(card, (text) => text.replace(POINT, '$1,$2')) as Card;
}

function turned(value: unknown, turn: (text: string) => string): unknown {
  if (typeof value === 'string') return turn(value);
  if (Array.isArray(value)) return value.map((each) => turned(each, turn));
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(
    Object.entries(value).map(([key, each]) => [key, key === 'setup' || key === 'kind' ? each : turned(each, turn)]),
  );
}
