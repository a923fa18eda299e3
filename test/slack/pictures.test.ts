import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { OURS } from '../../adapters/slack/limits.ts';
import { pictureAddress, servePicture } from '../../adapters/slack/picture-address.ts';
import type { Web } from '../../adapters/slack/ports.ts';
import type { Scene } from '../../adapters/slack/read.ts';
import { openShooter } from '../../adapters/slack/shots.ts';
import type { FigureBlock } from '../../src/card/card.ts';
import type { Figure } from '../../src/draw/figure.ts';
import type { Picture, Pictures } from '../../src/draw/pictures.ts';
import type { Records } from '../../src/records/records.ts';
import { StorageAway } from '../../src/records/storage-away.ts';
import type { Reply } from '../../src/request.ts';
import { openHouse } from '../support/slack-house.ts';
import { buttonOf, NOON_MS, readable, selectOf, shownAt } from '../support/slack-stage.ts';
import { place } from '../support/storages.ts';

const SECRET = new Uint8Array(32).fill(7);
const BASE = 'https://ringwright.example.org';
const FIGURE: Figure = { kind: 'measure', what: 'stays' };
const PNG = Uint8Array.of(0x89, 0x50, 0x4e, 0x47);

/** Pictures that are drawn at once, and counted. */
function drawing(picture: (figure: Figure) => Picture = () => ({ kind: 'drawn', png: PNG })) {
  const drawn: Figure[] = [];
  const pictures: Pictures = {
    png: (figure) => {
      drawn.push(figure);
      return Promise.resolve(picture(figure));
    },
    close: () => Promise.resolve(),
  };
  return { drawn, pictures };
}

let house: Awaited<ReturnType<typeof openHouse>>;
beforeAll(async () => {
  house = await openHouse();
});
afterAll(() => house.end());

