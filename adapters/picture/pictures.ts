import { Worker } from 'node:worker_threads';
import type { Figure } from '../../src/draw/figure.ts';
import type { Picture, Pictures } from '../../src/draw/pictures.ts';
import type { ThemeName } from '../../src/draw/theme.ts';
import { openCache } from './cache.ts';
import { MOST_CACHED_BYTES, MOST_WAITING } from './limits.ts';
import type { Done, Job } from './worker.ts';

export type OpenPictures = Pictures & {
  /** How many pictures wait for the one that is being drawn. */
  readonly waiting: () => number;
};

type Waiting = { readonly job: Job; readonly settle: (picture: Picture) => void };

/**
 * Draws pictures in one thread beside the answers, one after the other, so that a flood of them slows no text. The same
 * figure asked for twice is drawn once.
 */
export function openPictures(limits: { readonly waiting?: number; readonly cachedBytes?: number } = {}): OpenPictures {
  const mostWaiting = limits.waiting ?? MOST_WAITING;
  const cache = openCache(limits.cachedBytes ?? MOST_CACHED_BYTES);
  const underWay = new Map<string, Promise<Picture>>();
  const waiting: Waiting[] = [];
  let current: Waiting | undefined;
  let worker: Worker | undefined;
  let closed = false;
  let lastId = 0;

  const next = () => {
    if (current !== undefined) return;
    current = waiting.shift();
    if (current === undefined) return;
    worker ??= start();
    worker.postMessage(current.job);
  };

  const finish = (picture: Picture) => {
    const done = current;
    current = undefined;
    done?.settle(picture);
    next();
  };

  const start = (): Worker => {
    const thread = new Worker(new URL('./worker.ts', import.meta.url));
    thread.on('message', ({ id, png }: Done) => {
      if (current?.job.id === id) finish({ kind: 'drawn', png });
    });
    // A thread that fell is not used again: the next picture starts a new one.
    thread.on('error', (error) => {
      if (worker === thread) worker = undefined;
      finish({ kind: 'failed', error });
    });
    return thread;
  };

  const drawn = async (key: string, figure: Figure, theme: ThemeName): Promise<Picture> => {
    const picture = await new Promise<Picture>((settle) => {
      lastId += 1;
      waiting.push({ job: { id: lastId, figure, theme }, settle });
      next();
    });
    underWay.delete(key);
    if (picture.kind === 'drawn') cache.put(key, picture.png);
    return picture;
  };

  return {
    png: async (figure, theme) => {
      if (closed) return { kind: 'closed' };
      const key = `${theme} ${JSON.stringify(figure)}`;
      const png = cache.get(key);
      if (png !== undefined) return { kind: 'drawn', png };
      const same = underWay.get(key);
      if (same !== undefined) return same;
      if (waiting.length >= mostWaiting) return { kind: 'busy' };
      const picture = drawn(key, figure, theme);
      underWay.set(key, picture);
      return picture;
    },
    waiting: () => waiting.length,
    close: async () => {
      closed = true;
      for (const each of waiting.splice(0)) each.settle({ kind: 'closed' });
      finish({ kind: 'closed' });
      await worker?.terminate();
    },
  };
}
