import type { JobDeed, JobEvent, JobState, RowState, Signer } from './job-events.ts';
import { isSettled } from './job-events.ts';

/** What somebody wants to do to an open job. */
export type JobAct = Exclude<JobDeed, { readonly kind: 'opened' }>;

/** Why an act is not recorded; nothing has changed. */
export type ActRefused =
  | { readonly kind: 'no-such-row'; readonly rows: number }
  | { readonly kind: 'closed' }
  | { readonly kind: 'not-closed' }
  | { readonly kind: 'struck' }
  | { readonly kind: 'signed-already' }
  /** The second signature must be somebody else's. */
  | { readonly kind: 'same-person' }
  /** The first signer's data were deleted, and whoever signs now was first seen after that: it may be the same person. */
  | { readonly kind: 'perhaps-same-person' }
  | { readonly kind: 'wrench-expired'; readonly dueMs: number }
  | { readonly kind: 'wrench-unnamed' }
  | { readonly kind: 'not-a-torque'; readonly highNm: number }
  /** Outside the planned range (or there is none) and nobody said where the value is printed. */
  | { readonly kind: 'why-outside'; readonly lowNm: number | null; readonly highNm: number | null }
  /** The second person set something else than the first and did not say why. */
  | { readonly kind: 'why-differs'; readonly firstNm: number }
  | { readonly kind: 'why-missing' }
  | { readonly kind: 'nothing-to-clear' }
  /** Rows that still need a signature. */
  | { readonly kind: 'rows-open'; readonly rows: readonly number[] };

/** No fastener on a bicycle is tightened beyond this, in N·m (memory: axle nuts and cup tools end well below 100). */
const MOST_NM = 150;

/** Words for the parts whose failure throws a rider: a second person looks at these. */
const SECOND_PERSON_WORDS = [
  'crank',
  'stem',
  'steer',
  'handlebar',
  'headset',
  'fork',
  'brake',
  'caliper',
  'rotor',
  'disc',
] as const;

/** Whether a fastener belongs to crank, steering or brake, by its words. */
export function needsSecondPerson(fastener: string): boolean {
  const words = fastener.toLowerCase();
  return SECOND_PERSON_WORDS.some((word) => words.includes(word));
}

/**
 * Whether somebody may do this to the job as it stands: null when they may, else why not. `perhapsOwn` are signers of
 * whom it cannot be told that they are somebody else.
 */
export function actRefused(
  state: JobState,
  act: JobAct,
  by: Signer,
  atMs: number,
  perhapsOwn: ReadonlySet<Signer> = new Set(),
): ActRefused | null {
  if (act.kind === 'reopened') {
    if (state.closed === null) return { kind: 'not-closed' };
    return isBlank(act.why) ? { kind: 'why-missing' } : null;
  }
  if (state.closed !== null) return { kind: 'closed' };
  switch (act.kind) {
    case 'noted':
      return isBlank(act.text) ? { kind: 'why-missing' } : null;
    case 'closed': {
      const rows = state.rows.filter((row) => !isSettled(row)).map((row) => row.row);
      return rows.length === 0 ? null : { kind: 'rows-open', rows };
    }
    case 'ticked':
    case 'struck':
    case 'cleared': {
      const row = state.rows.find((each) => each.row === act.row);
      if (row === undefined) return { kind: 'no-such-row', rows: state.rows.length };
      if (act.kind === 'ticked') return tickRefused(row, act, by, atMs, perhapsOwn);
      if (isBlank(act.why)) return { kind: 'why-missing' };
      if (act.kind === 'struck') return row.struck === null ? null : { kind: 'struck' };
      return row.struck === null && row.ticks.length === 0 ? { kind: 'nothing-to-clear' } : null;
    }
  }
}

function tickRefused(
  row: RowState,
  tick: Extract<JobAct, { readonly kind: 'ticked' }>,
  by: Signer,
  atMs: number,
  perhapsOwn: ReadonlySet<Signer>,
): ActRefused | null {
  if (row.struck !== null) return { kind: 'struck' };
  if (row.ticks.some((each) => each.by === by)) return { kind: 'same-person' };
  if (isSettled(row)) return { kind: 'signed-already' };
  if (row.ticks.some((each) => perhapsOwn.has(each.by))) return { kind: 'perhaps-same-person' };
  if (!(tick.setNm > 0 && tick.setNm <= MOST_NM)) return { kind: 'not-a-torque', highNm: MOST_NM };
  if (isBlank(tick.wrench.id)) return { kind: 'wrench-unnamed' };
  const dueMs = tick.wrench.calibrationDueMs;
  if (dueMs !== null && dueMs < atMs) return { kind: 'wrench-expired', dueMs };
  if (!isBlank(tick.why)) return null;
  const first = row.ticks[0];
  if (first !== undefined && first.setNm !== tick.setNm) return { kind: 'why-differs', firstNm: first.setNm };
  const within = row.lowNm !== null && row.highNm !== null && tick.setNm >= row.lowNm && tick.setNm <= row.highNm;
  return within ? null : { kind: 'why-outside', lowNm: row.lowNm, highNm: row.highNm };
}

function isBlank(text: string): boolean {
  return text.trim() === '';
}

/** The event for an act that the rules allow. */
export function eventFor(state: JobState, act: JobAct, by: Signer, atMs: number): JobEvent {
  return { sequence: state.sequence + 1, atMs, by, deed: act };
}
