import type { JobSheet, SheetRow, SheetSection } from '../../src/card/job-sheet.ts';
import { MARGIN, openPage, type Page, type Paper } from './page.ts';

/** From the size that reads best down to the least that reads at arm's length on a bench, in points (common practice). */
const LEAST_SIZE = 7;
const SIZES = [9.5, 9, 8.5, 8, 7.5, LEAST_SIZE] as const;
const GAP = 14;
/** A box to tick, as a share of the size of its words, and the room behind it. A dash stands there where nothing is ticked. */
const BOX = 0.75;
const BOX_GAP = 4;
const FOOT = 15;
/** Where the line to sign stands beside the number of the page. */
const SIGN_X = 170;

/** A piece of the sheet: how tall it is, and how it is written from a height downwards. */
type Piece = { readonly height: number; readonly write: (y: number) => void };

/**
 * The sheet as PDF with real text, on one page at the largest size that fits. Where even the smallest does not fit it
 * goes on overleaf: nothing is left out to save a page.
 */
export function printJobSheet(sheet: JobSheet, paper: Paper, printedAtMs: number): Promise<Uint8Array> {
  const page = openPage(paper, sheet.title, printedAtMs);
  const room = page.bottom - MARGIN - FOOT;
  const size = SIZES.find((each) => total(piecesOf(sheet, page, each)) <= room) ?? LEAST_SIZE;
  const pages = pagesOf(piecesOf(sheet, page, size), room);
  pages.forEach((pieces, index) => {
    if (index > 0) page.turn();
    let y = MARGIN;
    for (const piece of pieces) {
      piece.write(y);
      y += piece.height;
    }
    const foot = `${sheet.foot}; page ${index + 1} of ${pages.length}`;
    page.write(foot, MARGIN, page.bottom - 9, SIGN_X - MARGIN, { size: LEAST_SIZE });
    if (index === pages.length - 1) {
      page.write(HAND_OVER, SIGN_X, page.bottom - 9, page.width - MARGIN - SIGN_X, { size: LEAST_SIZE });
    }
  });
  return page.finish();
}

function total(pieces: readonly Piece[]): number {
  return pieces.reduce((sum, piece) => sum + piece.height, 0);
}

function pagesOf(pieces: readonly Piece[], room: number): readonly (readonly Piece[])[] {
  const pages: Piece[][] = [];
  let left = 0;
  for (const piece of pieces) {
    if (piece.height > left || pages.length === 0) {
      pages.push([]);
      left = room;
    }
    pages.at(-1)?.push(piece);
    left -= piece.height;
  }
  return pages;
}

function piecesOf(sheet: JobSheet, page: Page, size: number): readonly Piece[] {
  const pieces: Piece[] = [paragraph(sheet.title, page, { size: size + 5, bold: true })];
  for (const line of sheet.lines) pieces.push(paragraph(line, page, { size }));
  if (sheet.stops.length > 0) pieces.push(framed(sheet.stops, page, size));
  pieces.push(columns(sheet.sections, page, size));
  pieces.push(paragraph("Torque: the figure on the part or in its maker's manual wins", page, { size, bold: true }));
  pieces.push(torqueHead(page, size), ...sheet.torque.map((row) => torqueRow(row, page, size)), space(5));
  const lists: SheetSection[] = [
    { title: 'Take care', ticked: false, items: sheet.cautions },
    { title: 'What to watch, row by row', ticked: false, items: sheet.watch },
    { title: 'Who says the ranges, row by row', ticked: false, items: sheet.sources },
    { title: 'Declined or left out', ticked: false, items: [...sheet.declined, TO_WRITE_ON] },
  ];
  const few = sheet.notes.length <= FEW_NOTES;
  if (few && sheet.notes.length > 0) lists.push({ title: 'Notes', ticked: false, items: sheet.notes });
  pieces.push(columns(lists, page, size));
  if (few) return pieces;
  pieces.push(paragraph('Notes', page, { size, bold: true }));
  for (const note of sheet.notes) pieces.push(paragraph(note, page, { size }));
  return pieces;
}

/** More notes than these get lines of their own across the page, because a page may not hold them all. */
const FEW_NOTES = 6;
/** Where nobody has anything to fill in. */
const NOTHING = '–';
const TO_WRITE_ON = '_'.repeat(44);
const HAND_OVER = `Test ride done by ${'_'.repeat(22)}   Date ${'_'.repeat(14)}   Re-check after the first ride on ${'_'.repeat(14)}`;

function space(height: number): Piece {
  return { height, write: () => undefined };
}

function paragraph(text: string, page: Page, style: { readonly size: number; readonly bold?: boolean }): Piece {
  const wide = page.width - 2 * MARGIN;
  return {
    height: page.height(text, wide, style) + 2,
    write: (y) => {
      page.write(text, MARGIN, y, wide, style);
    },
  };
}

