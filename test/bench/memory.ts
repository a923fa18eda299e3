import { fork } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import type { Asked, Asking, Ready } from './asker.ts';
import type { Held } from './gauge.ts';
import { openPeer } from './peer.ts';
import { median, type Row } from './row.ts';
import type { Came, Fetching, Sink } from './sink.ts';

/** Goal of whoever ordered the program: memory after very many questions against after few. */
const GOAL_RATIO = 1.1;

/** How many questions are few, how many are very many, and how often is looked at what they left. */
export type Many = { readonly few: number; readonly many: number; readonly looks: number };

/** The numbers are the goal's own; by hand, some minutes. */
export const VERY_MANY: Many = { few: 1000, many: 100_000, looks: 9 };

/** Of ten questions one shows a picture and one is about what is kept; most people read and ask on. */
const PICTURES_EVERY = 10;
const KEPT_EVERY = 10;
/** As the image and the unit in `deploy` start it. */
const AS_DEPLOYED = {
  execArgv: ['--max-old-space-size=256', '--max-semi-space-size=16'],
  env: { MALLOC_ARENA_MAX: '2' },
};
/**
 * So many questions lie between two looks: what a picture leaves behind lies around until the next collection on its
 * thread, so that one moment says nothing.
 */
const LOOK_EVERY = 40;

export type MemoryRow = Row & { readonly asked: number; readonly answered: number; readonly pictures: number };

/**
 * What the program holds after many questions against after few: over HTTP, by ever other people in ever other places,
 * each about another bike, every receipt kept in SQLite, pictures drawn and sent.
 */
export async function measureMemory({ few, many, looks }: Many = VERY_MANY): Promise<readonly MemoryRow[]> {
  const folder = mkdtempSync(join(tmpdir(), 'ringwright-bench-'));
  const [sink, asker] = await Promise.all([openPeer<Sink>('./sink.ts'), openPeer<Ready>('./asker.ts')]);
  const { base } = sink.told;
  const program = await started({
    DISCORD_MODE: 'http',
    DISCORD_PORT: '0',
    DISCORD_PUBLIC_KEY: asker.told.publicKey,
    DISCORD_API: `${base}/api`,
    RINGWRIGHT_DATA: folder,
  });
  const { port } = program;
  const common = { platform: 'discord', port, base, picturesEvery: PICTURES_EVERY, keptEvery: KEPT_EVERY } as const;
  const counts = { asked: 0, answered: 0, pictures: 0 };
  const ask = async (count: number) => {
    const [from, until] = [counts.asked, counts.asked + count];
    const { answered } = await asker.ask<Asked>({ ...common, perSecond: null, from, until } satisfies Asking);
    await wait(1000);
    counts.asked = until;
    counts.answered += answered;
    counts.pictures += (await sink.ask<Came>({ port } satisfies Fetching)).length;
  };
  const held = async (): Promise<Held> => {
    const seen: Held[] = [];
    for (let each = 0; each < looks; each += 1) {
      await ask(LOOK_EVERY);
      seen.push(await program.held());
    }
    return {
      rssBytes: median(seen.map(({ rssBytes }) => rssBytes)),
      heapBytes: median(seen.map(({ heapBytes }) => heapBytes)),
      buffersBytes: median(seen.map(({ buffersBytes }) => buffersBytes)),
    };
  };
  try {
    await ask(few);
    const early = await held();
    await ask(many - counts.asked);
    const late = await held();
    const row = (what: string, bytes: (held: Held) => number, goal: number | null, limitedBy: string): MemoryRow => ({
      ...counts,
      what: `${what} after ${many} questions`,
      measured: megabytes(bytes(late)),
      baseline: `${megabytes(bytes(early))} after ${few}`,
      ratio: bytes(late) / bytes(early),
      goal,
      limitedBy,
    });
    return [
      row(
        'Memory of the process',
        ({ rssBytes }) => rssBytes,
        GOAL_RATIO,
        'pictures and people remembered, up to a bound',
      ),
      row('Objects on the main thread', ({ heapBytes }) => heapBytes, null, 'people and places that are paced'),
      row('Buffers', ({ buffersBytes }) => buffersBytes, null, 'pictures remembered, up to a bound'),
    ];
  } finally {
    await program.end();
    sink.end();
    asker.end();
    rmSync(folder, { recursive: true, force: true });
  }
}

function megabytes(bytes: number): string {
  return `${(bytes / 1024 / 1024).toFixed(0)} MB`;
}

async function started(env: Readonly<Record<string, string>>) {
  const main = fileURLToPath(new URL('../../adapters/discord/main.ts', import.meta.url));
  const child = fork(main, [], {
    execArgv: [...AS_DEPLOYED.execArgv, '--import', new URL('./gauge.ts', import.meta.url).href],
    env: { PATH: process.env.PATH, ...AS_DEPLOYED.env, ...env },
    silent: true,
  });
  const ended = once(child, 'close');
  let output = '';
  const port = await new Promise<number>((resolve, reject) => {
    child.stdout?.on('data', (data: Buffer) => {
      // What it logs afterwards is read, so that its pipe never fills, and let go.
      if (!output.includes('"answering"')) output += data.toString();
      const found = /"port":(\d+)/.exec(output)?.[1];
      if (output.includes('"answering"') && found !== undefined) resolve(Number(found));
    });
    child.stderr?.resume();
    child.once('close', () => reject(new Error('The measured program ended.')));
  });
  return {
    port,
    held: async (): Promise<Held> => {
      child.send('how much');
      const [held] = (await once(child, 'message')) as [Held];
      return held;
    },
    end: async () => {
      child.kill('SIGTERM');
      await ended;
    },
  };
}
