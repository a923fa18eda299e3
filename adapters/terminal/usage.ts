import type { TextBlock } from '../../src/card/card.ts';
import type { Reply } from '../../src/request.ts';
import { NARROWEST_COLUMNS, WIDEST_COLUMNS } from './limits.ts';

const USAGE: TextBlock = {
  kind: 'text',
  section: 'help',
  title: 'At the terminal',
  lines: [
    'npm run -s ask — a conversation that remembers the bike',
    'npm run -s ask -- convert 2x10 36/22 11-36 — one question; without a command it is convert',
    '--plain — sentences without columns, for screen readers',
    `--width 60 — columns to use, ${NARROWEST_COLUMNS} to ${WIDEST_COLUMNS}`,
    '--why — also how every number came about',
    '--pictures DIR — also write what the card shows as pictures into that folder; job print writes its page there',
    '--as anna, --role moderator — who you are, for what is kept; it is kept in the folder data',
    '--json — for machines; with no command, one request a line on standard input',
    'Exit code — 0 answered, 2 a question back or a refusal, 1 our fault',
  ],
};

/** The desk's general help together with what only the terminal has. */
export function withUsage<Any extends Reply>(reply: Any): Any {
  return { ...reply, card: { ...reply.card, blocks: [...reply.card.blocks, USAGE] } };
}
