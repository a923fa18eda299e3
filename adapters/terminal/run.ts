import type { Readable, Writable } from 'node:stream';
import type { Pictures } from '../../src/draw/pictures.ts';
import { ask, type Solved } from '../../src/workbench.ts';
import { type Config, readConfig } from './config.ts';
import { inertJson } from './escape.ts';
import { refusedReply, replyJson } from './json.ts';
import { askedOf } from './line.ts';
import { withUsage } from './usage.ts';

type Surroundings = {
  readonly args: readonly string[];
  readonly env: Readonly<Record<string, string | undefined>>;
  /** Opened only where nothing is asked in the arguments. */
  readonly openInput: () => Readable & { readonly isTTY?: boolean };
  readonly output: Writable & { readonly isTTY?: boolean; readonly columns?: number };
  /** Called only where pictures are wanted. */
  readonly openPictures: () => Promise<Pictures>;
};

/** How a reply, or a fault of ours, is written: whole lines. */
export type Form = {
  readonly reply: (reply: Solved) => string;
  readonly fault: (id: string, words: string) => string;
  /** What is written where the input held nothing to answer. */
  readonly nothing: () => string;
};

/** Answers what the arguments, the lines on standard input or a conversation ask, and gives the exit code. */
export async function run({ args, env, openInput, output, openPictures }: Surroundings): Promise<number> {
  const config = readConfig({ args, env, screen: { isTTY: output.isTTY ?? false, columns: output.columns } });
  if (config.kind === 'run' && config.words.length === 0) {
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
  const reply = config.kind === 'refused' ? refusedReply(config.refusal) : answered(config.words.join(' '));
  output.write(form.reply(reply));
  if (config.kind === 'run' && config.picturesTo !== null) {
    const { writePictures } = await import('./pictures.ts');
    const told = await writePictures(reply.card, config.picturesTo, openPictures);
    if (config.output === 'text') output.write(`\n${told}\n`);
  }
  return reply.kind === 'answered' ? 0 : 2;
}

function answered(words: string): Solved {
  if (words === '') {
    return refusedReply({
      field: 'command',
      message: 'With --json and no command, requests are read from standard input, one a line.',
      allowed: 'a command after --json, or lines from a file or a pipe',
      example: '--json convert 2x10 36/22 11-36',
    });
  }
  const asked = askedOf(words);
  const reply = ask(asked);
  return reply.command === 'help' && asked.setup === '' ? withUsage(reply) : reply;
}

/** What lays out text is loaded only where text is wanted. */
async function formOf({ output, look, why }: Config, after: string): Promise<Form> {
  if (output === 'json') {
    return {
      reply: (reply) => `${replyJson(reply)}\n`,
      fault: (id, words) => `${inertJson({ fault: { id, message: words } })}\n`,
      nothing: () => '',
    };
  }
  const { render, withoutWorking } = await import('./render.ts');
  return {
    reply: (reply) => render(why ? reply.card : withoutWorking(reply.card), look) + after,
    fault: (_, words) => `${words}\n${after}`,
    nothing: () => render(answered('help').card, look),
  };
}
