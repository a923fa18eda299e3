import { describe, expect, it } from 'vitest';
import { GLYPH_WIDTHS, GLYPHS } from '../../src/draw/glyph-widths.ts';
import { textWidth, wrapped } from '../../src/draw/text-width.ts';
import { BOLD, REGULAR } from '../support/pictures.ts';

describe('widths of text', () => {
  it.each([
    ['regular', REGULAR],
    ['bold', BOLD],
  ] as const)('are those of the bundled %s font', (weight, font) => {
    const widths = [...GLYPHS].map((glyph) => font.glyphForCodePoint(glyph.codePointAt(0) ?? 0).advanceWidth);
    expect(widths).toEqual([...GLYPH_WIDTHS[weight]]);
    expect([...GLYPHS].every((glyph) => font.hasGlyphForCodePoint(glyph.codePointAt(0) ?? 0))).toBe(true);
  });

  it('add up, and a glyph nobody measured takes the most room', () => {
    expect(textWidth('11', 1000, 'regular')).toBe(2 * textWidth('1', 1000, 'regular'));
    expect(textWidth('漢', 16, 'regular')).toBeGreaterThan(textWidth('m', 16, 'regular'));
  });

  it('break lines between words only, and leave a word that is too wide whole', () => {
    expect(wrapped('one two three', textWidth('one two', 16, 'regular'), 16, 'regular')).toEqual(['one two', 'three']);
    expect(wrapped('extraordinarily long', 10, 16, 'regular')).toEqual(['extraordinarily', 'long']);
  });
});
