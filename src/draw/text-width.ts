import { GLYPH_WIDTHS, GLYPHS } from './glyph-widths.ts';

export type Weight = keyof typeof GLYPH_WIDTHS;

/** For a glyph that is not in the table: as wide as the widest letter, so that a label is given too much room. */
const UNKNOWN_WIDTH = 802;

const INDEX = new Map([...GLYPHS].map((glyph, index) => [glyph, index]));

/** How wide a line of text is drawn, in pixels. */
export function textWidth(words: string, size: number, weight: Weight): number {
  const widths = GLYPH_WIDTHS[weight];
  let sum = 0;
  for (const glyph of words) {
    const index = INDEX.get(glyph);
    sum += index === undefined ? UNKNOWN_WIDTH : (widths[index] ?? UNKNOWN_WIDTH);
  }
  return (sum * size) / 1000;
}

/** The words broken into lines no wider than `width`; a single word that is wider stands alone. */
export function wrapped(words: string, width: number, size: number, weight: Weight): readonly string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of words.split(' ')) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (line !== '' && textWidth(longer, size, weight) > width) {
      lines.push(line);
      line = word;
    } else line = longer;
  }
  if (line !== '') lines.push(line);
  return lines;
}
