import type { Question } from '../bike/reading.ts';
import type { Block, Card, TextBlock } from './card.ts';
import { measureTopic } from './measure.ts';

/**
 * The card with the questions back on it, right behind the cautions it opens with: ready answers as actions, the rest
 * as text. Only the desk calls this, so that every card asks in the same place and only once.
 */
export function withQuestions(card: Card, asks: readonly Question[]): Card {
  if (asks.length === 0) return card;
  const firstCalm = card.blocks.findIndex((block) => block.kind !== 'caution' || block.section !== 'summary');
  const place = firstCalm === -1 ? card.blocks.length : firstCalm;
  const blocks = [...asks.map(questionBlock), ...howToMeasure(asks)];
  return { ...card, blocks: [...card.blocks.slice(0, place), ...blocks, ...card.blocks.slice(place)] };
}

/** Where to read how the measures asked for are taken. */
function howToMeasure(asks: readonly Question[]): readonly TextBlock[] {
  const topics = new Set(asks.flatMap((ask) => measureTopic(ask.field) ?? []));
  if (topics.size === 0) return [];
  const commands = [...topics].map((topic) => `measure ${topic}`).join(', ');
  return [{ kind: 'text', section: 'summary', lines: [`How to measure, with a picture: ${commands}.`] }];
}

function questionBlock({ question, choices }: Question): Block {
  return choices.length === 0
    ? { kind: 'text', section: 'summary', lines: [question] }
    : { kind: 'actions', section: 'summary', title: question, actions: choices };
}
