import type { Block, Card, FigureBlock } from '../../src/card/card.ts';
import { ringChoices } from '../../src/card/ring-choices.ts';
import type { Look, Seen } from '../../src/card/views.ts';
import { viewTitle } from '../../src/card/views.ts';
import { TOPIC_COMMANDS } from '../../src/commands/list.ts';
import type { Reply } from '../../src/request.ts';
import { customId } from './custom-id.ts';
import { escaped, peopleIn, plain } from './escape.ts';
import { keptRows, type Offer } from './kept-rows.ts';
import { LIMITS, messageFaults } from './limits.ts';
import { button, buttonRows, lastRow, questionRow, ringRow, tellRow, viewRows } from './rows.ts';
import { blocksOf, pagesOf, paragraphs, type Short, type Writing } from './text.ts';
import type { File, Message, Post, Row } from './wire.ts';

/** The colour of the bar beside an answer; it means nothing. */
const BAR = 0xa1380f;

/** A figure that was drawn. */
export type Drawn = { readonly block: FigureBlock; readonly png: Uint8Array };

/** Something that goes along with the first message, and what it is for who cannot see it. */
type Attached = { readonly file: File; readonly description: string };

/** How a reply is shown. */
export type Showing = {
  readonly seen: Seen;
  /** How to come to this card again; null where nothing was kept, and the card then goes out whole. */
  readonly look: Look | null;
  /** Seen by everybody: the buttons then give whoever presses them a copy of their own. */
  readonly everybody: boolean;
  readonly drawn: readonly Drawn[];
  /** A page to print. */
  readonly printed?: File;
  /** Buttons that only the caller knows of. */
  readonly offers?: readonly Offer[];
};

/** Thrown when a message would be refused by the platform; only a mistake of ours can make one. */
export class RenderError extends Error {
  override readonly name = 'RenderError';
  readonly code = 'over-limit';
}

/** The figures that a view shows, in order; as many as one message may carry. */
export function figuresOf(reply: Reply, { view }: Seen): readonly FigureBlock[] {
  const figures = blocksOf(reply.card, view, shortOf(reply)).filter((block) => block.kind === 'figure');
  return figures.slice(0, LIMITS.attachments);
}

/**
 * A reply as messages: one page with buttons to the others where the card can be come to again, else every page at once.
 * Nothing is ever left out to keep a limit.
 */
export function render(reply: Reply, showing: Showing): readonly Post[] {
  const { seen, look, drawn, printed, offers = [] } = showing;
  const { card, kind } = reply;
  const kept = kind === 'kept';
  const writing: Writing = {
    people: kept ? peopleIn(reply.result) : new Set(),
    drawn: new Set(drawn.map(({ block }) => block.alt)),
    buttons: look !== null || kept,
  };
  const attached = [...drawn.map(picture), ...(printed === undefined ? [] : [page(printed, reply)])];
  const whole = look === null || kind === 'refused';
  const heading = { answer: escaped(card.answer, writing.people), title: whole ? undefined : titleOf(seen) };
  if (whole) {
    const rows = kept ? keptRows(reply, card.blocks, LIMITS.rows, offers) : refusedRows(look);
    const messages = inPairs(pagesOf(wholeCard(card, writing), HALF_MESSAGE));
    return messages.map((descriptions, index) => {
      const last = index === messages.length - 1;
      const foot = footer(reply, index, messages.length);
      return post(heading, descriptions, foot, last ? rows : [], index === 0 ? attached : []);
    });
  }
  const blocks = blocksOf(card, seen.view, shortOf(reply));
  const pages = pagesOf(paragraphs(card, blocks, seen.view, writing), LIMITS.embedDescription);
  const index = Math.min(seen.page, Math.max(0, pages.length - 1));
  const rows = rowsOf(reply, blocks, { ...showing, look, seen: { ...seen, page: index } }, pages.length);
  const foot = footer(reply, index, pages.length);
  return [post(heading, pages.slice(index, index + 1), foot, rows, index === 0 ? attached : [])];
}

/** Two of these and a footer are one message: a whole card is then as few messages as can be, for only so many may follow. */
const HALF_MESSAGE = 2900;

function inPairs(pages: readonly string[]): readonly (readonly string[])[] {
  const pairs: (readonly string[])[] = [];
  for (let from = 0; from < pages.length; from += 2) pairs.push(pages.slice(from, from + 2));
  return pairs.length === 0 ? [[]] : pairs;
}

