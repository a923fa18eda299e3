import type { Pictures } from '../../src/draw/pictures.ts';
import type { Who } from '../../src/records/place.ts';
import type { Records } from '../../src/records/records.ts';
import type { Printable, Reply, Request } from '../../src/request.ts';

/** Records that are open, and how to close them. */
export type OpenRecords = Records & { readonly close: () => Promise<void> };

/** An answer that was given: what was asked, by whom, and the records it speaks of. */
export type ToSend = {
  readonly reply: Reply;
  readonly request: Request;
  readonly who: Who;
  readonly records: Records;
};

/** What a chat platform would be sent for an answer, by the name of the platform. */
export type Sent = Readonly<Record<string, unknown>>;

/** What the practice room needs from outside; `main` wires it, a test brings its own. */
export type Ports = {
  readonly openRecords: () => Promise<OpenRecords>;
  /** Takes away everything that was kept in the practice room; its records are closed by then. */
  readonly eraseRecords: () => Promise<void>;
  readonly pictures: Pictures;
  readonly printPage: (page: Printable) => Promise<Uint8Array>;
  /** The very messages the platforms would be sent. */
  readonly sent: (given: ToSend) => Promise<Sent>;
  /** The files of the typeface: regular, then semi-bold. */
  readonly fonts: readonly string[];
  readonly nowMs: () => number;
  readonly randomBytes: (count: number) => Uint8Array;
  /** Told of a fault of ours: its name and code, never what somebody typed. */
  readonly fault: (error: unknown) => void;
};
