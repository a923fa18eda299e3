import type { Question } from '../../src/bike/reading.ts';
import type { Block, Card } from '../../src/card/card.ts';
import type { Reply } from '../../src/request.ts';

/** What the reply asks back. */
export function asksOf(reply: Reply): readonly Question[] {
  return reply.kind === 'refused' ? [] : reply.asks;
}

/**
 * The card of a reply with every question back on it exactly once: where the card does not show a question with its
 * choices, it follows the first cautions, and a line that only repeats a question is left to it.
 */
export function cardWithQuestions(reply: Reply): Card {
  const { card } = reply;
  const asks = asksOf(reply);
  if (asks.length === 0) return card;
  const shown = new Set(card.blocks.map((block) => (block.kind === 'actions' ? block.title : '')));
  const missing = asks.filter((each) => !shown.has(each.question));
  const firstCalm = card.blocks.findIndex((block) => block.kind !== 'caution');
  const place = firstCalm === -1 ? card.blocks.length : firstCalm;
  const questions = new Set(asks.map((each) => each.question));
  return {
    ...card,
    lines: card.lines.filter((line) => !questions.has(line)),
    blocks: [...card.blocks.slice(0, place), ...missing.map(questionBlock), ...card.blocks.slice(place)],
  };
}

function questionBlock(asked: Question): Block {
  return asked.choices.length === 0
    ? { kind: 'text', section: 'summary', lines: [asked.question] }
    : { kind: 'actions', section: 'summary', title: asked.question, actions: asked.choices };
}
