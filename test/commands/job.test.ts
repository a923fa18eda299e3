import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { torqueRows } from '../../src/commands/torque.ts';
import type { JobView } from '../../src/records/jobs.ts';
import { LIMITS } from '../../src/records/limits.ts';
import type { Storage } from '../support/storages.ts';
import { sqlite } from '../support/storages.ts';
import { openWorkshop, type Workshop } from '../support/workshop.ts';

// Rows of this bike: 1 ring bolts, 2 preload cap, 3 pinch bolts, then the clamps and what hangs on a removed derailleur.
const BIKE = '2x10 36/22 11-36 29er hardtail 104bcd cranktype=pinch boltmaterial=aluminium bar=flat ring=32';

let storage: Storage;
let shop: Workshop;

beforeAll(async () => {
  storage = await sqlite();
});
afterAll(() => storage.end());
beforeEach(async () => {
  shop = await openWorkshop(storage);
  return () => shop.records.close();
});

const opened = (line = BIKE) => shop.done('anna', `job open ${line}`);

async function view(job = 1): Promise<JobView> {
  const loaded = await shop.records.jobs.load(shop.at, job);
  if (loaded === null) throw new Error(`no job ${job}`);
  return loaded;
}

const row = async (number: number) => (await view()).state.rows.find((each) => each.row === number);

describe('job open', () => {
  it('takes a row for every torque of the plan, with range, material and source', async () => {
    const words = await opened(`${BIKE} title="Hardtail to 32"`);
    expect(words).toContain('Job 1 is open: 0 of 8 rows settled.');
    expect(words).toContain('Hardtail to 32; opened 2026-11-25 by anna.');
    expect(words).toContain('1 Ring bolts, aluminium 8–9 N·m (71–80 lbf·in): open');
    expect(words).toContain('3 Crank pinch bolts (two), steel 12–15 N·m (106–133 lbf·in): open, for two people');
    const { state } = await view();
    const planned = torqueRows({ crankType: 'pinch', mount: 'bolted', boltMaterial: 'aluminium', bar: 'flat' });
    expect(state.rows.map(({ fastener, lowNm, highNm, source }) => ({ fastener, lowNm, highNm, source }))).toEqual(
      planned.map(({ fastener, lowNm, highNm, source }) => ({ fastener, lowNm, highNm, source })),
    );
  });

  it('says what to watch at each row, and ends in the torque caution', async () => {
    const words = await opened();
    expect(words).toContain('3 Crank pinch bolts (two): Tighten the two bolts by turns, in small steps.');
    expect(words).toContain('Elsewhere 5–9.9 N·m');
    expect(words.trimEnd().split('\n').at(-1)).toMatch(/^care: A number in chat is not a sign-off\./);
  });

  it('takes the torques alone where the line is too short for a plan; open rows carry their condition', async () => {
    const words = await opened('2x10');
    expect(words).toContain('Crank bolt, square taper, steel (if the crank sits on a square taper) 34–44 N·m');
    expect(words).toContain('job strike 1 1 not on this bike');
    const { state } = await view();
    expect(state.rows.filter((each) => each.secondPerson).every((each) => !each.fastener.includes('Ring'))).toBe(true);
  });

  it('takes the bike of an answer given before, under its receipt', async () => {
    const plan = await shop.say('anna', `convert ${BIKE}`);
    const code = plan.kind === 'answered' ? plan.receipt?.code : undefined;
    await opened(`from=#${code} title=one`);
    await shop.done('ben', `job open #${code} cranktype=taper`);
    expect((await view(1)).state.rows.map((each) => each.fastener)).toContain('Crank pinch bolts (two)');
    expect((await view(2)).state.rows.map((each) => each.fastener)).toContain('Crank bolt, square taper');
    expect(await shop.refused('anna', 'job open from=#7K3M9Q2A')).toContain('no receipt "7K3M9Q2A"');
  });

  it('takes a kept bike', async () => {
    await shop.done('anna', `bike save winter ${BIKE}`);
    await opened('bike=winter');
    expect((await view()).state.rows).toHaveLength(8);
    expect(await shop.refused('anna', 'job open bike=summer')).toContain('no bike called "summer"');
  });

  it('says what it did not understand', async () => {
    expect(await opened(`${BIKE} flibber`)).toContain('Not used: flibber.');
  });

  it('says what the plan says, and first what the plan stops for', async () => {
    const words = await opened('36/22 11-36 104bcd ring=26');
    expect(words).toContain('26T cannot be fitted');
    expect(words.indexOf('stop: Do not cut until measured')).toBeGreaterThan(0);
    expect(words.indexOf('stop: Do not cut until measured')).toBeLessThan(words.indexOf('The plan'));
  });

  it('is refused where no bike is told, and where the plan is', async () => {
    expect(await shop.refused('anna', 'job open')).toContain('No bike could be read');
    expect(await shop.refused('anna', "job open Anna's new one")).toContain('No bike could be read');
    expect(await shop.refused('anna', 'job open 104bcd ring=26')).toContain('26T');
    expect(await shop.refused('anna', 'job open 2x10 42/32/24 11-36')).toMatch(/\?/);
    expect(await shop.done('anna', 'job list')).toContain('No open jobs here.');
  });

  it('refuses a title over its limit and cuts nothing', async () => {
    expect(await shop.refused('anna', `job open ${BIKE} title=${'x'.repeat(81)}`)).toContain('81, with 80 allowed');
    await opened(`${BIKE} stays=440mm chain=114 clutch`);
    expect((await view()).state.title).toBe('Job of 2026-11-25');
  });

  it('has room for every row of the torque table', () => {
    for (const bike of [{}, { mount: 'direct', bar: 'drop' }] as const) {
      for (const { fastener, material, condition = '', source } of torqueRows(bike)) {
        expect(fastener.length).toBeLessThanOrEqual(LIMITS.fastener);
        expect(`${material} (${condition})`.length).toBeLessThanOrEqual(LIMITS.material);
        expect(source.length).toBeLessThanOrEqual(LIMITS.source);
      }
    }
  });
});

