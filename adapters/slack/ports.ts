import type { Desk } from '../../src/desk.ts';
import type { Log } from '../../src/log.ts';
import type { Notice } from '../../src/notice.ts';
import type { Timer } from '../../src/patience.ts';
import type { Records } from '../../src/records/records.ts';
import type { Printable } from '../../src/request.ts';
import type { People } from './people.ts';
import type { Shooter } from './shots.ts';
import type { Ack, Message, Modal, Responded } from './wire.ts';

/** What the platform said to a call of its Web API; the error is one of its codes, or `unreachable`. */
export type WebReply =
  | { readonly ok: true; readonly data: Readonly<Record<string, unknown>> }
  | { readonly ok: false; readonly error: string };

/** The ways to the platform besides the first answer, with the token of one workspace. */
export type Web = {
  readonly call: (method: string, args: Readonly<Record<string, unknown>>) => Promise<WebReply>;
  /** Posts to an address for answers; false where it is used up, too old, or refuses. */
  readonly respond: (url: string, message: Responded) => Promise<boolean>;
  /** Sends the bytes of a file to where the platform wants them. */
  readonly send: (url: string, bytes: Uint8Array) => Promise<boolean>;
};

/** What answering needs from outside; `main` wires it, a test brings its own clock. */
export type Ports = {
  readonly desk: Desk;
  readonly records: Records;
  readonly people: People;
  readonly shots: Shooter;
  /** Makes a page to print; null where no pages can be posted. */
  readonly printPage: ((page: Printable) => Promise<Uint8Array>) | null;
  readonly log: Log;
  /** Missing where nobody counts. */
  readonly notice?: Notice | undefined;
  readonly nowMs: () => number;
  readonly timer: Timer;
  /** A few letters by which every line of the log about one payload is found again. */
  readonly logId: () => string;
};

/** Who sees an answer: its asker, everybody, or whoever sees the message that it takes the place of. */
export type Where = 'private' | 'public' | 'update';

/** Sends what comes after an answer; false where it did not arrive. */
export type Send = (post: Message, where: Where) => Promise<boolean>;

/** An answer ready to be sent: its messages in order, and what is done once they are out. */
export type Done = {
  readonly where: Where;
  readonly posts: readonly Message[];
  /** A field of a modal that cannot be used as it was told, and why; the modal then stays open. */
  readonly wrong?: { readonly field: string; readonly message: string };
  readonly after?: (send: Send) => Promise<void>;
};

/** What a payload leads to: an answer, or a window; `instead` is said where the window cannot be opened. */
export type Outcome =
  | ({ readonly kind: 'done' } & Done)
  | { readonly kind: 'modal'; readonly modal: Modal; readonly instead: Done }
  | { readonly kind: 'nothing' };

/** The first answer, and what is still to be sent. */
export type Handled = {
  readonly ack: Ack;
  readonly later: (() => Promise<void>) | null;
  /** In place of `later` where the first answer could not be sent; missing where it held nothing to read. */
  readonly unsent?: () => Promise<void>;
};
