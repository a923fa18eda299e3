import { type Look, readView, type Seen } from '../../src/card/views.ts';
import { LIMITS } from './limits.ts';

/**
 * What a button, a select or a modal stands for. It is all in its id, so that any process answers it, also after a
 * restart: nothing is remembered here.
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
  /** A modal with a bike in it. */
  | { readonly kind: 'tell'; readonly command: string }
  /** A modal with the rest of an action's fields; `words` are the fields already known. */
  | { readonly kind: 'fill'; readonly command: string; readonly action: string; readonly words: readonly string[] }
  /** A message made a standard answer, from a modal. */
  | { readonly kind: 'pin-text'; readonly message: string }
  /** Pin a message in its channel; without one, post the topic first and pin that. */
  | { readonly kind: 'pin-message'; readonly message: string }
  | { readonly kind: 'pin-topic'; readonly topic: string }
  /** Somebody's message answered with a topic, from a modal. */
  | { readonly kind: 'reply'; readonly message: string; readonly author: string };

/** Raised when an id means something else than before, so that old buttons say so instead of doing another thing. */
const VERSION = '1';

/** The id for a press, or null where it would be longer than the platform takes. */
export function customId(press: Press): string | null {
  const id = [VERSION, press.kind, ...partsOf(press)].join('|');
  return id.length > LIMITS.customId ? null : id;
}

function partsOf(press: Press): readonly (string | number)[] {
  switch (press.kind) {
    case 'see':
    case 'share':
      return [press.view, press.page, press.command, press.setup];
    case 'do':
    case 'fix':
      return [press.command, press.setup];
    case 'pick':
      return [press.what, press.command, press.setup];
    case 'tell':
      return [press.command];
    case 'fill':
      return [press.command, press.action, press.words.join('|')];
    case 'pin-text':
    case 'pin-message':
      return [press.message];
    case 'pin-topic':
      return [press.topic];
    case 'reply':
      return [press.message, press.author];
  }
}

/** What an id stands for; null for one of an older program, or of none. */
export function readCustomId(id: string): Press | null {
  const [version, kind, ...parts] = id.split('|');
  if (version !== VERSION) return null;
  const [first = '', second = '', third = ''] = parts;
  switch (kind) {
    case 'see':
    case 'share': {
      const view = readView(first);
      if (view === null || !/^\d{1,3}$/.test(second) || third === '') return null;
      return { kind, view, page: Number(second), command: third, setup: parts.slice(3).join('|') };
    }
    case 'do':
    case 'fix':
      return first === '' ? null : { kind, command: first, setup: parts.slice(1).join('|') };
    case 'pick':
      if ((first !== 'ring' && first !== 'tell' && first !== 'view') || second === '') return null;
      return { kind, what: first, command: second, setup: parts.slice(2).join('|') };
    case 'tell':
      return first === '' ? null : { kind, command: first };
    case 'fill':
      return second === ''
        ? null
        : { kind, command: first, action: second, words: parts.slice(2).filter((each) => each !== '') };
    case 'pin-text':
    case 'pin-message':
      return { kind, message: first };
    case 'pin-topic':
      return { kind, topic: parts.join('|') };
    case 'reply':
      return { kind, message: first, author: second };
    default:
      return null;
  }
}
