import { parentPort } from 'node:worker_threads';
import { draw } from '../../src/draw/draw.ts';
import type { Figure } from '../../src/draw/figure.ts';
import type { ThemeName } from '../../src/draw/theme.ts';
import { raster } from './raster.ts';

export type Job = { readonly id: number; readonly figure: Figure; readonly theme: ThemeName };
export type Done = { readonly id: number; readonly png: Uint8Array };

// One job a message: between two, the renderer's native memory is given back. What is thrown here ends the thread, and
// whoever waits is told.
parentPort?.on('message', ({ id, figure, theme }: Job) => {
  const png = raster(draw(figure, theme));
  parentPort?.postMessage({ id, png } satisfies Done, [png.buffer]);
});
