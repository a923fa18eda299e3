import { platform, setPriority } from 'node:os';
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { parentPort } from 'node:worker_threads';
import { draw } from '../../src/draw/draw.ts';
import type { Figure } from '../../src/draw/figure.ts';
import type { ThemeName } from '../../src/draw/theme.ts';
import { COLLECT_EVERY, NICENESS } from './limits.ts';
import { raster } from './raster.ts';

export type Job = { readonly id: number; readonly figure: Figure; readonly theme: ThemeName };
export type Done = { readonly id: number; readonly png: Uint8Array };

// The renderer holds megabytes that JavaScript's own heap knows nothing of, so nothing would ever call for a collection.
setFlagsFromString('--expose-gc');
const collect: () => void = runInNewContext('gc');
let since = 0;

// Where the machine has too little to do both, text goes first. Only here is a priority that of the thread that asks for
// it (NPTL, "Nonconformances" in nptl(7)); elsewhere it would be that of the whole program.
if (platform() === 'linux') {
  try {
    setPriority(NICENESS);
  } catch {
    // Whoever runs the program does not allow it: pictures are drawn all the same.
  }
}

// One job a message: what a collection found is given back only between two. What is thrown here ends the thread, and
// whoever waits is told.
parentPort?.on('message', ({ id, figure, theme }: Job) => {
  const png = raster(draw(figure, theme));
  parentPort?.postMessage({ id, png } satisfies Done, [png.buffer]);
  since += 1;
  if (since % COLLECT_EVERY === 0) collect();
});