/** What is kept, and what speaks of no bike, has no sections worth opening: it is all on the short card. */
function shortOf(reply: Reply): Short {
  if (reply.kind === 'kept') return 'kept';
  return reply.kind === 'answered' && TOPIC_COMMANDS.includes(reply.command) ? 'all' : 'summary';
}

/** Everything on a card, where no button could bring the rest. */
function wholeCard(card: Card, writing: Writing): readonly string[] {
  return paragraphs(card, blocksOf(card, 'short', 'all'), 'short', writing);
}

function titleOf({ view }: Seen): string | undefined {
  return view === 'short' ? undefined : viewTitle(view);
}

type Heading = { readonly answer: string; readonly title: string | undefined };

function picture({ block, png }: Drawn, index: number): Attached {
  return { file: { name: `${block.section}-${index + 1}.png`, data: png, type: 'image/png' }, description: block.alt };
}

function page(file: File, { card }: Reply): Attached {
  return { file, description: plain(card.answer) };
}

/** One message. */
function post(
  { answer, title }: Heading,
  descriptions: readonly string[],
  foot: string,
  components: readonly Row[],
  attached: readonly Attached[],
): Post {
  const embeds = descriptions.map((description, index) => ({
    ...(title === undefined || index > 0 ? {} : { title }),
    description,
    color: BAR,
    ...(foot === '' || index < descriptions.length - 1 ? {} : { footer: { text: foot } }),
  }));
  const body: Message = {
    content: answer,
    embeds,
    components,
    allowed_mentions: { parse: [] },
    attachments: attached.map(({ description }, index) => ({ id: String(index), description })),
  };
  return checked({ body, files: attached.map(({ file }) => file) });
}

/** The message as it is; thrown where the platform would not take it. */
export function checked(post: Post): Post {
  const faults = messageFaults(post.body);
  if (faults.length > 0) throw new RenderError(faults.join('; '));
  return post;
}

/** The code to come back by, the rules that answered, and the page. */
function footer(reply: Reply, page: number, pages: number): string {
  const parts: string[] = [];
  if ((reply.kind === 'answered' || reply.kind === 'asks') && shortOf(reply) !== 'all') {
    const { receipt } = reply;
    if (receipt) parts.push(`Code #${receipt.code}`, `rules ${receipt.rules}`);
    else parts.push('No code: nothing could be kept just now');
  }
  if (pages > 1) parts.push(`page ${page + 1} of ${pages}`);
  return parts.join(' · ');
}

function rowsOf(
  reply: Exclude<Reply, { readonly kind: 'refused' }>,
  blocks: readonly Block[],
  { look, seen, everybody, offers = [] }: Showing & { readonly look: Look },
  pages: number,
): readonly Row[] {
  const { card } = reply;
  const views = shortOf(reply) === 'all' ? [] : viewRows(card, look, seen);
  switch (reply.kind) {
    case 'answered': {
      // Without a receipt there is no line to add words to: what is shown speaks of no bike.
      const rings = ringChoices(reply.answer);
      const told = reply.receipt
        ? [...ringRow(rings, look, reply.answer.speaksOf?.teeth ?? null), ...tellRow(blocks, rings, look)]
        : [];
      const last = lastRow(look, seen, pages, { fix: Boolean(reply.receipt) && !everybody, share: !everybody });
      return [...views, ...told, ...last];
    }
    case 'asks': {
      const last = lastRow(look, seen, pages, { fix: !everybody, share: false });
      const room = LIMITS.rows - views.length - last.length;
      const questions = blocks.filter((block) => block.kind === 'actions');
      // One row a question while there is room; then the last row holds the rest of them as a list.
      const each = questions.length <= room ? questions.length : room - 1;
      const rest = tellRow(questions.slice(each), [], look);
      return [
        ...questions.slice(0, each).flatMap((block, index) => questionRow(block, look, index + 1)),
        ...rest,
        ...views,
        ...last,
      ];
    }
    case 'kept': {
      const last = lastRow(look, seen, pages, { fix: false, share: false });
      return [...keptRows(reply, blocks, LIMITS.rows - views.length - last.length, offers), ...views, ...last];
    }
  }
}

/** What was typed stays at hand: the button opens it again, to be put right. */
function refusedRows(look: Look | null): readonly Row[] {
  return look === null || customId({ kind: 'fix', ...look }) === null
    ? []
    : buttonRows([button('Correct', { kind: 'fix', ...look })]);
}

/** A sentence of our own, with buttons where there is something to do about it. */
export function sentence(content: string, components: readonly Row[] = []): Post {
  return { body: { content, embeds: [], components, allowed_mentions: { parse: [] }, attachments: [] }, files: [] };
}
