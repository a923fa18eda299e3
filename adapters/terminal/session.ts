import type { Bike } from '../../src/bike/bike.ts';
import { followUp } from '../../src/bike/follow-up.ts';
import type { Question } from '../../src/bike/reading.ts';
import type { Block, Card } from '../../src/card/card.ts';
import { viewBlocks } from '../../src/card/views.ts';
import { TOPIC_COMMANDS } from '../../src/commands/list.ts';
import { typedCard } from './kept-card.ts';
import { type Asked, askedOf, requestFor, USUAL_COMMAND } from './line.ts';
import { receiptText } from './receipt.ts';
import type { Ask } from './records.ts';
import { type Look, render, renderBlocks } from './render.ts';
import { shortCard, viewNamed } from './sections.ts';
import { withUsage } from './usage.ts';

export type Heard = { readonly kind: 'say' | 'leave'; readonly text: string };

/** What the conversation keeps between two lines. `before` is the bike as it was when `asked` was first asked. */
type Memory = {
  readonly asked: Asked | undefined;
  readonly before: Bike | undefined;
  readonly known: Bike | undefined;
  readonly card: Card | undefined;
  readonly choices: readonly string[];
};

const NOTHING: Memory = { asked: undefined, before: undefined, known: undefined, card: undefined, choices: [] };

export const FAREWELL = 'Goodbye, and enjoy the ride.\n';

/** One conversation: hears a line, remembers the bike, and says what to print. */
export function openSession(ask: Ask, look: Look): (line: string) => Promise<Heard> {
  let memory = NOTHING;

  const answer = async (asked: Asked, before: Bike | undefined): Promise<Heard> => {
    const reply = await ask(requestFor(asked, before));
    if (TOPIC_COMMANDS.includes(reply.command)) {
      return say(render((reply.command === 'help' && asked.setup === '' ? withUsage(reply) : reply).card, look));
    }
    // A line that cannot be used changes nothing: the bike and its card stay as they were.
    if (reply.kind === 'refused' || reply.kind === 'kept') return say(render(typedCard(reply), look));
    const choices = reply.asks.flatMap((each) => each.choices.map((choice) => choice.setup));
    memory = { asked, before, known: reply.read, card: reply.card, choices };
    return say(brief(reply.card, reply.asks, look) + receiptText(reply, look));
  };

  return async (line) => {
    const text = line.trim();
    const word = text.toLowerCase();
    if (text === '') return say('');
    if (word === 'quit' || word === 'exit') return { kind: 'leave', text: FAREWELL };
    if (word === 'forget') {
      memory = NOTHING;
      return say('Forgotten. The next line starts with a new bike.\n');
    }
    const { asked, before, known, card } = memory;
    if (word === 'all') return say(card === undefined ? 'There is no answer to show yet.\n' : render(card, look));
    if (card !== undefined) {
      const view = viewNamed(text, card);
      if (view !== undefined) return say(renderBlocks(viewBlocks(card, view), look));
    }
    const chosen = asked && chosenSetup(text, memory.choices);
    if (chosen) return answer({ command: asked.command, setup: `${asked.setup} ${chosen}`.trim() }, before);
    return answer(askedOf(asked === undefined ? text : followUp(text), asked?.command ?? USUAL_COMMAND), known);
  };
}

function say(text: string): Heard {
  return { kind: 'say', text };
}

/** The short card, then the questions back with their answers numbered through. */
function brief(card: Card, asks: readonly Question[], look: Look): string {
  const questions = new Set(asks.map((each) => each.question));
  const asked = (block: Block) =>
    (block.kind === 'actions' && questions.has(block.title)) ||
    (block.kind === 'text' && block.lines.every((line) => questions.has(line)));
  const told = render(shortCard({ ...card, blocks: card.blocks.filter((block) => !asked(block)) }), look);
  if (asks.length === 0) return told;
  let number = 0;
  const blocks = asks.map(({ question, choices }) => {
    const lines = choices.map(({ label }) => {
      number += 1;
      return `${number}) ${label}`;
    });
    return { kind: 'text', section: 'summary', title: question, lines } as const;
  });
  return `${told}\n${renderBlocks(blocks, look)}`;
}

/** The words behind the numbers a person typed ("1", "1 3"), if all of them are on offer. */
function chosenSetup(text: string, choices: readonly string[]): string | undefined {
  if (!/^\d{1,2}(?:[ ,)]+\d{1,2})*\)?$/.test(text)) return undefined;
  const numbers = text.match(/\d+/g) ?? [];
  const setups = numbers.flatMap((each) => choices[Number(each) - 1] ?? []);
  return setups.length === numbers.length ? setups.join(' ') : undefined;
}
