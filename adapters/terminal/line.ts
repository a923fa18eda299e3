import type { Bike } from '../../src/bike/bike.ts';
import { nearest } from '../../src/bike/nearest.ts';
import { KEPT_NAMES } from '../../src/commands/kept-words.ts';
import { COMMANDS, TOPIC_COMMANDS } from '../../src/commands/list.ts';
import type { Request } from '../../src/request.ts';
import { ask } from '../../src/workbench.ts';

/** What a typed line asks for, before any bike is remembered. */
export type Asked = { readonly command: string; readonly setup: string };

export const COMMAND_NAMES: readonly string[] = [
  ...COMMANDS.map((command) => command.name),
  ...KEPT_NAMES,
  ...TOPIC_COMMANDS,
];

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
  // "bike 2x10 36/22" tells a bike; "bike save winter …" is about one that is kept.
  if (KEPT_NAMES.includes(name) && tellsBike(rest)) return { command: usual, setup: rest };
  if (COMMAND_NAMES.includes(name)) return { command: name, setup: rest };
  if (/^[a-z]+$/.test(name) && (rest === '' || nearest(name, COMMAND_NAMES).length > 0) && meansNothing(name))
    return { command: first, setup: rest };
  return { command: usual, setup: text };
}

/** The request for what was asked, over the bike of the question before where there is one. */
export function requestFor(asked: Asked, known: Bike | undefined): Request {
  return known === undefined ? asked : { ...asked, known };
}

function tellsBike(words: string): boolean {
  const [first = ''] = words.split(/\s/, 1);
  return first !== '' && !/^\p{L}+$/u.test(first) && !meansNothing(first);
}

function meansNothing(word: string): boolean {
  const reply = ask({ command: USUAL_COMMAND, setup: word });
  return reply.kind !== 'refused' && reply.unread.length > 0;
}
