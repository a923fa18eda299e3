import { createRequire } from 'node:module';
import { PLAIN_TEXT } from '../../src/inert.ts';

type StringWidth = typeof import('string-width');

const require = createRequire(import.meta.url);
let stringWidth: StringWidth['default'] | undefined;
let segmenter: Intl.Segmenter | undefined;

/** Columns a text takes on a terminal: wide characters two, combining ones none. */
export function columnsOf(text: string): number {
  if (PLAIN_TEXT.test(text)) return text.length;
  // Loaded where a text needs it: its tables take as long as all the rest of a start.
  stringWidth ??= (require('string-width') as StringWidth).default;
  return stringWidth(text);
}

/** Lines of at most `room` columns, broken between words, inside a word only where it is wider than a whole line. */
export function wrapped(text: string, room: number): readonly string[] {
  const lines: string[] = [];
  let line = '';
  let used = 0;
  for (const word of text.split(' ')) {
    if (word === '') continue;
    const columns = columnsOf(word);
    if (used > 0 && used + 1 + columns <= room) {
      line += ` ${word}`;
      used += 1 + columns;
      continue;
    }
    if (used > 0) lines.push(line);
    const pieces = columns > room ? piecesOf(word, room) : [word];
    lines.push(...pieces.slice(0, -1));
    line = pieces.at(-1) ?? '';
    used = columnsOf(line);
  }
  lines.push(line);
  return lines;
}

/** A word in pieces of at most `room` columns, never parting what is read as one character. */
function piecesOf(word: string, room: number): readonly string[] {
  segmenter ??= new Intl.Segmenter();
  const pieces: string[] = [];
  let piece = '';
  let used = 0;
  for (const { segment } of segmenter.segment(word)) {
    const columns = columnsOf(segment);
    if (used > 0 && used + columns > room) {
      pieces.push(piece);
      piece = '';
      used = 0;
    }
    piece += segment;
    used += columns;
  }
  pieces.push(piece);
  return pieces;
}
