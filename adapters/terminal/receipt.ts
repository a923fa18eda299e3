import type { Receipt, Reply } from '../../src/request.ts';
import { paragraph } from './layout.ts';
import type { Look } from './render.ts';

/** The line under an answer that says how to see it again, or that it could not be kept; nothing where none was asked for. */
export function receiptText(reply: Reply, look: Look): string {
  if (reply.kind !== 'answered' || reply.receipt === undefined) return '';
  const line = receiptLine(reply.command, reply.receipt);
  return `\n${paragraph(line, look.width).join('\n')}\n`;
}

function receiptLine(command: string, receipt: Receipt | null): string {
  if (receipt === null) return 'No receipt: what is kept cannot be reached just now.';
  const { code, rules, again } = receipt;
  const told = again ? `Given before under #${code}` : `Receipt #${code}`;
  return `${told}, rules of ${rules}. To see it again: ${command} #${code}`;
}
