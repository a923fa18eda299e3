import { LINE_BYTES } from './limits.ts';

const LINE_FEED = 0x0a;

/** A line of input without its line break; null stands for one that was too long to keep. */
export type Line = string | null;

/** Splits a stream of bytes into lines, never holding more than one line of the longest allowed length. */
export async function* linesOf(input: AsyncIterable<Uint8Array | string>): AsyncGenerator<Line> {
  const decoder = new TextDecoder();
  let held: Uint8Array[] = [];
  let bytes = 0;
  const line = (): Line => {
    const text = bytes > LINE_BYTES ? null : decoder.decode(Buffer.concat(held));
    held = [];
    bytes = 0;
    return text?.endsWith('\r') ? text.slice(0, -1) : text;
  };
  const hold = (part: Uint8Array) => {
    bytes += part.length;
    if (bytes > LINE_BYTES) held = [];
    else held.push(part);
  };
  for await (const chunk of input) {
    const part = typeof chunk === 'string' ? Buffer.from(chunk) : chunk;
    let from = 0;
    for (let to = part.indexOf(LINE_FEED); to !== -1; to = part.indexOf(LINE_FEED, from)) {
      hold(part.subarray(from, to));
      yield line();
      from = to + 1;
    }
    if (from < part.length) hold(part.subarray(from));
  }
  if (bytes > 0) yield line();
}
