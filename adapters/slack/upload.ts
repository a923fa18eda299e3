import { z } from 'zod';
import { OURS } from './limits.ts';
import type { Web } from './ports.ts';

/** `never`: the program may not upload here at all. */
export type Uploaded = { readonly kind: 'there'; readonly file: string } | { readonly kind: 'not-now' | 'never' };

/** A file that the platform has; the error is one of its codes, or `unreachable`. */
export type Sent =
  | { readonly kind: 'sent'; readonly file: string }
  | { readonly kind: 'failed'; readonly error: string };

/** What is known of a file besides its bytes; a picture has words for who cannot see it. */
export type About = { readonly filename: string; readonly title: string; readonly alt?: string };

/** The conversation that a file is posted in, with the words above it, which are read as markup. */
export type Spot = { readonly channel: string; readonly thread: string | null; readonly comment: string };

const Place = z.object({ upload_url: z.string(), file_id: z.string() });
const Info = z.object({ file: z.object({ mimetype: z.string().default('') }) });

/** What a workspace that did not grant the scopes, or forbids files, says. */
const NEVER: readonly string[] = [
  'missing_scope',
  'not_allowed_token_type',
  'file_uploads_disabled',
  'restricted_action',
];

/** Sends a file and posts it at a spot; without one it is in no conversation yet. */
export async function sendFile(
  bytes: Uint8Array,
  { filename, title, alt }: About,
  spot: Spot | null,
  web: Web,
): Promise<Sent> {
  const words = alt === undefined ? {} : { alt_txt: alt };
  const got = await web.call('files.getUploadURLExternal', { filename, length: bytes.length, ...words });
  if (!got.ok) return { kind: 'failed', error: got.error };
  const place = Place.safeParse(got.data).data;
  if (place === undefined || !(await web.send(place.upload_url, bytes))) {
    return { kind: 'failed', error: 'unreachable' };
  }
  const done = await web.call('files.completeUploadExternal', {
    files: [{ id: place.file_id, title }],
    ...(spot === null ? {} : { channel_id: spot.channel, initial_comment: spot.comment }),
    ...(spot === null || spot.thread === null ? {} : { thread_ts: spot.thread }),
  });
  return done.ok ? { kind: 'sent', file: place.file_id } : { kind: 'failed', error: done.error };
}

/**
 * Uploads a picture that is in no conversation yet. The platform takes it in afterwards, in its own time; a message that
 * shows it before then is refused, so it is looked at until it has a type (issue 413 of the platform's own action).
 */
export async function upload(
  png: Uint8Array,
  { filename, alt }: { readonly filename: string; readonly alt: string },
  web: Web,
  wait: (ms: number) => Promise<void>,
): Promise<Uploaded> {
  const sent = await sendFile(png, { filename, title: filename, alt }, null, web);
  if (sent.kind === 'failed') return { kind: NEVER.includes(sent.error) ? 'never' : 'not-now' };
  const { file } = sent;
  for (let look = 0; look < OURS.uploadLooks; look += 1) {
    const info = await web.call('files.info', { file });
    if (!info.ok) return { kind: NEVER.includes(info.error) ? 'never' : 'not-now' };
    if ((Info.safeParse(info.data).data?.file.mimetype ?? '') !== '') return { kind: 'there', file };
    await wait(OURS.uploadLookMs);
  }
  return { kind: 'not-now' };
}
