/** One fastener of a job, with the range it was planned with. */
export type JobRow = {
  /** 1, 2, 3 and so on, in the order of the plan. */
  readonly row: number;
  readonly fastener: string;
  readonly material: string;
  /** Null where only the maker of the part can say. */
  readonly lowNm: number | null;
  readonly highNm: number | null;
  readonly source: string;
  /** Crank, steering and brake: a second, different person must sign too. */
  readonly secondPerson: boolean;
};

/** Who signed, as an opaque key: two keys are two people, and a key may outlive the name behind it. */
export type Signer = string;

export type Wrench = {
  readonly id: string;
  /** When its calibration runs out; null when nobody has said. */
  readonly calibrationDueMs: number | null;
};

/** What happened. The list is only ever added to; a correction is an event too. */
export type JobDeed =
  | { readonly kind: 'opened'; readonly title: string; readonly setup: string; readonly rows: readonly JobRow[] }
  | {
      readonly kind: 'ticked';
      readonly row: number;
      readonly setNm: number;
      readonly wrench: Wrench;
      /** Why the value is outside the range, or where it is printed when the plan has none. */
      readonly why: string;
    }
  | { readonly kind: 'struck'; readonly row: number; readonly why: string }
  /** A row taken back to unsigned, because a value was wrong or a struck row is needed after all. */
  | { readonly kind: 'cleared'; readonly row: number; readonly why: string }
  | { readonly kind: 'noted'; readonly text: string }
  | { readonly kind: 'closed' }
  | { readonly kind: 'reopened'; readonly why: string };

export type JobEvent = {
  /** 1, 2, 3 and so on within the job, without a gap. */
  readonly sequence: number;
  readonly atMs: number;
  readonly by: Signer;
  readonly deed: JobDeed;
};

/** Who did something, and when. */
export type Stamp = { readonly by: Signer; readonly atMs: number };

export type Tick = Stamp & {
  readonly setNm: number;
  readonly wrench: Wrench;
  readonly why: string;
};

export type RowState = JobRow & {
  readonly ticks: readonly Tick[];
  readonly struck: (Stamp & { readonly why: string }) | null;
};

export type JobState = {
  readonly title: string;
  readonly setup: string;
  readonly rows: readonly RowState[];
  readonly opened: Stamp;
  /** Null while the job is open. */
  readonly closed: Stamp | null;
  readonly notes: readonly (Stamp & { readonly text: string })[];
  /** The sequence number of the last event. */
  readonly sequence: number;
};

/** Whether a row has all the signatures it needs, or was struck out. */
export function isSettled(row: RowState): boolean {
  return row.struck !== null || row.ticks.length >= (row.secondPerson ? 2 : 1);
}

/** The state after one more event. It records and does not judge: the rules decided before the event was written. */
export function advance(state: JobState | null, event: JobEvent): JobState | null {
  const { deed, by, atMs, sequence } = event;
  if (deed.kind === 'opened') {
    const rows = deed.rows.map((row) => ({ ...row, ticks: [], struck: null }));
    return { title: deed.title, setup: deed.setup, rows, opened: { by, atMs }, closed: null, notes: [], sequence };
  }
  if (state === null) return null;
  switch (deed.kind) {
    case 'ticked': {
      const tick = { by, atMs, setNm: deed.setNm, wrench: deed.wrench, why: deed.why };
      return inRow(state, sequence, deed.row, (row) => ({ ...row, ticks: [...row.ticks, tick] }));
    }
    case 'struck':
      return inRow(state, sequence, deed.row, (row) => ({ ...row, struck: { by, atMs, why: deed.why } }));
    case 'cleared':
      return inRow(state, sequence, deed.row, (row) => ({ ...row, ticks: [], struck: null }));
    case 'noted':
      return { ...state, sequence, notes: [...state.notes, { by, atMs, text: deed.text }] };
    case 'closed':
      return { ...state, sequence, closed: { by, atMs } };
    case 'reopened':
      return { ...state, sequence, closed: null };
  }
}

function inRow(state: JobState, sequence: number, number: number, change: (row: RowState) => RowState): JobState {
  return { ...state, sequence, rows: state.rows.map((row) => (row.row === number ? change(row) : row)) };
}

/** The state of a job from its whole log; null for a log without an opening. */
export function replay(events: readonly JobEvent[]): JobState | null {
  return events.reduce<JobState | null>(advance, null);
}
