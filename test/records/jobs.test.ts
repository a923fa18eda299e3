import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { JobEvent, JobRow, JobState } from '../../src/records/job-events.ts';
import { advance, isSettled, replay } from '../../src/records/job-events.ts';
import { actRefused, eventFor, type JobAct, needsSecondPerson } from '../../src/records/job-rules.ts';

const NOW = 1_000;
const ROWS: readonly JobRow[] = [
  { row: 1, fastener: 'Ring bolts', material: 'steel', lowNm: 12, highNm: 14, source: 'table', secondPerson: false },
  { row: 2, fastener: 'Crank bolt', material: 'steel', lowNm: 34, highNm: 44, source: 'table', secondPerson: true },
  { row: 3, fastener: 'Direct-mount ring', material: '', lowNm: null, highNm: null, source: '', secondPerson: false },
];
const OPENED: JobEvent = {
  sequence: 1,
  atMs: 0,
  by: 'ann',
  deed: { kind: 'opened', title: 'Hardtail to 32', setup: '36/22', rows: ROWS },
};

function opened(): JobState {
  const state = replay([OPENED]);
  if (state === null) throw new Error('an opening opens');
  return state;
}

function tick(
  row: number,
  setNm: number,
  more: { readonly why?: string; readonly dueMs?: number | null } = {},
): JobAct {
  const wrench = { id: 'W1', calibrationDueMs: more.dueMs === undefined ? NOW + 1 : more.dueMs };
  return { kind: 'ticked', row, setNm, wrench, why: more.why ?? '' };
}

/** The state after acts that the rules allow; the first refusal fails. */
function done(...acts: readonly (readonly [by: string, act: JobAct])[]): JobState {
  return acts.reduce<JobState>((state, [by, act]) => {
    expect(actRefused(state, act, by, NOW)).toBeNull();
    return advance(state, eventFor(state, act, by, NOW)) ?? state;
  }, opened());
}

describe('a row of a job', () => {
  it('is settled by one signature, or by two people where a fall would follow', () => {
    const state = done(['ann', tick(1, 13)], ['ann', tick(2, 40)]);
    expect(state.rows.map(isSettled)).toEqual([true, false, false]);
    const second = actRefused(state, tick(2, 40), 'ann', NOW);
    expect(second).toEqual({ kind: 'same-person' });
    expect(actRefused(state, tick(2, 40), 'bob', NOW)).toBeNull();
  });

  it('takes no third signature', () => {
    const state = done(['ann', tick(2, 40)], ['bob', tick(2, 40)]);
    expect(actRefused(state, tick(2, 40), 'cem', NOW)).toEqual({ kind: 'signed-already' });
  });

  it('asks where a value outside its range is printed, and takes it with an answer', () => {
    expect(actRefused(opened(), tick(1, 8), 'ann', NOW)).toEqual({ kind: 'why-outside', lowNm: 12, highNm: 14 });
    expect(actRefused(opened(), tick(1, 12), 'ann', NOW)).toBeNull();
    expect(actRefused(opened(), tick(1, 14), 'ann', NOW)).toBeNull();
    expect(actRefused(opened(), tick(1, 8, { why: 'printed on the ring' }), 'ann', NOW)).toBeNull();
  });

  it('without a range asks where the value is printed', () => {
    expect(actRefused(opened(), tick(3, 12), 'ann', NOW)).toEqual({ kind: 'why-outside', lowNm: null, highNm: null });
  });

  it('asks why the second person set something else', () => {
    const state = done(['ann', tick(2, 40)]);
    expect(actRefused(state, tick(2, 38), 'bob', NOW)).toEqual({ kind: 'why-differs', firstNm: 40 });
    expect(actRefused(state, tick(2, 38, { why: 'manual, page 12' }), 'bob', NOW)).toBeNull();
  });

  it('is not signed with a wrench whose calibration has run out', () => {
    expect(actRefused(opened(), tick(1, 13, { dueMs: NOW - 1 }), 'ann', NOW)).toEqual({
      kind: 'wrench-expired',
      dueMs: NOW - 1,
    });
    expect(actRefused(opened(), tick(1, 13, { dueMs: NOW }), 'ann', NOW)).toBeNull();
    expect(actRefused(opened(), tick(1, 13, { dueMs: null }), 'ann', NOW)).toBeNull();
  });

  it('is not signed with a value that is no torque', () => {
    for (const setNm of [0, -5, Number.NaN, Number.POSITIVE_INFINITY, 151]) {
      expect(actRefused(opened(), tick(1, setNm, { why: 'said so' }), 'ann', NOW)).toMatchObject({
        kind: 'not-a-torque',
      });
    }
  });

  it('can be struck with a reason, and cleared with one', () => {
    expect(actRefused(opened(), { kind: 'struck', row: 3, why: ' ' }, 'ann', NOW)).toEqual({ kind: 'why-missing' });
    const struck = done(['ann', { kind: 'struck', row: 3, why: 'no such ring' }]);
    expect(actRefused(struck, tick(3, 12), 'ann', NOW)).toEqual({ kind: 'struck' });
    const cleared = done(
      ['ann', { kind: 'struck', row: 3, why: 'no such ring' }],
      ['ann', { kind: 'cleared', row: 3, why: 'there is one' }],
    );
    expect(cleared.rows).toEqual(opened().rows);
    expect(actRefused(cleared, { kind: 'cleared', row: 3, why: 'again' }, 'ann', NOW)).toEqual({
      kind: 'nothing-to-clear',
    });
  });

  it('must be in the job', () => {
    expect(actRefused(opened(), tick(4, 12), 'ann', NOW)).toEqual({ kind: 'no-such-row', rows: 3 });
  });
});

