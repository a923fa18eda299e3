import { once } from 'node:events';
import type { Readable, Writable } from 'node:stream';
import { faultId, faultLine } from './fault.ts';
import { refusedReply } from './json.ts';
import { LINE_BYTES } from './limits.ts';
import { linesOf } from './lines.ts';
import { readRequestLine, refusedLine } from './read.ts';
import type { Ask } from './records.ts';
import type { Form } from './run.ts';

type Batch = {
  readonly input: Readable;
  readonly output: Writable;
  readonly ask: Ask;
  readonly form: Form;
};

/**
 * Answers one request a line, in order, waiting whenever the reader is slower. A line that cannot be answered gets its
 * refusal and the next one its turn; blank lines are passed over. Gives the exit code: 0 when all were answered, 2 when
 * any was refused, 1 when any failed through our fault.
 */
export async function answerLines({ input, output, ask, form }: Batch): Promise<number> {
  let refused = false;
  let failed = false;
  let nothing = true;
  for await (const line of linesOf(input)) {
    if (line !== null && line.trim() === '') continue;
    nothing = false;
    let text: string;
    try {
      const reading =
        line === null ? refusedLine(`The line is longer than ${LINE_BYTES / 1024} kB.`) : readRequestLine(line);
      const reply = reading.kind === 'read' ? await ask(reading.request) : refusedReply(reading.refusal);
      refused ||= reply.kind !== 'answered' && reply.kind !== 'kept';
      text = form.reply(reply);
    } catch (error) {
      failed = true;
      text = form.fault(faultId(error), faultLine(error));
    }
    if (!output.write(text)) await once(output, 'drain');
  }
  if (nothing) output.write(await form.nothing(ask));
  if (failed) return 1;
  return refused ? 2 : 0;
}
