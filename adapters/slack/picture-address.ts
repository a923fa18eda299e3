import { createHmac, timingSafeEqual } from 'node:crypto';
import { deflateRawSync, inflateRawSync } from 'node:zlib';
import type { Card, FigureBlock } from '../../src/card/card.ts';
import type { Figure } from '../../src/draw/figure.ts';
import type { Pictures } from '../../src/draw/pictures.ts';
import type { Place } from '../../src/records/place.ts';
import type { Records } from '../../src/records/records.ts';
import { StorageAway } from '../../src/records/storage-away.ts';
import { LIMITS, OURS } from './limits.ts';

/** Where in the records a figure stands: on the card of a receipt, counted among its figures. */
export type Kept = { readonly place: Place; readonly code: string; readonly index: number };

/** The path below which pictures are found. */
export const PICTURE_PATH = '/pictures/';

const DAY_MS = 86_400_000;
/** The longest figure, unpacked; a signature vouches for it, this only for our own memory. */
const FIGURE_BYTES = 200_000;

/**
 * The address of a picture, or null where it would be too long. It holds the figure itself, or where the figure is kept,
 * and the day on which it stops working, signed: nobody can have us draw anything else.
 */
export function pictureAddress(
  base: string,
  secret: Uint8Array,
  figure: Figure,
  kept: Kept | null,
  nowMs: number,
): string | null {
  // A whole day, so that the same picture has the same address for a while, and caches know it.
  const until = (Math.ceil((nowMs + OURS.pictureMs) / DAY_MS) * DAY_MS).toString(36);
  const bodies = [`f.${packed(figure)}`, ...(kept === null ? [] : [`r.${packed(kept)}`])];
  const addresses = bodies.map((body) => {
    const signed = `${until}.${body}`;
    return `${base}${PICTURE_PATH}${signed}.${signature(signed, secret)}.png`;
  });
  return addresses.find((each) => each.length <= LIMITS.imageUrl) ?? null;
}

function packed(value: unknown): string {
  return deflateRawSync(JSON.stringify(value)).toString('base64url');
}

function unpacked(body: string): unknown {
  return JSON.parse(inflateRawSync(Buffer.from(body, 'base64url'), { maxOutputLength: FIGURE_BYTES }).toString('utf8'));
}

function signature(signed: string, secret: Uint8Array): string {
  return createHmac('sha256', secret).update(signed).digest('base64url');
}

function isSigned(signed: string, given: string, secret: Uint8Array): boolean {
  const right = Buffer.from(signature(signed, secret));
  const told = Buffer.from(given);
  return right.length === told.length && timingSafeEqual(right, told);
}

export type Served = {
  readonly status: 200 | 404 | 410 | 503;
  readonly headers: Readonly<Record<string, string>>;
  readonly body: Uint8Array;
};

const NOTHING = new Uint8Array();

/** Answers a request for a picture, by the last part of its path. */
export async function servePicture(
  name: string,
  secret: Uint8Array,
  pictures: Pictures,
  records: Records,
  nowMs: number,
): Promise<Served> {
  const [until = '', kind = '', body = '', given = '', ending, ...more] = name.split('.');
  const missing: Served = { status: 404, headers: {}, body: NOTHING };
  if (name.length > LIMITS.imageUrl || ending !== 'png' || more.length > 0) return missing;
  if (!isSigned(`${until}.${kind}.${body}`, given, secret)) return missing;
  const untilMs = Number.parseInt(until, 36);
  if (!(untilMs > nowMs)) return { status: 410, headers: {}, body: NOTHING };
  const later: Served = { status: 503, headers: { 'retry-after': '2' }, body: NOTHING };
  try {
    const figure = kind === 'f' ? (unpacked(body) as Figure) : await keptFigure(unpacked(body) as Kept, records);
    if (figure === null) return missing;
    const picture = await pictures.png(figure, 'light');
    if (picture.kind === 'failed') throw picture.error;
    if (picture.kind !== 'drawn') return later;
    const seconds = Math.floor((untilMs - nowMs) / 1000);
    const headers = {
      'content-type': 'image/png',
      'content-length': String(picture.png.length),
      'cache-control': `public, max-age=${seconds}, immutable`,
      'x-content-type-options': 'nosniff',
    };
    return { status: 200, headers, body: picture.png };
  } catch (error) {
    if (error instanceof StorageAway) return later;
    throw error;
  }
}

async function keptFigure({ place, code, index }: Kept, records: Records): Promise<Figure | null> {
  const receipt = await records.receipts.read(place, code);
  if (receipt === null) return null;
  const { blocks } = JSON.parse(receipt.card) as Card;
  const figures = blocks.filter((block): block is FigureBlock => block.kind === 'figure');
  return figures[index]?.figure ?? null;
}
