import { readdirSync, readFileSync } from 'node:fs';
import { afterAll, describe, expect, it } from 'vitest';
import { NICENESS } from '../../adapters/picture/limits.ts';
import { openPictures } from '../../adapters/picture/pictures.ts';
import { PIXEL_RATIO, raster } from '../../adapters/picture/raster.ts';
import { draw } from '../../src/draw/draw.ts';
import type { Figure } from '../../src/draw/figure.ts';
import { WIDTH } from '../../src/draw/svg.ts';
import { allFigures } from '../support/pictures.ts';

const MOST_BYTES = 150_000;
const PNG_START = [0x89, 0x50, 0x4e, 0x47];

const pictures = openPictures();
afterAll(() => pictures.close());

/** Figures that differ, as many as wanted. */
function different(count: number): readonly Figure[] {
  return Array.from({ length: count }, (_, index) => ({
    kind: 'measure',
    what: 'chainline',
    tubeMm: 28 + index / 10,
    gapMm: 27,
    lineMm: 41 + index / 20,
  }));
}

async function drawn(figure: Figure, theme: 'light' | 'dark'): Promise<Uint8Array> {
  const picture = await pictures.png(figure, theme);
  if (picture.kind !== 'drawn') throw new Error(picture.kind);
  return picture.png;
}

/** How many threads of this process stand back as far as one that draws (proc(5), `nice` in the status). */
function standingBack(): number {
  return readdirSync('/proc/self/task').filter((thread) => {
    const status = readFileSync(`/proc/self/task/${thread}/stat`, 'utf8');
    return Number(status.slice(status.lastIndexOf(')') + 2).split(' ')[16]) === NICENESS;
  }).length;
}

const widthOf = (png: Uint8Array) => new DataView(png.buffer, png.byteOffset).getUint32(16);

describe('pictures', () => {
  it.runIf(process.platform === 'linux')('are drawn by a thread that stands back for answers, alone', async () => {
    const before = standingBack();
    const own = openPictures();
    const [figure] = different(1);
    if (figure === undefined) throw new Error('There is nothing to draw.');
    await own.png(figure, 'light');
    expect(standingBack()).toBe(before + 1);
    await own.close();
  });

  it('are PNGs of twice the pixels and under 150 kB, every one', async () => {
    const blocks = allFigures();
    expect(blocks.length).toBeGreaterThan(40);
    for (const { figure } of blocks) {
      const png = await drawn(figure, 'light');
      expect([...png.subarray(0, 4)]).toEqual(PNG_START);
      expect(widthOf(png)).toBe(WIDTH * PIXEL_RATIO);
      expect(png.byteLength).toBeLessThan(MOST_BYTES);
    }
  });

  it('are what the renderer makes of the same SVG, byte for byte', async () => {
    const [figure] = different(1);
    if (figure === undefined) throw new Error('none');
    expect(await drawn(figure, 'dark')).toEqual(raster(draw(figure, 'dark')));
  });

  it('show their text: the bundled font is read', () => {
    const labelled = draw({ kind: 'measure', what: 'stays' }, 'light');
    const bare = labelled.replace(/<text.*?<\/text>/g, '');
    expect(raster(labelled).byteLength).toBeGreaterThan(raster(bare).byteLength * 1.1);
    const bold = labelled.replaceAll('class="bold"', '');
    expect(raster(bold)).not.toEqual(raster(labelled));
  });

  it('are drawn once when asked for twice', async () => {
    const own = openPictures({ waiting: 1 });
    const [figure, other, third] = different(3);
    if (figure === undefined || other === undefined || third === undefined) throw new Error('none');
    // One is under way, one waits: there is no room for a third, but the same again needs none.
    const all = await Promise.all([figure, figure, other, other, third].map((each) => own.png(each, 'light')));
    expect(all.map((each) => each.kind)).toEqual(['drawn', 'drawn', 'drawn', 'drawn', 'busy']);
    const again = await own.png(figure, 'light');
    expect(again.kind === 'drawn' && all[0]?.kind === 'drawn' && again.png === all[0].png).toBe(true);
    await own.close();
  });

  it('are refused calmly when as many wait as may, and drawn again afterwards', async () => {
    const own = openPictures({ waiting: 4, cachedBytes: 0 });
    const kinds = await Promise.all(different(20).map(async (figure) => (await own.png(figure, 'light')).kind));
    expect(kinds.filter((kind) => kind === 'drawn')).toHaveLength(5);
    expect(kinds.filter((kind) => kind === 'busy')).toHaveLength(15);
    const [figure] = different(1);
    expect(figure && (await own.png(figure, 'light')).kind).toBe('drawn');
    await own.close();
  });

  it('that cannot be drawn fail alone: the next is drawn', async () => {
    const own = openPictures();
    const broken = { kind: 'measure', what: 'gap' } as unknown as Figure;
    const [good] = different(1);
    if (good === undefined) throw new Error('none');
    const [failed, fine] = await Promise.all([own.png(broken, 'light'), own.png(good, 'light')]);
    expect(failed.kind).toBe('failed');
    expect(fine.kind).toBe('drawn');
    await own.close();
  });

  it('that still wait when it closes are told so, and later ones too', async () => {
    const own = openPictures();
    const waiting = different(3).map((figure) => own.png(figure, 'light'));
    await own.close();
    expect((await Promise.all(waiting)).map((each) => each.kind)).toEqual(['closed', 'closed', 'closed']);
    expect((await own.png({ kind: 'measure', what: 'stays' }, 'light')).kind).toBe('closed');
  });
});
