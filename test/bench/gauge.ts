import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';

/**
 * Loaded before a measured program (`node --import`): says how much memory the process holds once everything that can be
 * given back was given back. The program itself knows nothing of it.
 */
export type Held = {
  /** What the machine says the process has, threads and the renderer included. */
  readonly rssBytes: number;
  /** Objects of JavaScript on the main thread. */
  readonly heapBytes: number;
  /** Buffers: pictures, bodies. */
  readonly buffersBytes: number;
};

setFlagsFromString('--expose-gc');
const collect: () => void = runInNewContext('gc');

process.on('message', () => {
  collect();
  // What a collection found outside its own heap is given back a turn later.
  setTimeout(() => {
    collect();
    const { rss, heapUsed, external } = process.memoryUsage();
    process.send?.({ rssBytes: rss, heapBytes: heapUsed, buffersBytes: external } satisfies Held);
  }, 100);
});
process.channel?.unref();
