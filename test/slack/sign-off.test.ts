import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Button, Modal } from '../../adapters/slack/wire.ts';
import { openHouse } from '../support/slack-house.ts';
import { type Json, submission } from '../support/slack-payloads.ts';
import { buttonOf, namesOf, readable, type Stage, shownAt, windowOf } from '../support/slack-stage.ts';

let house: Awaited<ReturnType<typeof openHouse>>;
beforeAll(async () => {
  house = await openHouse();
});
afterAll(() => house.end());

async function openedJob(stage: Stage) {
  const opened = await stage.slash('UANN', 'job open 2x10 36/22 11-36 104bcd cranktype=pinch boltmaterial=steel');
  expect(opened.ack).toMatchObject({ response_type: 'in_channel' });
  return shownAt(opened);
}

/** Presses a button on the message for all, fills in the window, and gives what arrived. */
async function signed(stage: Stage, user: string, button: Button, told: Readonly<Record<string, string>>) {
  const view = windowOf(await stage.press(user, button, { mine: false, ts: '5.5' }));
  return stage.submit(user, view, told);
}

describe('a torque sign-off', () => {
  it('is one message for all, signed in windows and changed in place', async () => {
    const stage = await house.stage();
    const job = await openedJob(stage);
    const { ack, arrived } = await signed(stage, 'UANN', buttonOf(job, 'Tick 1'), { value: '13 N·m', wrench: 'A1' });
    expect(ack).toBeUndefined();
    expect(arrived[0]).toMatchObject({ by: 'address', replaces: true, everybody: true });
    expect(readable(arrived[0]?.message ?? { blocks: [] })).toMatch(/13 N·m by Ann, wrench A1/);
    expect(namesOf(arrived[0]?.message ?? { blocks: [] })).not.toContain('Tick 1');
    expect(stage.platform.faults).toEqual([]);
  });

  it('asks for two people where it matters, and the same one cannot be both', async () => {
    const stage = await house.stage();
    const job = await openedJob(stage);
    const row = namesOf(job).filter((name) => name.startsWith('Tick '));
    const crank = /(\d+) Crank pinch bolts/.exec(readable(job))?.[1];
    expect(row).toContain(`Tick ${crank}`);
    const first = await signed(stage, 'UANN', buttonOf(job, `Tick ${crank}`), { value: '13', wrench: 'A1' });
    const after = first.arrived[0]?.message ?? { blocks: [] };
    const same = await signed(stage, 'UANN', buttonOf(after, `Second check ${crank}`), { value: '13', wrench: 'A1' });
    expect(same.ack).toMatchObject({ response_action: 'errors' });
    const second = await signed(stage, 'UBOB', buttonOf(after, `Second check ${crank}`), { value: '13', wrench: 'B2' });
    expect(readable(second.arrived[0]?.message ?? { blocks: [] })).toMatch(/13 N·m by Ann.*checked 13 N·m by Bob/);
  });

  it('says at the field what is wrong with a value or a wrench', async () => {
    const stage = await house.stage();
    const job = await openedJob(stage);
    const odd = await signed(stage, 'UANN', buttonOf(job, 'Tick 1'), { value: 'tight', wrench: 'A1' });
    expect(odd.ack).toMatchObject({ response_action: 'errors', errors: { value: expect.any(String) } });
    const expired = await signed(stage, 'UANN', buttonOf(job, 'Tick 1'), {
      value: '13',
      wrench: 'A1',
      due: '2026-01-31',
    });
    expect(expired.ack).toMatchObject({ response_action: 'errors' });
    expect(JSON.stringify(expired.ack)).toMatch(/calibration/i);
  });

  it('shows both signatures where two people sign at the same moment', async () => {
    const stage = await house.stage();
    const job = await openedJob(stage);
    const on = { mine: false, ts: '5.5' };
    const ann = windowOf(await stage.press('UANN', buttonOf(job, 'Tick 1'), on));
    const bob = windowOf(await stage.press('UBOB', buttonOf(job, 'Tick 2'), on));
    const payload = (user: string, view: Modal) =>
      submission(
        { user },
        { id: 'V1', ...view, blocks: view.blocks as unknown as Json[] },
        { value: '13', wrench: 'A1', why: 'printed on the part' },
      );
    const handled = await Promise.all([stage.handle(payload('UANN', ann)), stage.handle(payload('UBOB', bob))]);
    await Promise.all(handled.map(({ later }) => later?.()));
    const last = stage.platform.arrived.filter(({ replaces }) => replaces).at(-1);
    const text = readable(last?.message ?? { blocks: [] });
    expect(text).toMatch(/by Ann/);
    expect(text).toMatch(/by Bob/);
  });

  it('lets one of two people who sign the same row, and tells the other', async () => {
    const stage = await house.stage();
    const job = await openedJob(stage);
    const on = { mine: false, ts: '5.5' };
    const views = [
      ['UANN', windowOf(await stage.press('UANN', buttonOf(job, 'Tick 1'), on))],
      ['UBOB', windowOf(await stage.press('UBOB', buttonOf(job, 'Tick 1'), on))],
    ] as const;
    const handled = await Promise.all(
      views.map(([user, view]) => {
        const shown = { id: 'V1', ...view, blocks: view.blocks as unknown as Json[] };
        return stage.handle(submission({ user }, shown, { value: '13', wrench: 'A1' }));
      }),
    );
    const wrong = handled.filter(({ ack }) => ack !== undefined && 'errors' in ack);
    expect(wrong).toHaveLength(1);
    expect(JSON.stringify(wrong)).toContain('has all the signatures it needs');
  });

  it('strikes, closes and reopens with a reason, by buttons', async () => {
    const stage = await house.stage();
    const job = await openedJob(stage);
    const struck = await signed(stage, 'UANN', buttonOf(job, 'Strike row 1'), { why: 'not on this bike' });
    expect(readable(struck.arrived[0]?.message ?? { blocks: [] })).toContain('struck out by Ann: not on this bike');
    const open = await stage.slash('UANN', 'job close 1');
    expect(readable(shownAt(open))).toMatch(/row/);
    const log = await stage.press('UANN', buttonOf(struck.arrived[0]?.message ?? { blocks: [] }, 'Log'), {
      mine: false,
    });
    expect(log.arrived[0]).toMatchObject({ everybody: false, replaces: false });
  });
});
