import { conflictsOf } from './bike/conflicts.ts';
import { mergeBikes } from './bike/merge.ts';
import { readSetup } from './bike/read-setup.ts';
import type { Question, Refusal } from './bike/reading.ts';
import { sayBack } from './bike/say-back.ts';
import { settle } from './bike/settled.ts';
import { conflictWords } from './card/conflict.ts';
import { questionRefusal, readBackLine, refusalCard, unknownCommand } from './card/desk.ts';
import { helpWords } from './card/help.ts';
import { imperialFirst } from './card/local.ts';
import { measureWords, unknownMeasure } from './card/measure.ts';
import { withQuestions } from './card/questions.ts';
import { stopsFirst } from './card/stops-first.ts';
import type { Command } from './commands/command.ts';
import type { KeptCommand } from './commands/kept.ts';
import { COMMANDS, TOPIC_COMMANDS } from './commands/list.ts';
import type { Reply, Request } from './request.ts';

/** A reply asks at most this many questions: past three at once people stop answering (common practice). */
const MOST_QUESTIONS = 3;

const BY_NAME = new Map<string, Command>(COMMANDS.map((command) => [command.name, command]));

/** What questions about a bike come back as: everything but what is kept. */
export type Solved = Exclude<Reply, { readonly kind: 'kept' }>;

/**
 * Answers a question about a bike, at once and without keeping anything. Never throws for what a person typed: what
 * cannot be read comes back as a refusal, what could mean two things comes back as a question.
 */
export function ask(request: Request): Solved {
  const name = request.command.trim().toLowerCase();
  if (name === 'help') return help(request.setup);
  if (name === 'measure') return measure(request.setup);
  const command = BY_NAME.get(name);
  if (command === undefined) return refuse(name, unknownCommand(name, [...BY_NAME.keys(), ...TOPIC_COMMANDS]));

  const reading = readSetup(request.setup, request.options);
  if (reading.kind === 'refused') return refuse(name, reading.refusal);

  const { unread } = reading;
  const read = request.known === undefined ? reading.bike : mergeBikes(request.known, reading.bike);
  const said = sayBack(read);
  const conflicts = request.known === undefined ? reading.conflicts : distinct(reading.conflicts, conflictsOf(read));
  if (conflicts.length > 0) {
    const asks = conflicts.slice(0, MOST_QUESTIONS);
    const card = withQuestions({ ...conflictWords(asks.length), readBack: readBackLine(said, [], unread) }, asks);
    return { kind: 'asks', command: name, read, assumed: [], asks, unread, refusal: questionRefusal(asks), card };
  }

  const settled = settle(read);
  const outcome = command.answer(settled.bike);
  switch (outcome.kind) {
    case 'refused':
      return refuse(name, outcome.refusal);
    case 'asks': {
      // What was left open while reading says more than the question everybody is asked.
      const told = (each: Question) => reading.open.find((open) => open.field === each.field) ?? each;
      const asks = outcome.asks.map(told).slice(0, MOST_QUESTIONS);
      const { words } = outcome;
      const readBack = readBackLine(said, [], unread);
      const card = withQuestions({ ...words, readBack, blocks: stopsFirst(words.blocks) }, asks);
      return { kind: 'asks', command: name, read, assumed: [], asks, unread, refusal: questionRefusal(asks), card };
    }
    case 'answered': {
      const assumed = [...settled.assumed.filter((each) => command.keys.includes(each.field)), ...outcome.assumed];
      const asks = distinct(
        reading.open.filter((each) => command.keys.includes(each.field)),
        outcome.asks,
      ).slice(0, MOST_QUESTIONS);
      const { words } = outcome;
      const readBack = readBackLine(said, assumed, unread);
      const metric = withQuestions({ ...words, readBack, blocks: stopsFirst(words.blocks) }, asks);
      const card = read.units === 'imperial' ? imperialFirst(metric) : metric;
      return { kind: 'answered', command: name, read, assumed, asks, unread, answer: outcome.answer, card };
    }
  }
}

/** Help for what a person may use: commands about a bike, and those about what is kept that are handed in. */
export function help(topic: string, kept: readonly KeptCommand[] = []): Solved {
  const card = { ...helpWords(topic, COMMANDS, kept), readBack: '' };
  return { kind: 'answered', command: 'help', read: {}, assumed: [], asks: [], unread: [], answer: {}, card };
}

function measure(topic: string): Solved {
  const words = measureWords(topic);
  if (words === null) return refuse('measure', unknownMeasure(topic));
  const card = { ...words, readBack: '' };
  return { kind: 'answered', command: 'measure', read: {}, assumed: [], asks: [], unread: [], answer: {}, card };
}

function refuse(command: string, refusal: Refusal): Solved {
  return { kind: 'refused', command, refusal, card: refusalCard(refusal) };
}

/** Both lists, the first one's question kept where both ask about the same field. */
function distinct(first: readonly Question[], second: readonly Question[]): readonly Question[] {
  if (first.length === 0) return second;
  const asked = new Set(first.map((each) => each.field));
  return [...first, ...second.filter((each) => !asked.has(each.field))];
}
