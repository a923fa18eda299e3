import type { Desk } from '../../src/desk.ts';
import type { Pictures } from '../../src/draw/pictures.ts';
import type { Log } from '../../src/log.ts';
import type { Notice } from '../../src/notice.ts';
import type { Timer } from '../../src/patience.ts';
import type { Records } from '../../src/records/records.ts';
import type { Printable } from '../../src/request.ts';
import type { Post, Response } from './wire.ts';
import type { NotPinned } from './words.ts';

/** What answering needs from outside; `main` wires it, a test brings its own clock. */
export type Ports = {
  readonly desk: Desk;
  readonly records: Records;
  readonly pictures: Pictures | null;
  /** Makes a page to print; null where no pages can be made. */
  readonly printPage: ((page: Printable) => Promise<Uint8Array>) | null;
  readonly log: Log;
  /** Missing where nobody counts. */
  readonly notice?: Notice | undefined;
  readonly nowMs: () => number;
  readonly timer: Timer;
  /** A few letters by which every line of the log about one payload is found again. */
  readonly logId: () => string;
};

/** What can be sent once the first answer is out. */
export type Sender = {
  /** Changes the first answer, or the message whose button was pressed; gives the id of that message. */
  readonly edit: (post: Post) => Promise<string>;
  readonly follow: (post: Post, everybody: boolean) => Promise<string>;
  /** Takes the first answer away. */
  readonly remove: () => Promise<void>;
  /** Null where it was pinned. */
  readonly pin: (channel: string, message: string) => Promise<NotPinned | null>;
  /** Answers a message in its channel; false where the program may not write there by itself. */
  readonly reply: (channel: string, message: string, post: Post) => Promise<boolean>;
};

/** The first answer, and what is still to be sent; `first` is null where there is nobody to answer. */
export type Answers = {
  readonly first: Response | null;
  readonly later: ((send: Sender) => Promise<void>) | null;
};

/** What an interaction led to, and the log for what else is to be said about it. */
export type Handled = Answers & { readonly log: Log };

/** Who sees an answer: its asker, everybody, or whoever sees the message that it takes the place of. */
export type Where = 'private' | 'public' | 'update';

/** An answer ready to be sent: its messages in order, and what is done once they are out. */
export type Done = {
  readonly where: Where;
  readonly posts: readonly Post[];
  readonly after?: (send: Sender) => Promise<void>;
};

export type Work =
  /** Must be the very first answer, such as a modal or suggestions; `instead` is for when it takes too long. */
  | { readonly kind: 'now'; readonly respond: () => Promise<Response>; readonly instead: Response }
  /** Is announced when it takes long; `defer` is who will see it. */
  | { readonly kind: 'answer'; readonly defer: Where; readonly run: () => Promise<Done> }
  /** Is always announced, because its outcome is known only after something else was sent. */
  | { readonly kind: 'later'; readonly everybody: boolean; readonly run: (send: Sender) => Promise<void> };
