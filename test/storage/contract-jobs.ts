import { describe, expect, it } from 'vitest';
import { openRecords } from '../../adapters/storage/open.ts';
import type { JobAct } from '../../src/records/job-rules.ts';
import { LIMITS } from '../../src/records/limits.ts';
import { newPlace, person } from '../support/storages.ts';
import type { UnderTest } from './contract.ts';
import { BIKE, JOB, tick } from './examples.ts';

/** What the port promises of sign-offs. */
export function jobsContract(under: UnderTest): void {
  describe('jobs', () => {
    it('open with a number of their own in each place', async () => {
      const here = newPlace();
      const there = newPlace();
      for (const [who, job] of [
        [here.ann, 1],
        [here.bob, 2],
        [there.ann, 1],
      ] as const) {
        expect(await under.records().jobs.open(who, JOB, 5)).toMatchObject({ kind: 'opened', view: { job } });
      }
      expect(await under.records().jobs.open(here.ann, { ...JOB, rows: [] }, 5)).toEqual({ kind: 'no-rows' });
    });

    it('are signed, closed and reopened as the rules say, and everything is in the log', async () => {
      const { at, ann, bob } = newPlace();
      await under.records().jobs.open(ann, JOB, 1);
      const act = (who: typeof ann, deed: JobAct, atMs: number) => under.records().jobs.act(who, 1, deed, atMs);
      expect(await act(ann, tick(1, 13), 2)).toMatchObject({ kind: 'recorded' });
      expect(await act(ann, tick(2, 40), 3)).toMatchObject({ kind: 'recorded' });
      expect(await act(ann, tick(2, 40), 4)).toMatchObject({ kind: 'refused', because: { kind: 'same-person' } });
      expect(await act(ann, { kind: 'closed' }, 5)).toMatchObject({ because: { kind: 'rows-open', rows: [2] } });
      expect(await act(bob, tick(2, 40), 6)).toMatchObject({ kind: 'recorded' });
      expect(await act(bob, { kind: 'closed' }, 7)).toMatchObject({ kind: 'recorded' });
      expect(await under.records().jobs.list(at, 'open', Number.POSITIVE_INFINITY, 5)).toEqual([]);
      expect(await under.records().jobs.list(at, 'closed', Number.POSITIVE_INFINITY, 5)).toEqual([
        { job: 1, title: 'Hardtail to 32', closed: true, openedAtMs: 1 },
      ]);
      expect(await act(bob, { kind: 'reopened', why: 'creaks' }, 8)).toMatchObject({ kind: 'recorded' });
      expect(await under.records().jobs.list(at, 'open', 2, 5)).toHaveLength(1);
      const log = await under.records().jobs.log(at, 1);
      expect(log.map(({ sequence, atMs, deed }) => [sequence, atMs, deed.kind])).toEqual([
        [1, 1, 'opened'],
        [2, 2, 'ticked'],
        [3, 3, 'ticked'],
        [4, 6, 'ticked'],
        [5, 7, 'closed'],
        [6, 8, 'reopened'],
      ]);
      const view = await under.records().jobs.load(at, 1);
      const signers = view?.state.rows[1]?.ticks.map(({ by }) => view.signers.get(by));
      expect(signers).toEqual([
        { kind: 'person', person: 'ann' },
        { kind: 'person', person: 'bob' },
      ]);
    });

    it('are not signed twice by somebody who was deleted in between and came back', async () => {
      const { at, ann, bob, cem } = newPlace();
      const { jobs, privacy, bikes } = under.records();
      const sign = (who: typeof ann, job: number) => jobs.act(who, job, tick(2, 40), 3);
      const perhaps = { kind: 'refused', because: { kind: 'perhaps-same-person' } };
      // Before anybody goes, Cem is seen; Bob is not.
      await bikes.save(cem, BIKE, 1);
      for (let n = 0; n < 3; n++) await jobs.open(ann, JOB, 1);
      for (const job of [1, 2, 3]) expect(await sign(ann, job)).toMatchObject({ kind: 'recorded' });
      await privacy.delete(ann);
      // Whatever the clock of the process says that she comes back to.
      expect(await jobs.act(ann, 1, tick(2, 40), 0)).toMatchObject(perhaps);
      await privacy.delete(ann);
      expect(await sign(ann, 1)).toMatchObject(perhaps);
      // Nothing tells Bob from Ann. Cem was here with her, and is somebody else.
      expect(await sign(bob, 2)).toMatchObject(perhaps);
      expect(await sign(cem, 2)).toMatchObject({ kind: 'recorded' });
      // Taken back and signed anew, the row is as good as any.
      expect(await jobs.act(bob, 1, { kind: 'cleared', row: 2, why: 'gone' }, 4)).toMatchObject({ kind: 'recorded' });
      expect(await sign(ann, 1)).toMatchObject({ kind: 'recorded' });
      expect(await sign(bob, 1)).toMatchObject({ kind: 'recorded' });
      const view = await jobs.load(at, 1);
      expect(view?.state.rows[1]?.ticks.map(({ by }) => view.signers.get(by))).toEqual([
        { kind: 'person', person: 'ann' },
        { kind: 'person', person: 'bob' },
      ]);
      // Somebody who went later says nothing against those who came before that.
      expect(await sign(ann, 3)).toMatchObject(perhaps);
      await jobs.act(bob, 3, { kind: 'cleared', row: 2, why: 'gone' }, 4);
      expect(await sign(ann, 3)).toMatchObject({ kind: 'recorded' });
      await privacy.delete(ann);
      expect(await sign(bob, 3)).toMatchObject({ kind: 'recorded' });
    });

    it('that are not there are missing', async () => {
      const { at, ann } = newPlace();
      expect(await under.records().jobs.act(ann, 1, tick(1, 13), 1)).toEqual({ kind: 'missing' });
      expect(await under.records().jobs.load(at, 1)).toBeNull();
      expect(await under.records().jobs.log(at, 1)).toEqual([]);
    });

    it('remember when a wrench must be calibrated, in every job of the place', async () => {
      const { ann, bob } = newPlace();
      await under.records().jobs.open(ann, JOB, 1);
      await under.records().jobs.open(ann, JOB, 1);
      await under.records().jobs.act(ann, 1, tick(1, 13, 100), 2);
      expect(await under.records().jobs.act(bob, 2, tick(1, 13), 101)).toMatchObject({
        because: { kind: 'wrench-expired', dueMs: 100 },
      });
      expect(await under.records().jobs.act(bob, 2, tick(1, 13, 500), 101)).toMatchObject({ kind: 'recorded' });
    });

    it('lose no tick of many at once, also through two doors', async () => {
      const { at, ann } = newPlace();
      const rows = Array.from({ length: 20 }, (_, n) => ({ ...JOB.rows[0], fastener: `Bolt ${n}` }));
      await under
        .records()
        .jobs.open(
          ann,
          { ...JOB, rows: rows.map((row) => ({ material: '', lowNm: 12, highNm: 14, source: '', ...row })) },
          1,
        );
      const other = await openRecords(under.where());
      const all = await Promise.all(
        rows.map((_, n) =>
          (n % 2 === 0 ? under.records() : other).jobs.act(
            { place: at, person: person(`mechanic-${n % 5}`) },
            1,
            tick(n + 1, 13),
            n,
          ),
        ),
      );
      await other.close();
      expect(all.map(({ kind }) => kind)).toEqual(rows.map(() => 'recorded'));
      const view = await under.records().jobs.load(at, 1);
      expect(view?.state.rows.map(({ ticks }) => ticks.length)).toEqual(rows.map(() => 1));
      expect((await under.records().jobs.log(at, 1)).map(({ sequence }) => sequence)).toEqual(
        Array.from({ length: 21 }, (_, n) => n + 1),
      );
    });

    it('signed by one person twice at once count once', async () => {
      const { ann } = newPlace();
      await under.records().jobs.open(ann, JOB, 1);
      const both = await Promise.all([1, 2].map(() => under.records().jobs.act(ann, 1, tick(2, 40), 2)));
      expect(both.map(({ kind }) => kind).sort()).toEqual(['recorded', 'refused']);
    });

    it('opened by many at once have each a number', async () => {
      const { at } = newPlace();
      const all = await Promise.all(
        Array.from({ length: 10 }, (_, n) =>
          under.records().jobs.open({ place: at, person: person(`m-${n}`) }, JOB, 1),
        ),
      );
      const numbers = all.map((each) => (each.kind === 'opened' ? each.view.job : 0)).sort((a, b) => a - b);
      expect(numbers).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9, 10]);
    });

    it('over a limit are refused with the limit', async () => {
      const { ann } = newPlace();
      const row = { fastener: 'Bolt', material: '', lowNm: 1, highNm: 2, source: '' };
      const rows = Array.from({ length: LIMITS.jobRows + 1 }, () => row);
      expect(await under.records().jobs.open(ann, { ...JOB, rows }, 1)).toMatchObject({
        kind: 'over',
        field: 'jobRows',
      });
      await under.records().jobs.open(ann, JOB, 1);
      const why = 'x'.repeat(LIMITS.why + 1);
      expect(await under.records().jobs.act(ann, 1, { kind: 'struck', row: 1, why }, 1)).toMatchObject({
        field: 'why',
      });
      expect(await under.records().jobs.act(ann, 1, { kind: 'noted', text: why }, 1)).toMatchObject({ field: 'why' });
    });
  });
}
