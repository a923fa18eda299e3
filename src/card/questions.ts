import type { Question } from '../bike/reading.ts';
import type { Block, Card } from './card.ts';

/**
 * The card with the questions back on it, right behind the cautions it opens with: ready answers as actions, the rest
 * as text. Only the desk calls this, so that every card asks in the same place and only once.
 */
export function withQuestions(card: Card, asks: readonly Question[]): Card {
  if (asks.length === 0) return card;
  const firstCalm = card.blocks.findIndex((block) => block.kind !== 'caution');
  const place = firstCalm === -1 ? card.blocks.length : firstCalm;
  return { ...card, blocks: [...card.blocks.slice(0, place), ...asks.map(questionBlock), ...card.blocks.slice(place)] };
}

function questionBlock({ question, choices }: Question): Block {
  return choices.length === 0
    ? { kind: 'text', section: 'summary', lines: [question] }
    : { kind: 'actions', section: 'summary', title: question, actions: choices };
}