describe('the address of a picture', () => {
  const address = pictureAddress(BASE, SECRET, FIGURE, null, NOON_MS) ?? '';
  const name = address.slice(`${BASE}/pictures/`.length);
  const { pictures, drawn } = drawing();
  const records = {} as Records;
  const serve = (asked: string, nowMs = NOON_MS) => servePicture(asked, SECRET, pictures, records, nowMs);

  it('gives the picture, to be kept until it stops working', async () => {
    const served = await serve(name);
    expect(served).toMatchObject({ status: 200, headers: { 'content-type': 'image/png' }, body: PNG });
    expect(served.headers['cache-control']).toMatch(/^public, max-age=\d+, immutable$/);
    expect(drawn.at(-1)).toEqual(FIGURE);
  });

  it('is the same for the same picture all day, so that caches know it', () => {
    const later = pictureAddress(BASE, SECRET, FIGURE, null, NOON_MS + 3 * 60 * 60_000);
    expect(later).toBe(address);
  });

  it('stops working', async () => {
    expect((await serve(name, NOON_MS + OURS.pictureMs)).status).toBe(200);
    expect((await serve(name, NOON_MS + OURS.pictureMs + 86_400_000)).status).toBe(410);
  });

  it.each([
    ['another figure', (told: string) => told.replace(/\.f\.[^.]+\./, '.f.q1bKzkhNLs7PTVGyUqoFAA.')],
    ['another day', (told: string) => told.replace(/^\w+/, 'zzzzzzzz')],
    [
      'another signature',
      (told: string) =>
        told.replace(/\.([\w-])([\w-]*)\.png$/, (_, first, rest) => `.${first === 'A' ? 'B' : 'A'}${rest}.png`),
    ],
    ['no signature', (told: string) => told.replace(/\.[\w-]+\.png$/, '..png')],
    ['another ending', (told: string) => told.replace(/png$/, 'svg')],
    ['more behind it', (told: string) => `${told}.png`],
    ['an address of somebody else', () => 'https%3A%2F%2Fexample.org%2Fx.png'],
    ['nothing', () => ''],
    ['far too much', () => 'x'.repeat(100_000)],
  ])('with %s draws nothing', async (_, forged) => {
    const before = drawn.length;
    expect((await serve(forged(name))).status).toBe(404);
    expect(drawn).toHaveLength(before);
  });

  it('signed with another secret draws nothing', async () => {
    const other = pictureAddress(BASE, new Uint8Array(32), FIGURE, null, NOON_MS) ?? '';
    expect((await serve(other.slice(`${BASE}/pictures/`.length))).status).toBe(404);
  });

  it('asked for too often at once asks to come again', async () => {
    const busy = drawing(() => ({ kind: 'busy' })).pictures;
    expect(await servePicture(name, SECRET, busy, records, NOON_MS)).toMatchObject({
      status: 503,
      headers: { 'retry-after': '2' },
    });
  });

  it('of a figure that is too large for one names where the figure is kept', async () => {
    const stage = await house.stage({ kind: 'address', base: BASE, secret: SECRET });
    const reply = await stage.slash('UANN', 'convert 2x10 36/22 11-36 29er 104bcd');
    const code = /Code #(\w{8})/.exec(readable(shownAt(reply)))?.[1] ?? '';
    const wide = { kind: 'gears', now: Array.from({ length: 900 }, (_, at) => Math.sin(at)) } as unknown as Figure;
    expect(pictureAddress(BASE, SECRET, wide, null, NOON_MS)).toBeNull();
    const kept = { place: place('slack:T01TEAM'), code, index: 0 };
    const byReceipt = pictureAddress(BASE, SECRET, wide, kept, NOON_MS) ?? '';
    expect(byReceipt.length).toBeLessThan(400);
    const shot = drawing();
    const asked = byReceipt.slice(`${BASE}/pictures/`.length);
    expect((await servePicture(asked, SECRET, shot.pictures, stage.ports.records, NOON_MS)).status).toBe(200);
    expect(shot.drawn[0]).toMatchObject({ kind: 'gears', everyGear: expect.any(Boolean) });
    const gone = pictureAddress(BASE, SECRET, wide, { ...kept, code: 'ZZZZZZZZ' }, NOON_MS) ?? '';
    expect(
      (await servePicture(gone.slice(`${BASE}/pictures/`.length), SECRET, shot.pictures, stage.ports.records, NOON_MS))
        .status,
    ).toBe(404);
    const away = { receipts: { read: () => Promise.reject(new StorageAway('busy')) } } as unknown as Records;
    expect((await servePicture(asked, SECRET, shot.pictures, away, NOON_MS)).status).toBe(503);
  });
});