/** Stop lines in a frame, so that they are seen without colour. */
function framed(stops: readonly string[], page: Page, size: number): Piece {
  const wide = page.width - 2 * MARGIN - 12;
  const style = { size, bold: true };
  const texts = stops.map((text) => `STOP: ${text}`);
  const heights = texts.map((text) => page.height(text, wide, style));
  const tall = heights.reduce((sum, each) => sum + each, 0) + 6;
  return {
    height: tall + 6,
    write: (y) => {
      page.box(MARGIN, y + 2, page.width - 2 * MARGIN, tall);
      let at = y + 5;
      texts.forEach((text, index) => {
        page.write(text, MARGIN + 6, at, wide, style);
        at += heights[index] ?? 0;
      });
    },
  };
}

/** A line in a column; `title` is the section it belongs to, written above the first of it. */
type Line = { readonly text: string; readonly title: string; readonly first: boolean; readonly ticked: boolean };

/** Sections in two columns of nearly one height, in reading order; one that is cut says so where it goes on. */
function columns(sections: readonly SheetSection[], page: Page, size: number): Piece {
  const wide = (page.width - 2 * MARGIN - GAP) / 2;
  const lines = sections.flatMap(({ title, ticked, items }) =>
    items.map((text, index): Line => ({ text, title, first: index === 0, ticked })),
  );
  const heights = lines.map((line) => lineHeight(line, page, size, wide));
  const sum = (from: number, to?: number) => heights.slice(from, to).reduce((all, each) => all + each, 0);
  let cut = lines.length;
  for (let index = 0; index < lines.length; index += 1) {
    if (Math.max(sum(0, index), sum(index)) < Math.max(sum(0, cut), sum(cut))) cut = index;
  }
  const next = lines[cut];
  const goesOn = next !== undefined && !next.first;
  const head = goesOn ? 3 + page.height(next.title, wide, { size, bold: true }) : 0;
  return {
    height: Math.max(sum(0, cut), head + sum(cut)) + 4,
    write: (y) => {
      writeLines(lines.slice(0, cut), MARGIN, y, page, size, wide);
      const right = MARGIN + wide + GAP;
      if (goesOn) page.write(`${next.title}, continued`, right, y + 3, wide, { size, bold: true });
      writeLines(lines.slice(cut), right, y + head, page, size, wide);
    },
  };
}

function writeLines(lines: readonly Line[], x: number, y: number, page: Page, size: number, wide: number): void {
  let at = y;
  for (const line of lines) {
    const box = size * BOX;
    const indent = box + BOX_GAP;
    const end = at + lineHeight(line, page, size, wide);
    if (line.first) at += 3 + page.write(line.title, x, at + 3, wide, { size, bold: true });
    if (line.ticked) page.box(x, at + size * 0.2, box, box);
    else page.write(NOTHING, x, at, indent, { size });
    page.write(line.text, x + indent, at, wide - indent, { size });
    at = end;
  }
}

function lineHeight(line: Line, page: Page, size: number, wide: number): number {
  const indent = size * BOX + BOX_GAP;
  const title = line.first ? 3 + page.height(line.title, wide, { size, bold: true }) : 0;
  return title + page.height(line.text, wide - indent, { size }) + 0.4;
}

/** Shares of the page's width: fastener, target, value set, wrench, first and second initials. */
const TORQUE_COLUMNS = [0.42, 0.18, 0.1, 0.1, 0.1, 0.1] as const;
const PAD = 3;
/** Enough to write in by hand. */
const LEAST_ROW = 15;

function torqueHead(page: Page, size: number): Piece {
  return cells(['Fastener', 'Target', 'Value set', 'Wrench', 'Initials', 'Second'], page, size, true);
}

function torqueRow(row: SheetRow, page: Page, size: number): Piece {
  const shown = row.struck
    ? [`${row.name}: struck out`, row.target, NOTHING, NOTHING, NOTHING, NOTHING]
    : [row.name, row.target, row.value, row.wrench, row.first, row.second ?? NOTHING];
  return cells(shown, page, size, false);
}

function cells(texts: readonly string[], page: Page, size: number, bold: boolean): Piece {
  const widths = TORQUE_COLUMNS.map((share) => share * (page.width - 2 * MARGIN));
  const style = { size, bold };
  const heights = texts.map((text, index) => page.height(text, (widths[index] ?? 0) - 2 * PAD, style));
  const tall = Math.max(LEAST_ROW, Math.max(...heights) + 2 * PAD);
  return {
    height: tall,
    write: (y) => {
      let x = MARGIN;
      texts.forEach((text, index) => {
        const width = widths[index] ?? 0;
        page.box(x, y, width, tall);
        page.write(text, x + PAD, y + PAD, width - 2 * PAD, style);
        x += width;
      });
    },
  };
}
