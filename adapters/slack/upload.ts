import { z } from 'zod';
import { OURS } from './limits.ts';
import type { Web } from './ports.ts';

/** `never`: the program may not upload here at all. */
export type Uploaded = { readonly kind: 'there'; readonly file: string } | { readonly kind: 'not-now' | 'never' };

const Place = z.object({ upload_url: z.string(), file_id: z.string() });
const Info = z.object({ file: z.object({ mimetype: z.string().default('') }) });

/** What a workspace that did not grant the scopes, or forbids files, says. */
const NEVER: readonly string[] = [
  'missing_scope',
  'not_allowed_token_type',
  'file_uploads_disabled',
  'restricted_action',
];

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
  const got = await web.call('files.getUploadURLExternal', { filename, length: png.length, alt_txt: alt });
  if (!got.ok) return { kind: NEVER.includes(got.error) ? 'never' : 'not-now' };
  const place = Place.safeParse(got.data).data;
  if (place === undefined || !(await web.send(place.upload_url, png))) return { kind: 'not-now' };
  const done = await web.call('files.completeUploadExternal', { files: [{ id: place.file_id, title: filename }] });
  if (!done.ok) return { kind: NEVER.includes(done.error) ? 'never' : 'not-now' };
  for (let look = 0; look < OURS.uploadLooks; look += 1) {
    const info = await web.call('files.info', { file: place.file_id });
    if (!info.ok) return { kind: NEVER.includes(info.error) ? 'never' : 'not-now' };
    if ((Info.safeParse(info.data).data?.file.mimetype ?? '') !== '') return { kind: 'there', file: place.file_id };
    await wait(OURS.uploadLookMs);
  }
  return { kind: 'not-now' };
}
