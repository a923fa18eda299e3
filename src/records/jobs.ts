import type { JobEvent, JobState, Signer } from './job-events.ts';
import type { ActRefused, JobAct } from './job-rules.ts';
import type { Over } from './limits.ts';
import type { Author, Place, Who } from './place.ts';

/** One row of a torque plan, as a job takes it over. */
export type PlannedRow = {
  readonly fastener: string;
  readonly material: string;
  readonly lowNm: number | null;
  readonly highNm: number | null;
  readonly source: string;
  /** The plan asks for a second person; crank, steering and brake rows need one whatever it says. */
  readonly secondPerson?: boolean;
};

export type NewJob = {
  readonly title: string;
  /** The setup line the plan came from. */
  readonly setup: string;
  readonly rows: readonly PlannedRow[];
};

/** A job as it stands, with the names behind its signatures. */
export type JobView = {
  readonly job: number;
  readonly state: JobState;
  /** Who each signer is; somebody deleted is `gone`, and still not the same as somebody else deleted. */
  readonly signers: ReadonlyMap<Signer, Author>;
};

export type JobHead = {
  readonly job: number;
  readonly title: string;
  readonly closed: boolean;
  readonly openedAtMs: number;
};

export type Acted =
  | { readonly kind: 'recorded'; readonly view: JobView }
  | { readonly kind: 'refused'; readonly because: ActRefused; readonly view: JobView }
  | { readonly kind: 'missing' }
  | Over;

export type Jobs = {
  /** Jobs count 1, 2, 3 and so on in each place. `no-rows`: a plan without a torque row is no job. */
  readonly open: (
    who: Who,
    job: NewJob,
    atMs: number,
  ) => Promise<{ readonly kind: 'opened'; readonly view: JobView } | { readonly kind: 'no-rows' } | Over>;
  /**
   * Records an act if the rules allow it. Two people acting at once come one after the other, each judged by what stands
   * then. A wrench's due date is remembered for the place: a tick without one is judged by the date last told.
   */
  readonly act: (who: Who, job: number, act: JobAct, atMs: number) => Promise<Acted>;
  readonly load: (place: Place, job: number) => Promise<JobView | null>;
  /** Every event, in order. */
  readonly log: (place: Place, job: number) => Promise<readonly JobEvent[]>;
  /** The newest first, `most` of them before job `before` (Infinity to begin). */
  readonly list: (place: Place, which: 'open' | 'closed', before: number, most: number) => Promise<readonly JobHead[]>;
};
