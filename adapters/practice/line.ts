import { followUp } from '../../src/bike/follow-up.ts';
import { KEPT_NAMES } from '../../src/commands/kept-words.ts';
import { COMMANDS, TOPIC_COMMANDS } from '../../src/commands/list.ts';
import type { Reply, Request } from '../../src/request.ts';

/** An answer that was given here, and what was asked. */
export type Given = { readonly reply: Reply; readonly request: Request };

const BIKE_NAMES: readonly string[] = COMMANDS.map(({ name }) => name);
const USUAL_COMMAND = 'convert';

export function isCommand(word: string): boolean {
  return BIKE_NAMES.includes(word) || KEPT_NAMES.includes(word) || TOPIC_COMMANDS.includes(word);
}

/** A typed line as a question. `before` is the bike that is being spoken of, if there is one. */
export function requestOf(typed: string, before: Given | null): Request {
  const line = typed.trim().replace(/^\//, '');
  const first = /^\S*/.exec(line)?.[0].toLowerCase() ?? '';
  const rest = line.slice(first.length).trim();
  if (KEPT_NAMES.includes(first) || TOPIC_COMMANDS.includes(first)) return { command: first, setup: rest };
  const command = BIKE_NAMES.includes(first) ? first : (before?.request.command ?? USUAL_COMMAND);
  const told = command === first ? rest : before === null ? line : followUp(line);
  // A code or a kept bike says by itself which bike is meant.
  if (before === null || /^#/.test(told)) return { command, setup: told };
  return { command, setup: withMore(before, told) };
}

/** The line that comes back to a bike and adds words to it. */
export function withMore({ reply, request }: Given, more: string): string {
  const receipt = reply.kind === 'answered' || reply.kind === 'asks' ? reply.receipt : null;
  const again = receipt ? `#${receipt.code}` : request.setup;
  return `${again} ${more}`.trim();
}
