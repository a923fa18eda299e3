import { expect, test } from 'vitest';
import { LINE_BYTES } from '../../adapters/terminal/limits.ts';
import { linesOf } from '../../adapters/terminal/lines.ts';

async function split(...chunks: readonly (string | Uint8Array)[]) {
  async function* input() {
    yield* chunks;
  }
  const lines: (string | null)[] = [];
  for await (const line of linesOf(input())) lines.push(line);
  return lines;
}

test('lines come out as they stood, wherever the chunks were cut', async () => {
  const bytes = Buffer.from('eins\r\nzwei é\n\ndrei');
  expect(await split(bytes)).toEqual(['eins', 'zwei é', '', 'drei']);
  const single = [...bytes].map((byte) => Uint8Array.of(byte));
  expect(await split(...single)).toEqual(['eins', 'zwei é', '', 'drei']);
});

test('a last line break adds no line', async () => {
  expect(await split('a\n', 'b\n')).toEqual(['a', 'b']);
});

test('a line of the longest length is kept, one byte more is told as too long and the next goes on', async () => {
  const longest = 'x'.repeat(LINE_BYTES);
  expect(await split(`${longest}\n${longest}x\nafter\n`)).toEqual([longest, null, 'after']);
  expect(await split(longest, 'x', 'more', '\nafter')).toEqual([null, 'after']);
  expect(await split(longest, 'x')).toEqual([null]);
});
