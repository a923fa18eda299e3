import type { Refusal } from '../../src/bike/reading.ts';
import { refusalCard } from '../../src/card/desk.ts';
import type { Solved } from '../../src/workbench.ts';
import { inertJson } from './escape.ts';

/** The machine-readable answer on one line: what could not be answered has a `refusal` and no `answer`. */
export function replyJson(reply: Solved): string {
  switch (reply.kind) {
    case 'answered': {
      const { command, read, assumed, asks, unread, answer, card } = reply;
      return inertJson({ command, read, assumed, asks, unread, answer, card });
    }
    case 'asks': {
      const { command, read, assumed, asks, unread, refusal, card } = reply;
      return inertJson({ refusal, command, read, assumed, asks, unread, card });
    }
    case 'refused': {
      const { command, refusal, card } = reply;
      return inertJson({ refusal, command, card });
    }
  }
}

/** A refusal that never reached the desk. */
export function refusedReply(refusal: Refusal): Solved {
  return { kind: 'refused', command: '', refusal, card: refusalCard(refusal) };
}