describe('job tick', () => {
  it('signs a row with the value and the wrench, and keeps its calibration date', async () => {
    await opened();
    const words = await shop.done('anna', 'job tick 1 1 8.5 A1 due=2027-03-01');
    expect(words).toContain('Row 1 of job 1 is signed: 8.5 N·m (75 lbf·in).');
    expect(words).toContain('1 Ring bolts, aluminium 8–9 N·m (71–80 lbf·in): 8.5 N·m by anna, wrench A1');
    expect(words).not.toContain('No calibration date');
    expect((await row(1))?.ticks).toMatchObject([
      { setNm: 8.5, wrench: { id: 'A1', calibrationDueMs: Date.UTC(2027, 2, 2) - 1 } },
    ]);
    expect(await shop.done('anna', 'job tick 1 6 value=3 wrench="bench 2"')).toContain(
      'No calibration date was told for wrench bench 2',
    );
  });

  it('takes lbf·in as cards print them, and refuses what is outside the range', async () => {
    await opened();
    expect(await shop.refused('anna', 'job tick 1 3 value=134inlb wrench=A1')).toContain(
      'Row 3 wants 12–15 N·m (106–133 lbf·in); 15.14 N·m (134 lbf·in) is outside it.',
    );
    expect(await shop.done('anna', 'job tick 1 3 value="133 lbf·in" wrench=A1')).toContain(
      'signed: 15 N·m (133 lbf·in). A second person must check it.',
    );
  });

  it('takes a value outside the range with the reason, which stands on the row', async () => {
    await opened();
    expect(await shop.refused('anna', 'job tick 1 1 10 A1')).toContain('outside');
    expect(await shop.done('anna', 'job tick 1 1 10 A1 why="printed on the bolt"')).toContain(
      '10 N·m by anna, wrench A1 (why: printed on the bolt)',
    );
  });

  it("asks where the value is printed where only the maker's figure counts", async () => {
    await opened('36/22 11-36 direct mount cranktype=splined ring=32');
    const words = await shop.refused('anna', 'job tick 1 1 40 "bench 2"');
    expect(words).toContain('only the maker of the part can say');
    expect(words).toContain('job tick 1 1 value=40 wrench="bench 2" why="printed on the part"');
    await shop.done('anna', words.slice(words.indexOf('job tick')));
  });

  it('refuses a wrench whose calibration ran out, also when the date was told before', async () => {
    await opened();
    expect(await shop.refused('anna', 'job tick 1 1 8.5 B2 due=2026-11-24')).toContain('ran out on 2026-11-24');
    const words = await shop.refused('ben', 'job tick 1 1 8.5 B2');
    expect(words).toContain('wrench B2 ran out on 2026-11-24');
    await shop.done('ben', words.slice(words.indexOf('job tick')));
    expect(await shop.done('anna', 'job tick 1 6 3 C3 due=2026-11-25')).toContain('is signed');
  });

  it('refuses what is no value, no wrench and no date, with an example that works', async () => {
    await opened();
    for (const [line, field] of [
      ['job tick 1 1 tight A1', 'value: "tight" cannot be read as a torque.'],
      ['job tick 1 1 8.5 Nm', 'wrench: "Nm" is a unit'],
      ['job tick 1 1 8.5 A1 due=soon', 'due: "soon" is no date'],
      ['job tick 1 1 0 A1', 'value: 0 N·m (0 lbf·in) is no torque for a bicycle.'],
      ['job tick 1 1 151 A1 why=strong', 'value: 151 N·m'],
      ['job tick 1 1 8.5 wrench=" "', 'wrench: '],
      ['job tick 1 9 8.5 A1', 'row: Job 1 has no row 9.'],
      ['job tick 7 1 8.5 A1', 'job: There is no job 7 here.'],
      ['job tick one 1 8.5 A1', 'job: '],
    ] as const) {
      const words = await shop.refused('anna', line);
      expect(words).toContain(field);
      const example = words.slice(words.lastIndexOf(' job ') + 1);
      expect((await shop.say('anna', example)).kind, `${line} → ${example}`).toBe('kept');
      const ticked = /^job tick 1 \d/.exec(example)?.[0];
      if (ticked !== undefined) await shop.done('anna', `${ticked.replace('tick', 'undo')} next`);
    }
  });

  it('signs no row twice that one person settles', async () => {
    await opened();
    await shop.done('anna', 'job tick 1 1 8.5 A1');
    expect(await shop.refused('anna', 'job tick 1 1 8.5 A1')).toContain('You have signed row 1 already.');
    expect(await shop.refused('ben', 'job tick 1 1 8.5 A1')).toContain('has all the signatures it needs');
  });
});

