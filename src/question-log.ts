import { KEPT_NAMES } from './commands/kept-words.ts';
import { COMMANDS, TOPIC_COMMANDS } from './commands/list.ts';
import type { Desk } from './desk.ts';
import type { Log } from './log.ts';
import type { Reply } from './request.ts';

const KNOWN: ReadonlySet<string> = new Set([...COMMANDS.map(({ name }) => name), ...TOPIC_COMMANDS, ...KEPT_NAMES]);

/** A command as it may stand in a log or a count: what is none of ours may be anything that somebody typed. */
export function commandName(command: string): string {
  const name = command.trim().toLowerCase();
  return KNOWN.has(name) ? name : 'other';
}

/** What came of a question: how it was answered, `away` where it was not because storage is away. */
export function questionOutcome(reply: Reply): Reply['kind'] | 'away' {
  return reply.kind === 'refused' && reply.refusal.field === 'storage' ? 'away' : reply.kind;
}

/**
 * A desk that writes one line a question: which command, what came of it and how long it took. Neither the question nor
 * who asked it stands there. The line is for looking closely, at level `debug`: it costs more than it tells a club every
 * day, and how many of what were asked is counted anyway.
 */
export function loggedDesk(desk: Desk, log: Log, nowMs: () => number): Desk {
  return {
    ask: async (asked) => {
      const fromMs = nowMs();
      const reply = await desk.ask(asked);
      const command = commandName(asked.request.command);
      log.debug({ command, outcome: questionOutcome(reply), tookMs: nowMs() - fromMs }, 'a question was answered');
      return reply;
    },
  };
}
