import type { Block as CardBlock, FigureBlock } from '../../src/card/card.ts';
import { ringChoices } from '../../src/card/ring-choices.ts';
import type { Look, Seen } from '../../src/card/views.ts';
import { viewTitle } from '../../src/card/views.ts';
import { TOPIC_COMMANDS } from '../../src/commands/list.ts';
import type { Reply } from '../../src/request.ts';
import { escaped, type Names, NO_NAMES, plain } from './escape.ts';
import { keptRows } from './kept-rows.ts';
import { LIMITS, messageFaults, viewFaults } from './limits.ts';
import { pagesOf, roomBeside, type Shots } from './pages.ts';
import { buttonRows, lastRow, type Offer, questionRow, tellRows, viewRows } from './rows.ts';
import { type About, blocksOf, headLine, type Piece, piecesOf, plainLines, richText, wholeCard } from './text.ts';
import type { Actions, Block, Context, Message, Modal } from './wire.ts';

/** How a reply is shown. */
export type Showing = {
  readonly seen: Seen;
  /** How to come to this card again; null where nothing was kept, and the card then goes out whole. */
  readonly look: Look | null;
  /** Seen by everybody: the buttons then give whoever presses them a copy of their own. */
  readonly everybody: boolean;
  /** Whether there is a conversation that the card may be shared in. */
  readonly share: boolean;
  readonly shots: Shots;
  readonly names: Names;
  /** A line of its own for each message, such as that no picture can be shown. */
  readonly remark?: string;
  /** Buttons that only the caller knows of. */
  readonly offers?: readonly Offer[];
};

/** Thrown when a message would be refused by the platform; only a mistake of ours can make one. */
export class RenderError extends Error {
  override readonly name = 'RenderError';
  readonly code = 'over-limit';
}

/** The blocks of a card that a way of showing it takes in. */
function blocksShown(reply: Reply, { look, seen }: Pick<Showing, 'look' | 'seen'>): readonly CardBlock[] {
  const { card } = reply;
  return isWhole(reply, look) ? wholeCard(card) : blocksOf(card, seen.view, aboutOf(reply));
}

function aboutOf({ kind, command }: Reply): About {
  if (kind === 'kept') return 'kept';
  return TOPIC_COMMANDS.includes(command) ? 'topic' : 'bike';
}

function isWhole(reply: Reply, look: Look | null): boolean {
  return look === null || reply.kind === 'refused';
}

/** The figures that a way of showing a card takes in, in order. */
export function figuresOf(reply: Reply, showing: Pick<Showing, 'look' | 'seen'>): readonly FigureBlock[] {
  return blocksShown(reply, showing).filter((block) => block.kind === 'figure');
}

/**
 * A reply as messages: one page with buttons to the others where the card can be come to again, else every page at once.
 * Nothing is ever left out to keep a limit.
 */
export function render(reply: Reply, showing: Showing): readonly Message[] {
  const { seen, look, shots, names, remark = '' } = showing;
  const { card } = reply;
  const whole = isWhole(reply, look);
  const blocks = blocksShown(reply, showing);
  const facts = whole || seen.view === 'short';
  const buttons = look !== null || reply.kind === 'kept';
  const head: Block[] = [richText(headLine(card.answer), names)];
  const read = facts ? card.readBack : '';
  if (read.length <= LIMITS.textObject / 2) head.push(...quiet(read, names));
  if (seen.view !== 'short' && !whole) head.push(richText([[{ text: viewTitle(seen.view), style: 'italic' }]], names));
  const long: readonly Piece[] =
    read.length <= LIMITS.textObject / 2 ? [] : [{ kind: 'lines', lines: plainLines([read]) }];
  const pieces = [...long, ...piecesOf(card, blocks, facts, buttons)];
  const controls = (page: number, pages: number): readonly Actions[] => {
    if (look !== null && reply.kind !== 'refused') {
      return rowsOf(reply, { ...showing, look, seen: { ...seen, page } }, blocks, pages);
    }
    if (page < pages - 1) return [];
    return reply.kind === 'kept' ? keptRows(reply, blocks, showing.offers ?? [], names) : refusedRows(look);
  };
  const foot = (page: number, pages: number) =>
    quiet([footer(reply, page, pages), remark].filter(Boolean).join(' · '), names);
  // The room is what the fullest set of buttons leaves, so that the number of pages does not depend on the page.
  const fullest = [...head, ...foot(98, 99), ...controls(whole ? 98 : 1, whole ? 99 : 3)];
  const pages = pagesOf(pieces, roomBeside(fullest), shots, names);
  const count = Math.max(1, pages.length);
  const shown = whole ? Array.from({ length: count }, (_, page) => page) : [Math.min(seen.page, count - 1)];
  return shown.map((page) =>
    message(escaped(card.answer, names), [
      ...(whole && page > 0 ? head.slice(0, 1) : head),
      ...(pages[page] ?? []),
      ...foot(page, count),
      ...controls(page, count),
    ]),
  );
}