describe('job second', () => {
  it('takes the second signature from somebody else only', async () => {
    await opened();
    expect(await shop.refused('ben', 'job second 1 3 13 B2')).toContain('Nobody has signed row 3 yet.');
    expect(await shop.done('anna', 'job tick 1 3 13 A1')).toContain('13 N·m by anna, wrench A1; second check open');
    expect(await shop.refused('anna', 'job second 1 3 13 A1')).toContain("must be somebody else's");
    expect(await shop.refused('anna', 'job tick 1 3 13 A1')).toContain("must be somebody else's");
    expect(await shop.done('ben', 'job second 1 3 13 B2')).toContain(
      '13 N·m by anna, wrench A1; checked 13 N·m by ben, wrench B2',
    );
    expect(await shop.refused('cem', 'job second 1 3 13 C3')).toContain('has all the signatures it needs');
  });

  it('takes another figure only with the reason, and says that the two differ', async () => {
    await opened();
    await shop.done('anna', 'job tick 1 3 13 A1');
    expect(await shop.refused('ben', 'job second 1 3 14 B2')).toContain('The first person set 13 N·m');
    expect(await shop.done('ben', 'job tick 1 3 14 B2 why="it moved a little"')).toContain('13 and 14 N·m');
  });

  it('is not needed where one person settles a row', async () => {
    await opened();
    expect(await shop.refused('ben', 'job second 1 1 8.5 B2')).toContain('needs one signature only');
  });
});

