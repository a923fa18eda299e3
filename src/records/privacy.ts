import type { KeptBike } from './bikes.ts';
import type { JobEvent } from './job-events.ts';
import type { Person, Who } from './place.ts';
import type { KeptReceipt } from './receipts.ts';

/** Everything kept about one person in one place. */
export type KeptAbout = {
  readonly person: Person;
  /** When the person last did something that was kept; null when nothing is kept at all. */
  readonly lastSeenAtMs: number | null;
  readonly bikes: readonly KeptBike[];
  readonly receipts: readonly KeptReceipt[];
  /** Standard answers they wrote or approved; these stay, without the name, when the person is deleted. */
  readonly answers: readonly {
    readonly topic: string;
    readonly version: number;
    readonly as: 'author' | 'approver';
    readonly atMs: number;
  }[];
  readonly drafts: readonly {
    readonly topic: string;
    readonly number: number;
    readonly as: 'author' | 'decider';
    readonly atMs: number;
  }[];
  /** What they signed, struck or noted on jobs; this stays too, without the name. */
  readonly jobs: readonly { readonly job: number; readonly event: JobEvent }[];
  /** Named in the settings as somebody who may pin. */
  readonly mayPin: boolean;
};

export type Deleted = {
  readonly bikes: number;
  readonly receipts: number;
  /** Entries that stay and no longer say who made them. */
  readonly madeAnonymous: number;
  /**
   * False when somebody else was reading the file at that moment, so that the freed pages could not be wiped yet; the
   * next sweep does it.
   */
  readonly wiped: boolean;
};

export type Swept = {
  readonly receipts: number;
  readonly jobs: number;
  /** People nothing is kept about any more. */
  readonly people: number;
  /** Deliveries that no platform will repeat any more. */
  readonly deliveries: number;
};

export type Privacy = {
  readonly show: (who: Who) => Promise<KeptAbout>;
  /** Deletes the person, their bikes and receipts; answers and sign-offs stay with an anonymous author. */
  readonly delete: (who: Who) => Promise<Deleted>;
  /** Removes, in every place, what has been kept for longer than its settings say, and tidies up; meant for once a day. */
  readonly sweep: (nowMs: number) => Promise<Swept>;
};
