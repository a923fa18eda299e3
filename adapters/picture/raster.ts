import { Resvg } from '@resvg/resvg-js';
import { FONT } from './font.ts';

/** Pixels of the PNG for one of the SVG, so that it stays sharp on fine screens. */
export const PIXEL_RATIO = 2;

/** SVG text as PNG bytes. */
export function raster(svg: string): Uint8Array<ArrayBuffer> {
  const resvg = new Resvg(svg, { font: FONT, fitTo: { mode: 'zoom', value: PIXEL_RATIO } });
  // Copied out of the renderer's own memory, so that the bytes can be handed to another thread.
  return new Uint8Array(resvg.render().asPng());
}
