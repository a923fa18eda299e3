import type { ChecklistBlock } from '../../src/card/card.ts';
import type { Reply } from '../../src/request.ts';
import { NARROWEST_COLUMNS, WIDEST_COLUMNS } from './limits.ts';

const USAGE: ChecklistBlock = {
  kind: 'checklist',
  section: 'help',
  title: 'At the terminal',
  items: [
    { text: 'npm run -s ask', detail: 'a conversation that remembers the bike' },
    { text: 'npm run -s ask -- convert 2x10 36/22 11-36', detail: 'one question; without a command it is convert' },
    { text: '--plain', detail: 'sentences without columns, for screen readers' },
    { text: '--width 60', detail: `columns to use, ${NARROWEST_COLUMNS} to ${WIDEST_COLUMNS}` },
    { text: '--json', detail: 'for machines; with no command, one request a line on standard input' },
    { text: 'Exit code', detail: '0 answered, 2 a question back or a refusal, 1 our fault' },
  ],
};

/** The desk's general help together with what only the terminal has. */
export function withUsage(reply: Reply): Reply {
  return { ...reply, card: { ...reply.card, blocks: [...reply.card.blocks, USAGE] } };
}
