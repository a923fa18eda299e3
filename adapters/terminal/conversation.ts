import { createInterface } from 'node:readline/promises';
import type { Readable, Writable } from 'node:stream';
import { complete } from './completion.ts';
import { faultLine } from './fault.ts';
import { paragraph } from './layout.ts';
import type { Ask } from './records.ts';
import type { Look } from './render.ts';
import { FAREWELL, openSession } from './session.ts';

const GREETING = [
  'Tell me about your bike, and I plan it with one ring.',
  'For example: 2x10 36/22 11-36 29er hardtail 104bcd',
  'help says more, Tab completes, quit leaves.',
];

type Conversation = {
  readonly input: Readable;
  readonly output: Writable & { readonly isTTY?: boolean };
  readonly look: Look;
  readonly ask: Ask;
};

/** Talks until the person leaves: by quit, by the end of input or by an interrupt, all of them calmly. */
export async function converse({ input, output, look, ask }: Conversation): Promise<void> {
  const hear = openSession(ask, look);
  const lines = createInterface({ input, output, terminal: output.isTTY ?? false, completer: complete, prompt: '> ' });
  lines.on('SIGINT', () => lines.close());
  // Lines may still wait to be answered when the input has ended already.
  let open = true;
  lines.on('close', () => {
    open = false;
  });
  output.write(`${GREETING.flatMap((line) => paragraph(line, look.width)).join('\n')}\n\n`);
  lines.prompt();
  for await (const line of lines) {
    try {
      const heard = await hear(line);
      output.write(heard.text === '' ? '' : `\n${heard.text}\n`);
      if (heard.kind === 'leave') {
        lines.close();
        return;
      }
    } catch (error) {
      output.write(`\n${faultLine(error)}\n\n`);
    }
    if (open) lines.prompt();
  }
  output.write(`\n${FAREWELL}`);
}
