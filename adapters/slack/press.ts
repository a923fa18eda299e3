import { type Look, readView, type Seen } from '../../src/card/views.ts';
import { LIMITS } from './limits.ts';

/**
 * What a button, a select or a modal stands for. It travels whole in the message, so that any process answers it, also
 * after a restart: nothing is remembered here.
 */
export type Press =
  /** Another view or page of the same card. */
  | ({ readonly kind: 'see' } & Look & Seen)
  /** Something asked anew: a line with more words, or an action on what is kept. */
  | ({ readonly kind: 'do' } & Look)
  /** A select; its value is the words to add, or the view to see. */
  | ({ readonly kind: 'pick'; readonly what: 'ring' | 'tell' | 'view' } & Look)
  /** The same, posted for everybody. */
  | ({ readonly kind: 'share' } & Look & Seen)
  /** Correct what was read: opens a modal. */
  | ({ readonly kind: 'fix' } & Look)
  /** A modal with a bike in it; as a button, opens it empty. */
  | { readonly kind: 'tell'; readonly command: string }
  /** A modal with the rest of an action's fields; `words` are the fields already known. */
  | { readonly kind: 'fill'; readonly command: string; readonly action: string; readonly words: readonly string[] }
  /** A message made a standard answer, from a modal. */
  | { readonly kind: 'pin-text'; readonly channel: string; readonly message: string }
  /** Pin a message in its channel; without one, post the topic first and pin that. */
  | { readonly kind: 'pin-message'; readonly channel: string; readonly message: string }
  | { readonly kind: 'pin-topic'; readonly topic: string }
  /** A page to print, made anew from its line and posted as a file where the button stands. */
  | ({ readonly kind: 'post-page' } & Look)
  /** Somebody's message answered with a topic, from a modal. */
  | { readonly kind: 'reply'; readonly channel: string; readonly thread: string };

/** Raised when a press means something else than before, so that old buttons say so instead of doing another thing. */
const VERSION = '1';

/** A press as text in which no character means anything to the platform; null where it is longer than `most`. */
export function writePress(press: Press, most: number = LIMITS.buttonValue): string | null {
  const text = [VERSION, press.kind, ...partsOf(press)]
    .map((part) => encodeURIComponent(String(part).toWellFormed()))
    .join('|');
  return text.length > most ? null : text;
}

function partsOf(press: Press): readonly (string | number)[] {
  switch (press.kind) {
    case 'see':
    case 'share':
      return [press.view, press.page, press.command, press.setup];
    case 'do':
    case 'fix':
    case 'post-page':
      return [press.command, press.setup];
    case 'pick':
      return [press.what, press.command, press.setup];
    case 'tell':
      return [press.command];
    case 'fill':
      return [press.command, press.action, ...press.words];
    case 'pin-text':
    case 'pin-message':
      return [press.channel, press.message];
    case 'pin-topic':
      return [press.topic];
    case 'reply':
      return [press.channel, press.thread];
  }
}

/** What a text stands for; null for one of an older program, or of none. */
export function readPress(text: string): Press | null {
  const parts = decoded(text);
  if (parts === null || parts[0] !== VERSION) return null;
  const [, kind, first = '', second = '', third = '', fourth = ''] = parts;
  switch (kind) {
    case 'see':
    case 'share': {
      const view = readView(first);
      if (view === null || !/^\d{1,3}$/.test(second) || third === '') return null;
      return { kind, view, page: Number(second), command: third, setup: fourth };
    }
    case 'do':
    case 'fix':
    case 'post-page':
      return first === '' ? null : { kind, command: first, setup: second };
    case 'pick':
      if ((first !== 'ring' && first !== 'tell' && first !== 'view') || second === '') return null;
      return { kind, what: first, command: second, setup: third };
    case 'tell':
      return first === '' ? null : { kind, command: first };
    case 'fill':
      return second === '' ? null : { kind, command: first, action: second, words: parts.slice(4) };
    case 'pin-text':
    case 'pin-message':
      return second === '' ? null : { kind, channel: first, message: second };
    case 'pin-topic':
      return first === '' ? null : { kind, topic: first };
    case 'reply':
      return second === '' ? null : { kind, channel: first, thread: second };
    default:
      return null;
  }
}

function decoded(text: string): readonly string[] | null {
  try {
    return text.split('|').map(decodeURIComponent);
  } catch {
    return null;
  }
}
