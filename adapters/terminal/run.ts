import type { Readable, Writable } from 'node:stream';
import type { Pictures } from '../../src/draw/pictures.ts';
import type { Where } from '../../src/records/where.ts';
import type { Printable, Reply } from '../../src/request.ts';
import { type Config, readConfig } from './config.ts';
import { inertJson } from './escape.ts';
import { refusedReply, replyJson } from './json.ts';
import { typedCard } from './kept-card.ts';
import { askedOf } from './line.ts';
import { type Ask, type OpenRecords, openAsk } from './records.ts';
import { withUsage } from './usage.ts';

type Surroundings = {
  readonly args: readonly string[];
  readonly env: Readonly<Record<string, string | undefined>>;
  /** Opened only where nothing is asked in the arguments. */
  readonly openInput: () => Readable & { readonly isTTY?: boolean };
  readonly output: Writable & { readonly isTTY?: boolean; readonly columns?: number };
  /** Called only where pictures are wanted. */
  readonly openPictures: () => Promise<Pictures>;
  /** Called only where a page is to be printed. */
  readonly printPage: (page: Printable) => Promise<Uint8Array>;
  /** Called only where something is kept or asked for again. */
  readonly openRecords: (where: Where) => Promise<OpenRecords>;
};

/** How a reply, or a fault of ours, is written: whole lines. */
export type Form = {
  readonly reply: (reply: Reply) => string;
  readonly fault: (id: string, words: string) => string;
  /** What is written where the input held nothing to answer. */
  readonly nothing: (ask: Ask) => Promise<string>;
};

/** Answers what the arguments, the lines on standard input or a conversation ask, and gives the exit code. */
export async function run({
  args,
  env,
  openInput,
  output,
  openPictures,
  openRecords,
  printPage,
}: Surroundings): Promise<number> {
  const config = readConfig({ args, env, screen: { isTTY: output.isTTY ?? false, columns: output.columns } });
  if (config.kind === 'refused') {
    output.write((await formOf(config, '')).reply(refusedReply(config.refusal)));
    return 2;
  }
  // What machines read must be the same bytes for the same question, so that nothing is kept there unasked.
  const { ask, close } = openAsk(config.where, config.sitter, config.output === 'text', openRecords);
  try {
    return await serve(config, { openInput, output, openPictures, printPage, ask });
  } finally {
    await close();
  }
}

type Service = Pick<Surroundings, 'openInput' | 'output' | 'openPictures' | 'printPage'> & { readonly ask: Ask };

async function serve(
  config: Extract<Config, { readonly kind: 'run' }>,
  { openInput, output, openPictures, printPage, ask }: Service,
): Promise<number> {
  if (config.words.length === 0) {
    const input = openInput();
    if (!input.isTTY) {
      const { answerLines } = await import('./batch.ts');
      return answerLines({ input, output, ask, form: await formOf(config, '\n') });
    }
    if (config.output === 'text') {
      const { converse } = await import('./conversation.ts');
      await converse({ input, output, look: config.look, ask });
      return 0;
    }
  }
  const form = await formOf(config, '');
  const reply = await answered(config.words.join(' '), ask);
  output.write(form.reply(reply));
  if (reply.kind === 'kept' && reply.print !== undefined) {
    const { writePage } = await import('./page.ts');
    const told = await writePage(reply.print, config.picturesTo ?? '.', printPage);
    if (config.output === 'text') output.write(`\n${told}\n`);
  } else if (config.picturesTo !== null) {
    const { writePictures } = await import('./pictures.ts');
    const told = await writePictures(reply.card, config.picturesTo, openPictures);
    if (config.output === 'text') output.write(`\n${told}\n`);
  }
  return reply.kind === 'answered' || reply.kind === 'kept' ? 0 : 2;
}

async function answered(words: string, ask: Ask): Promise<Reply> {
  if (words === '') {
    return refusedReply({
      field: 'command',
      message: 'With --json and no command, requests are read from standard input, one a line.',
      allowed: 'a command after --json, or lines from a file or a pipe',
      example: '--json convert 2x10 36/22 11-36',
    });
  }
  const asked = askedOf(words);
  const reply = await ask(asked);
  return reply.command === 'help' && asked.setup === '' ? withUsage(reply) : reply;
}

/** What lays out text is loaded only where text is wanted. */
async function formOf({ output, look, why }: Config, after: string): Promise<Form> {
  if (output === 'json') {
    return {
      reply: (reply) => `${replyJson(reply)}\n`,
      fault: (id, words) => `${inertJson({ fault: { id, message: words } })}\n`,
      nothing: async () => '',
    };
  }
  const { render, withoutWorking } = await import('./render.ts');
  const { receiptText } = await import('./receipt.ts');
  return {
    reply: (reply) =>
      render(why ? typedCard(reply) : withoutWorking(typedCard(reply)), look) + receiptText(reply, look) + after,
    fault: (_, words) => `${words}\n${after}`,
    nothing: async (ask) => render(withUsage(await ask({ command: 'help', setup: '' })).card, look),
  };
}
