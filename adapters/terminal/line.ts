import type { Bike } from '../../src/bike/bike.ts';
import { COMMANDS } from '../../src/commands/list.ts';
import { ask } from '../../src/desk.ts';
import type { Request } from '../../src/request.ts';

/** What a typed line asks for, before any bike is remembered. */
export type Asked = { readonly command: string; readonly setup: string };

export const COMMAND_NAMES: readonly string[] = [...COMMANDS.map((command) => command.name), 'help'];

/** What is done where a line describes a bike and names no command. */
export const USUAL_COMMAND = 'convert';

/**
 * Splits a typed line into command and setup. Without a command it is `usual`, unless the first word can only be a
 * slip of a command's name or stands alone and means nothing: then that word is the command, for the desk to refuse.
 */
export function askedOf(line: string, usual: string = USUAL_COMMAND): Asked {
  const text = line.trim();
  const end = text.search(/\s/);
  const first = end === -1 ? text : text.slice(0, end);
  const rest = end === -1 ? '' : text.slice(end).trim();
  const name = first.toLowerCase();
  if (COMMAND_NAMES.includes(name)) return { command: name, setup: rest };
  if (/^[a-z]+$/.test(name) && (rest === '' || isSlip(name)) && meansNothing(name))
    return { command: first, setup: rest };
  return { command: usual, setup: text };
}

/** The request for what was asked, over the bike of the question before where there is one. */
export function requestFor(asked: Asked, known: Bike | undefined): Request {
  return known === undefined ? asked : { ...asked, known };
}

function meansNothing(word: string): boolean {
  const reply = ask({ command: USUAL_COMMAND, setup: word });
  return reply.kind !== 'refused' && reply.unread.length > 0;
}

/** Starts a command's name, or is one or two slips of the fingers away from it. */
function isSlip(word: string): boolean {
  return COMMAND_NAMES.some(
    (name) => (word.length > 2 && name.startsWith(word)) || slips(word, name) <= (name.length > 5 ? 2 : 1),
  );
}

/** Letters left out, put in, changed or swapped with their neighbour between two words (optimal string alignment). */
function slips(from: string, to: string): number {
  if (Math.abs(from.length - to.length) > 2) return Number.POSITIVE_INFINITY;
  let older: number[] = [];
  let old = Array.from({ length: to.length + 1 }, (_, index) => index);
  for (let row = 1; row <= from.length; row += 1) {
    const fresh = [row];
    for (let column = 1; column <= to.length; column += 1) {
      const same = from[row - 1] === to[column - 1];
      const swapped = row > 1 && column > 1 && from[row - 1] === to[column - 2] && from[row - 2] === to[column - 1];
      const [left = 0, above = 0, corner = 0] = [fresh[column - 1], old[column], old[column - 1]];
      const least = Math.min(left + 1, above + 1, corner + (same ? 0 : 1));
      fresh.push(swapped ? Math.min(least, (older[column - 2] ?? 0) + 1) : least);
    }
    older = old;
    old = fresh;
  }
  return old[to.length] ?? 0;
}
