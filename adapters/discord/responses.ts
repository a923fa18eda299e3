import type { Work } from './ports.ts';
import { sentence } from './render.ts';
import { CALLBACK, EPHEMERAL, type Modal, type Post, type Response } from './wire.ts';
import { WORDS } from './words.ts';

export function messageResponse({ body, files }: Post, everybody: boolean): Response {
  return { type: CALLBACK.message, data: { ...body, flags: everybody ? 0 : EPHEMERAL }, files };
}

/** A sentence for the asker alone. */
export function privately(text: string): Response {
  return messageResponse(sentence(text), false);
}

export function modalResponse(data: Modal): Response {
  return { type: CALLBACK.modal, data };
}

/** Work that is only to say a sentence. */
export function said(text: string): Work {
  return { kind: 'now', respond: () => Promise.resolve(privately(text)), instead: privately(text) };
}

/** Work that is only to open a modal. */
export function opened(make: () => Modal): Work {
  return { kind: 'now', respond: () => Promise.resolve(modalResponse(make())), instead: privately(WORDS.slow) };
}