describe('a job', () => {
  const all = [
    ['ann', tick(1, 13)],
    ['ann', tick(2, 40)],
    ['bob', tick(2, 40)],
    ['ann', { kind: 'struck', row: 3, why: 'none fitted' }],
  ] as const;

  it('closes only when every row is signed or struck', () => {
    expect(actRefused(done(...all.slice(0, 2)), { kind: 'closed' }, 'ann', NOW)).toEqual({
      kind: 'rows-open',
      rows: [2, 3],
    });
    expect(done(...all, ['bob', { kind: 'closed' }]).closed).toEqual({ by: 'bob', atMs: NOW });
  });

  it('takes nothing once closed until it is reopened with a reason', () => {
    const closed = done(...all, ['bob', { kind: 'closed' }]);
    expect(actRefused(closed, { kind: 'cleared', row: 1, why: 'x' }, 'ann', NOW)).toEqual({ kind: 'closed' });
    expect(actRefused(closed, { kind: 'reopened', why: '' }, 'ann', NOW)).toEqual({ kind: 'why-missing' });
    expect(actRefused(closed, { kind: 'reopened', why: 'creaks' }, 'ann', NOW)).toBeNull();
    expect(actRefused(opened(), { kind: 'reopened', why: 'creaks' }, 'ann', NOW)).toEqual({ kind: 'not-closed' });
  });

  it('wants a second person for crank, steering and brake, by any of their words', () => {
    for (const fastener of ['Two-piece crank, two pinch bolts', 'Stem faceplate', 'Brake lever clamp', 'Headset']) {
      expect(needsSecondPerson(fastener)).toBe(true);
    }
    for (const fastener of ['Ring bolts', 'Cassette lockring', 'Rear cable anchor']) {
      expect(needsSecondPerson(fastener)).toBe(false);
    }
  });
});

describe('the log of a job', () => {
  const row = fc.integer({ min: 1, max: 4 });
  const why = fc.constantFrom('', 'printed on the part');
  const act: fc.Arbitrary<JobAct> = fc.oneof(
    fc.record({
      kind: fc.constant('ticked' as const),
      row,
      setNm: fc.constantFrom(13, 40, 8, -1),
      wrench: fc.record({ id: fc.constantFrom('W1', ''), calibrationDueMs: fc.constantFrom(null, NOW, 1) }),
      why,
    }),
    fc.record({ kind: fc.constant('struck' as const), row, why }),
    fc.record({ kind: fc.constant('cleared' as const), row, why }),
    fc.record({ kind: fc.constant('noted' as const), text: why }),
    fc.constant({ kind: 'closed' as const }),
    fc.record({ kind: fc.constant('reopened' as const), why }),
  );
  const acts = fc.array(fc.tuple(fc.constantFrom('ann', 'bob', 'cem'), act), { maxLength: 60 });

  it('replays to the state as it stood, at every step', () => {
    fc.assert(
      fc.property(acts, (tried) => {
        const log: JobEvent[] = [OPENED];
        let state = opened();
        for (const [by, wanted] of tried) {
          if (actRefused(state, wanted, by, NOW) !== null) continue;
          const event = eventFor(state, wanted, by, NOW);
          log.push(event);
          state = advance(state, event) ?? state;
          // Through JSON, as the records keep it.
          expect(replay(JSON.parse(JSON.stringify(log)) as JobEvent[])).toEqual(state);
        }
        expect(log.map((event) => event.sequence)).toEqual(log.map((_, at) => at + 1));
      }),
    );
  });

  it('never holds two signatures of one person on a row, nor a closed job with an open row', () => {
    fc.assert(
      fc.property(acts, (tried) => {
        let state = opened();
        for (const [by, wanted] of tried) {
          if (actRefused(state, wanted, by, NOW) === null)
            state = advance(state, eventFor(state, wanted, by, NOW)) ?? state;
          for (const each of state.rows) {
            expect(new Set(each.ticks.map((signed) => signed.by)).size).toBe(each.ticks.length);
            expect(each.ticks.length).toBeLessThanOrEqual(each.secondPerson ? 2 : 1);
          }
          if (state.closed !== null) expect(state.rows.every(isSettled)).toBe(true);
        }
      }),
    );
  });

  it('without an opening is no job', () => {
    expect(replay([{ sequence: 1, atMs: 0, by: 'ann', deed: { kind: 'closed' } }])).toBeNull();
  });
});
