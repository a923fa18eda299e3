import type { Names } from './escape.ts';
import { bytesOf, LIMITS, OURS } from './limits.ts';
import { figureLines, type Line, lineParts, type Piece, richText } from './text.ts';
import type { Block, Image, RichText } from './wire.ts';

/** The picture of a figure, where it can be shown as one; given by its alternative text. */
export type Shots = ReadonlyMap<string, Image>;

/** A comma between two blocks. */
const BETWEEN = 1;

/**
 * Pieces as blocks on as many pages as they need: a piece that fits a page is not parted, a longer one is parted at the
 * ends of its lines, and nothing is lost.
 */
export function pagesOf(
  pieces: readonly Piece[],
  room: { readonly bytes: number; readonly blocks: number },
  shots: Shots,
  names: Names,
): readonly (readonly Block[])[] {
  const pages: Block[][] = [];
  let page: Block[] = [];
  let left = room.bytes;
  for (const block of pieces.flatMap((piece) => blocksOfPiece(piece, room.bytes, shots, names))) {
    const bytes = bytesOf(block) + BETWEEN;
    if (page.length > 0 && (bytes > left || page.length >= room.blocks)) {
      pages.push(page);
      page = [];
      left = room.bytes;
    }
    page.push(block);
    left -= bytes;
  }
  return page.length === 0 ? pages : [...pages, page];
}

function blocksOfPiece(piece: Piece, bytes: number, shots: Shots, names: Names): readonly Block[] {
  if (piece.kind === 'figure') {
    const shot = shots.get(piece.block.alt);
    return shot === undefined ? parted(figureLines(piece.block), bytes, names) : [shot];
  }
  return parted(piece.lines, bytes, names);
}

/** Lines as one block, or as several where one would be too large for a page or for the eye. */
function parted(lines: readonly Line[], most: number, names: Names): readonly Block[] {
  const limit = Math.min(most - BETWEEN, OURS.textBytes);
  const whole = richText(lines, names);
  // Lines that hold nothing are nothing to show, and the platform takes no empty text.
  if (isEmpty(whole)) return [];
  if (bytesOf(whole) <= limit) return [whole];
  // A character takes up to six bytes as it travels, and a name may be longer than what stands for it.
  const short = lines.flatMap((line) => lineParts(line, Math.max(1, Math.floor(limit / 8))));
  const blocks: Block[] = [];
  let some: Line[] = [];
  for (const line of short) {
    if (some.length > 0 && bytesOf(richText([...some, line], names)) > limit) {
      blocks.push(richText(some, names));
      some = [];
    }
    some.push(line);
  }
  if (some.length > 0) blocks.push(richText(some, names));
  return blocks.filter((block) => block.type !== 'rich_text' || !isEmpty(block));
}

function isEmpty({ elements }: RichText): boolean {
  return elements.every((section) => section.elements.length === 0);
}

/** What is left for text when the rest of a message is set. */
export function roomBeside(fixed: readonly Block[]): { readonly bytes: number; readonly blocks: number } {
  return { bytes: LIMITS.blockBytes - bytesOf(fixed) - BETWEEN, blocks: LIMITS.blocks - fixed.length };
}
