import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { inert, shortened } from '../../src/inert.ts';

const words = fc
  .array(fc.constantFrom('ring ', '\u05d3\u05e8\u05d0 ', '\u0645\u0631 ', '\u{1f6b2}', 'x', '\u05d0'), {
    maxLength: 30,
  })
  .map((parts) => inert(parts.join('')));

/** How many isolates are open at the end; less than none where one is closed that was never opened. */
function openIsolates(text: string): number {
  let open = 0;
  for (const sign of text) {
    if (sign === '\u2068') open += 1;
    if (sign === '\u2069') open -= 1;
    if (open < 0) return open;
  }
  return open;
}

describe('a text that is shortened', () => {
  it('fits, ends in an ellipsis, parts no character, and leaves no isolate open', () => {
    fc.assert(
      fc.property(words, fc.integer({ min: 3, max: 40 }), (text, most) => {
        const short = shortened(text, most);
        expect(short.length).toBeLessThanOrEqual(most);
        expect(openIsolates(short)).toBe(0);
        expect(short.isWellFormed()).toBe(true);
        if (text.length <= most) expect(short).toBe(text);
        else {
          expect(short.endsWith('…')).toBe(true);
          expect(text.startsWith(short.slice(0, -1).replace(/\u2069$/, ''))).toBe(true);
        }
      }),
      { numRuns: 2000 },
    );
  });

  it('keeps as much as there is room for', () => {
    expect(shortened('0123456789', 10)).toBe('0123456789');
    expect(shortened('0123456789', 9)).toBe('01234567…');
    expect(shortened('\u2068\u05d0\u05d1\u05d2\u05d3\u2069', 5)).toBe('\u2068\u05d0\u05d1\u2069…');
  });
});

describe('a word from right to left', () => {
  it('is set apart from its neighbours, and no other word is', () => {
    expect(inert('ring \u05d3\u05e8\u05d0 32')).toBe('ring \u2068\u05d3\u05e8\u05d0\u2069 32');
    expect(inert('32\u05d0 x')).toBe('\u206832\u05d0\u2069 x');
    expect(inert('\u8f6e\u7ec4 x')).toBe('\u8f6e\u7ec4 x');
  });
});
