import type { Desk } from '../../src/desk.ts';
import type { Pictures } from '../../src/draw/pictures.ts';
import type { Log } from '../../src/log.ts';
import type { Notice } from '../../src/notice.ts';
import type { Records } from '../../src/records/records.ts';
import type { Sources } from './sources.ts';

/** Everything that watches a program. It stands around what the program is made of, which knows nothing of it. */
export type Watch = {
  /** Missing where nobody counts. */
  readonly notice: Notice | undefined;
  readonly desk: (desk: Desk) => Desk;
  readonly records: <Opened extends Records>(records: Opened) => Opened;
  readonly pictures: (pictures: Pictures) => Pictures;
  /** From now on these parts are asked as well. */
  readonly follow: (more: Sources) => void;
  readonly close: () => Promise<void>;
};

const UNWATCHED: Watch = {
  notice: undefined,
  desk: (desk) => desk,
  records: (records) => records,
  pictures: (pictures) => pictures,
  follow: () => undefined,
  close: () => Promise.resolve(),
};

/** Watches a program at the port it was told; without one nothing is counted, nor loaded: that takes some 35 ms. */
export async function watched(
  platform: string,
  at: { readonly host: string; readonly port: number } | null,
  isEnding: () => boolean,
  log: Log,
): Promise<Watch> {
  if (at === null) return UNWATCHED;
  return (await import('./open.ts')).openWatch(platform, at, isEnding, log);
}
