import type { Refusal } from '../../src/bike/reading.ts';
import { refusalCard } from '../../src/card/desk.ts';
import type { Reply } from '../../src/request.ts';
import type { Solved } from '../../src/workbench.ts';
import { inertJson } from './escape.ts';

/** The machine-readable answer on one line: what could not be answered has a `refusal` and no `answer`. */
export function replyJson(reply: Reply): string {
  switch (reply.kind) {
    case 'answered': {
      const { command, read, assumed, asks, unread, answer, card, receipt } = reply;
      return inertJson({ command, read, assumed, asks, unread, answer, card, receipt });
    }
    case 'asks': {
      const { command, read, assumed, asks, unread, refusal, card, receipt } = reply;
      return inertJson({ refusal, command, read, assumed, asks, unread, card, receipt });
    }
    case 'kept': {
      const { command, action, result, card } = reply;
      return inertJson({ command, action, result, card });
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