describe('job strike, undo and note', () => {
  it('strike a row with a reason, and take it back with one', async () => {
    await opened();
    expect(await shop.refused('anna', 'job strike 1 5')).toContain('the reason is missing');
    expect(await shop.done('anna', 'job strike 1 5 not on this bike')).toContain(
      'struck out by anna: not on this bike',
    );
    expect(await shop.refused('anna', 'job tick 1 5 2.7 A1')).toContain('is struck out');
    expect(await shop.refused('anna', 'job strike 1 5 again')).toContain('is struck out');
    expect(await shop.done('ben', 'job undo 1 5 it is there after all')).toContain('Row 5 of job 1 is unsigned again.');
    expect(await shop.refused('ben', 'job undo 1 5 twice')).toContain('neither signed nor struck out');
    await shop.done('anna', 'job tick 1 5 2.7 A1');
    expect((await row(5))?.ticks).toHaveLength(1);
  });

  it('note what was advised and declined', async () => {
    await opened();
    expect(await shop.done('anna', 'job note 1 new chain advised, declined')).toContain(
      '2026-11-25 09:02 UTC, anna: new chain advised, declined',
    );
  });
});

describe('job close and reopen', () => {
  it('close only when every row is settled; reopening is recorded', async () => {
    await opened();
    await shop.done('anna', 'job tick 1 3 13 A1');
    expect(await shop.refused('anna', 'job close 1')).toContain(
      'waits: rows 1, 2, 4, 5, 6, 7 and 8 for a signature; row 3 for a second one, not by anna.',
    );
    await shop.done('ben', 'job second 1 3 13 B2');
    for (const number of [1, 2, 4, 5, 6, 7, 8]) await shop.done('anna', `job strike 1 ${number} only a trial`);
    expect(await shop.done('anna', 'job show 1')).toContain('To close it: job close 1');
    expect(await shop.refused('anna', 'job reopen 1 why=early')).toContain('is open already');
    expect(await shop.done('anna', 'job close 1')).toContain('Job 1 is closed: 8 of 8 rows settled.');
    expect(await shop.refused('anna', 'job tick 1 1 8.5 A1')).toContain('Job 1 is closed');
    expect(await shop.refused('anna', 'job second 1 1 8.5 A1')).toContain('Job 1 is closed');
    expect(await shop.refused('ben', 'job reopen 1')).toContain('the reason is missing');
    await shop.done('ben', 'job reopen 1 the crank creaks');
    expect(await shop.done('ben', 'job log 1')).toContain('ben: reopened: the crank creaks');
  });
});

describe('job list and log', () => {
  it('list what is open and what is closed, page by page', async () => {
    for (let n = 1; n <= 22; n += 1) await opened(`${BIKE} title=t${n}`);
    const words = await shop.done('anna', 'job list');
    expect(words).toContain('20 open jobs, the newest first; there are older ones.');
    expect(words).toContain('22: t22; opened 2026-11-25');
    expect(words).toContain('Older jobs (list before=3)');
    expect(await shop.done('anna', 'job list before=3')).toContain('2 open jobs here.');
    expect(await shop.done('anna', 'job list closed=yes')).toContain('No closed jobs here.');
  });

  it('log every deed in order, page by page, also what was taken back', async () => {
    await opened();
    for (let n = 1; n <= 21; n += 1) {
      await shop.done('anna', `job tick 1 1 8.5 A1`);
      await shop.done('anna', `job undo 1 1 try ${n}`);
    }
    const words = await shop.done('anna', 'job log 1');
    expect(words).toContain('Log of job 1: 43 entries.');
    expect(words).toContain('3. 2026-11-25 09:03 UTC, anna: row 1 taken back to unsigned: try 1');
    expect(words).not.toContain('41. ');
    expect(words).toContain('Later entries (log 1 after=40)');
    expect(await shop.done('anna', 'job log 1 after=40')).toContain('43. 2026-11-25 09:43 UTC, anna: row 1 taken back');
  });
});

it('answer lines stay within what a notification shows', async () => {
  const replies = [
    await shop.say('anna', `job open ${BIKE} title=${'x'.repeat(80)}`),
    await shop.say('anna', `job tick 1 3 13 ${'w'.repeat(40)}`),
    await shop.say('anna', `job strike 1 1 ${'y'.repeat(300)}`),
    await shop.say('anna', 'job log 1'),
    await shop.say('anna', 'job list'),
  ];
  for (const { kind, card } of replies) {
    expect(kind).toBe('kept');
    expect(card.answer.length).toBeLessThanOrEqual(120);
    expect(card.lines.length).toBeLessThanOrEqual(5);
  }
});
