import { expect } from 'vitest';
import type { Reply } from '../../src/request.ts';
import { ask } from '../../src/workbench.ts';

type Kind = Reply['kind'];

function replyOf<K extends Kind>(kind: K, setup: string, command: string): Extract<Reply, { kind: K }> {
  const reply = ask({ command, setup });
  expect(reply.kind, `${command} ${setup}: ${reply.card.answer}`).toBe(kind);
  return reply as Extract<Reply, { kind: K }>;
}

/** The reply to a question that has an answer. */
export function answered(setup: string, command = 'convert') {
  return replyOf('answered', setup, command);
}

/** The reply to a question that must be settled first. */
export function asked(setup: string, command = 'convert') {
  return replyOf('asks', setup, command);
}

/** The reply to what cannot be read. */
export function refused(setup: string, command = 'convert') {
  return replyOf('refused', setup, command);
}

/** The option for one ring in an answer. */
export function ring(reply: Extract<Reply, { kind: 'answered' }>, teeth: number) {
  const option = reply.answer.rings?.find((each) => each.teeth === teeth);
  if (option === undefined) throw new Error(`no option for ${teeth}T`);
  return option;
}
