import { KEYS } from '../bike/keys.ts';
import { nearest } from '../bike/nearest.ts';
import type { Assumption, Question, Refusal } from '../bike/reading.ts';
import type { Card } from './card.ts';

/** The first line of a card and a notification text end here. */
const ANSWER_CHARACTERS = 120;

/** What was read, what was assumed and what was left aside, in one line. */
export function readBackLine(said: string, assumed: readonly Assumption[], unread: readonly string[]): string {
  let line = said === '' ? 'Read: nothing about the bike yet.' : `Read: ${said}.`;
  if (assumed.length > 0) {
    line += ` Assumed: ${assumed.map((each) => `${KEYS[each.field].label.toLowerCase()} ${each.value}`).join(', ')}.`;
  }
  if (unread.length > 0) line += ` Not used: ${unread.join(', ')}.`;
  return line;
}

/** A refusal as a card: what is wrong, what is allowed, an example that works. */
export function refusalCard(refusal: Refusal): Card {
  const whole = refusal.message;
  const short = whole.length <= ANSWER_CHARACTERS;
  const lines = [`Allowed: ${refusal.allowed}`, `This works: ${refusal.example}`];
  return {
    answer: short ? whole : `${whole.slice(0, whole.lastIndexOf(' ', ANSWER_CHARACTERS - 2))} …`,
    readBack: '',
    lines: short ? lines : [whole, ...lines],
    blocks: [],
  };
}

/** A question back in the shape of a refusal, for those who read only that. */
export function questionRefusal(asks: readonly Question[]): Refusal {
  const [first] = asks;
  if (first === undefined) return { field: 'setup', message: 'Nothing was read.', allowed: 'a bike', example: 'help' };
  return {
    field: first.field,
    message: first.question,
    allowed:
      first.choices.length > 0 ? first.choices.map((choice) => choice.label).join(', or ') : KEYS[first.field].because,
    example: first.choices[0]?.setup ?? KEYS[first.field].example,
  };
}

/** The refusal of a command nobody knows, naming those that come nearest. */
export function unknownCommand(typed: string, names: readonly string[]): Refusal {
  const near = nearest(typed, names);
  const shown = [...typed].slice(0, 40).join('');
  return {
    field: 'command',
    message: shown === '' ? 'No command was given.' : `"${shown}" is not a command here.`,
    allowed: near.length > 0 ? `perhaps ${near.join(' or ')}; all: ${names.join(', ')}` : names.join(', '),
    example: 'convert 2x10 36/22 11-36 29er hardtail 104bcd',
  };
}
