import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Storage, sqlite } from '../support/storages.ts';
import { openWorkshop, type Workshop } from '../support/workshop.ts';

const BIKE = '2x10 36/22 11-36 29er hardtail 104bcd clutch stays=440mm cranktype=pinch boltmaterial=aluminium ring=32';

let storage: Storage;
let shop: Workshop;

beforeAll(async () => {
  storage = await sqlite();
  shop = await openWorkshop(storage);
});
afterAll(async () => {
  await shop.records.close();
  await storage.end();
});

describe('a shop that converts a hill-country hardtail while the customer declines a new chain', () => {
  it('opens a job from the plan, and keeps what was declined', async () => {
    expect(await shop.done('mia', `job open ${BIKE} title="Hill hardtail"`)).toContain('Job 1 is open');
    await shop.done('mia', 'job note 1 new chain advised, customer declined');
  });

  it('does not close it before every row is initialled', async () => {
    expect(await shop.refused('mia', 'job close 1')).toContain('for a signature');
    await shop.done('mia', 'job tick 1 1 8.5 A1 due=2027-03-01');
    await shop.done('mia', 'job tick 1 2 0.5 A1');
    await shop.done('mia', 'job tick 1 3 13.5 A1');
    expect(await shop.refused('mia', 'job close 1')).toContain('row 3 for a second one, not by mia');
  });

  it('wants two people on the crank, and a wrench in calibration', async () => {
    expect(await shop.refused('mia', 'job second 1 3 13.5 A1')).toContain("must be somebody else's");
    expect(await shop.refused('noor', 'job second 1 3 13.5 B2 due=2026-11-01')).toContain('ran out on 2026-11-01');
    expect(await shop.done('noor', 'job second 1 3 13.5 A1')).toContain('Two people have signed it.');
    await shop.done('noor', 'job second 1 2 0.5 A1');
  });

  it('closes once the rest is struck out with reasons, and opens again only with one', async () => {
    const { state } = (await shop.records.jobs.load(shop.at, 1)) ?? { state: { rows: [] } };
    for (const { row, ticks } of state.rows) {
      if (ticks.length === 0) await shop.done('mia', `job strike 1 ${row} not touched`);
    }
    expect(await shop.done('noor', 'job close 1')).toContain(
      `${state.rows.length} of ${state.rows.length} rows settled`,
    );
    expect(await shop.done('noor', 'job list closed=yes')).toContain('1: Hill hardtail');
    expect(await shop.refused('mia', 'job reopen 1')).toContain('reason');
    await shop.done('mia', 'job reopen 1 the crank creaks');
    const log = await shop.done('noor', 'job log 1');
    for (const words of ['customer declined', 'not touched', 'noor: closed', 'mia: reopened: the crank creaks']) {
      expect(log).toContain(words);
    }
  });

  it('forgets a mechanic who leaves, and keeps what was signed', async () => {
    await shop.done('mia', 'data delete confirm=yes');
    expect(await shop.done('mia', 'data show')).toContain('Nothing is kept about you here.');
    const words = await shop.done('noor', 'job show 1');
    expect(words).toContain('13.5 N·m by somebody deleted, wrench A1; checked 13.5 N·m by noor, wrench A1');
    expect(words).not.toContain('mia');
  });
});