/** One message; throws where it would not be taken. */
export function message(text: string, blocks: readonly Block[]): Message {
  const made: Message = { text, blocks, unfurl_links: false, unfurl_media: false };
  const faults = messageFaults(made);
  if (faults.length > 0) throw new RenderError(faults.join('; '));
  return made;
}

/** A sentence of our own, with buttons where there is something to do about it. */
export function sentence(text: string, offers: readonly Offer[] = []): Message {
  return message(escaped(text), [richText(plainLines(text.split('\n')), NO_NAMES), ...buttonRows(offers, 'offer')]);
}

/** A message with something of a person's own above it. */
export function withLines({ text, blocks }: Message, lines: readonly string[], names: Names): Message {
  return message(text, [richText(plainLines(lines), names), ...blocks]);
}

/** Blocks as a window of their own, where there is no conversation to answer in. */
export function cardModal(blocks: readonly Block[]): Modal {
  return checkedModal({
    type: 'modal',
    callback_id: 'card',
    private_metadata: '',
    title: plain('Ringwright'),
    close: plain('Close'),
    blocks,
  });
}

/** A modal; throws where it would not be taken. */
export function checkedModal(modal: Modal): Modal {
  const faults = viewFaults(modal);
  if (faults.length > 0) throw new RenderError(faults.join('; '));
  return modal;
}

/** What stands back: what was read, the code of an answer, the page. */
function quiet(text: string, names: Names): readonly Context[] {
  return text === '' ? [] : [{ type: 'context', elements: [plain(text, names)] }];
}

/** The code to come back by, the rules that answered, and the page. */
function footer(reply: Reply, page: number, pages: number): string {
  const parts: string[] = [];
  if (reply.kind === 'answered' || reply.kind === 'asks') {
    const { receipt } = reply;
    if (receipt) {
      parts.push(`Code #${receipt.code}`, `rules ${receipt.rules}`);
      if (receipt.again) parts.push('as given before');
    } else if (receipt === null) {
      parts.push('No code: nothing could be kept just now');
    }
  }
  if (pages > 1) parts.push(`page ${page + 1} of ${pages}`);
  return parts.join(' · ');
}

function rowsOf(
  reply: Exclude<Reply, { readonly kind: 'refused' }>,
  { look, seen, everybody, share, names, offers = [] }: Showing & { readonly look: Look },
  blocks: readonly CardBlock[],
  pages: number,
): readonly Actions[] {
  const views = aboutOf(reply) === 'topic' ? [] : viewRows(reply.card, look, seen.view);
  switch (reply.kind) {
    case 'answered': {
      // Without a receipt there is no line to add words to: what is shown speaks of no bike.
      const bike = reply.receipt !== undefined && reply.receipt !== null;
      // Sizes are compared where the gears are; elsewhere the list would only take the room of the text.
      const rings = seen.view === 'short' || seen.view === 'gears' ? ringChoices(reply.answer) : [];
      const told = bike ? tellRows(blocks, rings, look, reply.answer.speaksOf?.teeth ?? null) : [];
      const may = { fix: bike && !everybody, share: share && !everybody };
      return [...views, ...told, ...lastRow(look, seen, pages, may)];
    }
    case 'asks': {
      const questions = blocks.filter((block) => block.kind === 'actions');
      const rows = questions.flatMap((block, index) => questionRow(block, look, index));
      return [...rows, ...views, ...lastRow(look, seen, pages, { fix: !everybody, share: false })];
    }
    case 'kept': {
      const last = lastRow(look, seen, pages, { fix: false, share: false });
      return [...keptRows(reply, blocks, offers, names), ...views, ...last];
    }
  }
}

/** What was typed stays at hand: the button opens it again, to be put right. */
function refusedRows(look: Look | null): readonly Actions[] {
  return look === null ? [] : buttonRows([{ label: 'Correct', press: { kind: 'fix', ...look } }], 'last');
}
