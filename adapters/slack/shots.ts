import type { FigureBlock } from '../../src/card/card.ts';
import type { Pictures } from '../../src/draw/pictures.ts';
import type { Reply } from '../../src/request.ts';
import type { PictureWay } from './config.ts';
import { label, plain } from './escape.ts';
import { keyFrom } from './installations.ts';
import { LIMITS, OURS } from './limits.ts';
import type { Shots } from './pages.ts';
import { type Kept, pictureAddress } from './picture-address.ts';
import type { Web } from './ports.ts';
import type { Scene } from './read.ts';
import { upload } from './upload.ts';
import type { Image } from './wire.ts';
import { WORDS } from './words.ts';

/** How figures become pictures here: by an address that the platform fetches, as uploaded files, or not at all. */
export type Way =
  | { readonly kind: 'address'; readonly base: string; readonly secret: Uint8Array }
  | { readonly kind: 'upload'; readonly pictures: Pictures }
  | { readonly kind: 'none' };

/** The way that is set. The secret of addresses becomes a key that is for nothing else. */
export function wayOf(set: PictureWay, pictures: Pictures): Way {
  switch (set.kind) {
    case 'address':
      return { kind: 'address', base: set.base, secret: keyFrom(set.secret, 'pictures') };
    case 'upload':
      return { kind: 'upload', pictures };
    case 'none':
      return { kind: 'none' };
  }
}

/** The pictures there are at once, what to say where there are none, and how to get them a little later. */
export type Shot = {
  readonly shots: Shots;
  readonly remark: string;
  readonly later: (() => Promise<Shots>) | null;
};

export type Shooter = (reply: Reply, figures: readonly FigureBlock[], scene: Scene, web: Web | null) => Shot;

const NONE: Shots = new Map();

export function openShooter(way: Way, nowMs: () => number, wait: (ms: number) => Promise<void>): Shooter {
  /** Workspaces that were told that there are no pictures: once is enough. */
  const told = new Set<string>();
  const never = new Set<string>();
  const files = new Map<string, string>();

  const without = (team: string): Shot => {
    const remark = told.has(team) ? '' : WORDS.noPicture;
    remember(told, team);
    return { shots: NONE, remark, later: null };
  };

  const uploaded = async (block: FigureBlock, pictures: Pictures, team: string, web: Web): Promise<Image | null> => {
    const key = `${team} ${JSON.stringify(block.figure)}`;
    const known = files.get(key);
    if (known !== undefined) return image(block, { slack_file: { id: known } });
    if (never.has(team)) return null;
    const picture = await pictures.png(block.figure, 'light');
    if (picture.kind === 'failed') throw picture.error;
    if (picture.kind !== 'drawn') return null;
    const sent = await upload(picture.png, { filename: `${block.section}.png`, alt: block.alt }, web, wait);
    if (sent.kind === 'never') remember(never, team);
    if (sent.kind !== 'there') return null;
    files.set(key, sent.file);
    forgetOldest(files, OURS.uploaded);
    return image(block, { slack_file: { id: sent.file } });
  };

  return (reply, figures, scene, web) => {
    if (figures.length === 0) return { shots: NONE, remark: '', later: null };
    const { team } = scene;
    switch (way.kind) {
      case 'address': {
        const shots = new Map<string, Image>();
        for (const block of figures) {
          const address = pictureAddress(way.base, way.secret, block.figure, keptAt(reply, block, scene), nowMs());
          if (address !== null) shots.set(block.alt, image(block, { image_url: address }));
        }
        return { shots, remark: '', later: null };
      }
      case 'upload': {
        if (web === null || never.has(team)) return without(team);
        const { pictures } = way;
        const later = async () => {
          const shots = new Map<string, Image>();
          for (const block of figures) {
            const made = await uploaded(block, pictures, team, web);
            if (made !== null) shots.set(block.alt, made);
          }
          return shots;
        };
        return { shots: NONE, remark: '', later };
      }
      case 'none':
        return without(team);
    }
  };
}

function image(
  { title, alt }: FigureBlock,
  from: { readonly image_url: string } | { readonly slack_file: { readonly id: string } },
): Image {
  const heading = title === '' ? {} : { title: label(title, LIMITS.imageTitle) };
  return { type: 'image', alt_text: plain(alt).text, ...heading, ...from };
}

/** Where a figure is kept with the answer it belongs to; null for one that is not. */
function keptAt(reply: Reply, block: FigureBlock, { who }: Scene): Kept | null {
  if (who === null || (reply.kind !== 'answered' && reply.kind !== 'asks')) return null;
  const { receipt, card } = reply;
  if (receipt === undefined || receipt === null) return null;
  const index = card.blocks.filter((each) => each.kind === 'figure').indexOf(block);
  return index === -1 ? null : { place: who.place, code: receipt.code, index };
}

function remember(set: Set<string>, team: string): void {
  set.add(team);
  forgetOldest(set, OURS.known);
}

function forgetOldest(remembered: Set<string> | Map<string, string>, most: number): void {
  for (const oldest of remembered.keys()) {
    if (remembered.size <= most) break;
    remembered.delete(oldest);
  }
}
