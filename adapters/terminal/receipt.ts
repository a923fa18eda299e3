import type { Reply } from '../../src/request.ts';
import { paragraph } from './layout.ts';
import type { Look } from './render.ts';

/** The line under an answer that says how to see it again; nothing where nothing was kept. */
export function receiptText(reply: Reply, look: Look): string {
  if (reply.kind !== 'answered' || !reply.receipt) return '';
  const { code, rules, again } = reply.receipt;
  const told = again ? `Given before under #${code}` : `Receipt #${code}`;
  const line = `${told}, rules of ${rules}. To see it again: ${reply.command} #${code}`;
  return `\n${paragraph(line, look.width).join('\n')}\n`;
}