describe('a card with pictures', () => {
  it('shows them by their address, with their words beside them', async () => {
    const stage = await house.stage({ kind: 'address', base: BASE, secret: SECRET });
    const card = shownAt(await stage.slash('UANN', 'convert 2x10 36/22 11-36 29er 104bcd stays=440mm'));
    const gears = shownAt(await stage.press('UANN', selectOf(card, 'More about it'), {}, 'gears'));
    const images = gears.blocks.filter((block) => block.type === 'image');
    expect(images.length).toBeGreaterThan(0);
    for (const image of images) {
      expect(image.alt_text.length).toBeGreaterThan(40);
      if (!('image_url' in image)) throw new Error('no address');
      const served = await servePicture(
        image.image_url.slice(`${BASE}/pictures/`.length),
        SECRET,
        drawing().pictures,
        stage.ports.records,
        NOON_MS,
      );
      expect(served.status).toBe(200);
    }
    expect(stage.platform.faults).toEqual([]);
  });

  it('uploads them where there is no address, after the text is there', async () => {
    const { pictures, drawn } = drawing();
    const stage = await house.stage({ kind: 'upload', pictures });
    const card = shownAt(await stage.slash('UANN', 'convert 2x10 36/22 11-36 29er 104bcd stays=440mm'));
    const chain = await stage.press('UANN', buttonOf(card, 'Chain'));
    expect(chain.arrived).toHaveLength(2);
    const [text, picture] = chain.arrived;
    expect(text?.message.blocks.some((block) => block.type === 'image')).toBe(false);
    expect(readable(text?.message ?? { blocks: [] })).toContain('What to count and where to cut');
    expect(picture).toMatchObject({ replaces: true });
    expect(picture?.message.blocks.find((block) => block.type === 'image')).toMatchObject({
      slack_file: { id: expect.any(String) },
    });
    // The same picture is uploaded once.
    await stage.press('UANN', buttonOf(card, 'Chain'));
    expect(drawn).toHaveLength(1);
    expect(stage.platform.faults).toEqual([]);
  });

  it('waits until the platform has taken a file in, and says nothing where it never does', async () => {
    const stage = await house.stage({ kind: 'upload', pictures: drawing().pictures });
    const card = shownAt(await stage.slash('UANN', 'convert 2x10 36/22 11-36 29er 104bcd stays=440mm'));
    stage.platform.takeFilesAfter(OURS.uploadLooks + 1);
    const never = await stage.press('UANN', buttonOf(card, 'Chain'));
    expect(never.arrived).toHaveLength(1);
    stage.platform.takeFilesAfter(OURS.uploadLooks);
    const late = await stage.press('UANN', buttonOf(card, 'Chain'));
    expect(late.arrived).toHaveLength(2);
  });

  it('keeps its text where the address for answers takes no files', async () => {
    const stage = await house.stage({ kind: 'upload', pictures: drawing().pictures });
    stage.platform.takeFilesByAddress(false);
    stage.platform.channels.clear();
    const card = shownAt(await stage.slash('UANN', 'convert 2x10 36/22 11-36 29er 104bcd stays=440mm'));
    const { arrived } = await stage.press('UANN', buttonOf(card, 'Chain'));
    expect(arrived).toHaveLength(1);
    expect(readable(arrived[0]?.message ?? { blocks: [] })).toContain('What to count and where to cut');
  });

  it('says once that there are none where uploading is not allowed', async () => {
    const stage = await house.stage({ kind: 'upload', pictures: drawing().pictures });
    stage.platform.refuse('files.getUploadURLExternal', 'missing_scope');
    const card = shownAt(await stage.slash('UANN', 'convert 2x10 36/22 11-36 29er 104bcd stays=440mm'));
    const said = async () =>
      readable(shownAt(await stage.press('UANN', buttonOf(card, 'Chain')))).includes('Pictures cannot be shown here');
    expect([await said(), await said(), await said()]).toEqual([false, true, false]);
  });

  it('draws none for nothing once it is known that uploading is not allowed', async () => {
    const { pictures, drawn } = drawing();
    const shooter = openShooter(
      { kind: 'upload', pictures },
      () => NOON_MS,
      () => Promise.resolve(),
    );
    const figures = ['stays', 'bcd'].map((what): FigureBlock => {
      return { kind: 'figure', section: 'chain', title: what, alt: what, figure: { ...FIGURE, what } as Figure };
    });
    const web: Web = {
      call: () => Promise.resolve({ ok: false, error: 'missing_scope' }),
      respond: () => Promise.resolve(false),
      send: () => Promise.resolve(false),
    };
    const { later } = shooter({} as Reply, figures, { team: 'T1' } as Scene, web);
    expect(await later?.()).toEqual(new Map());
    expect(drawn).toHaveLength(1);
  });

  it('says once that there are none where none are wanted', async () => {
    const stage = await house.stage({ kind: 'none' });
    const texts = [await stage.slash('UANN', 'measure bcd'), await stage.slash('UANN', 'measure bcd')].map((each) =>
      readable(shownAt(each)),
    );
    expect(texts.map((text) => text.includes('Pictures cannot be shown here'))).toEqual([true, false]);
    for (const text of texts) expect(text).toContain('Two rings from the side');
  });

  it('that cannot be drawn is shown in words, and logged', async () => {
    const failing = drawing(() => ({ kind: 'failed', error: new Error('secret') }));
    const stage = await house.stage({ kind: 'upload', pictures: failing.pictures });
    const { ack, arrived } = await stage.slash('UANN', 'measure bcd');
    expect(arrived).toEqual([]);
    expect(readable(shownAt({ ack, arrived, windows: [] }))).toContain('Two rings from the side');
    expect(JSON.stringify(stage.lines)).toContain('its words were');
    expect(JSON.stringify(stage.lines)).not.toContain('secret');
  });
});
