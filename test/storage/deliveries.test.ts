import { randomBytes } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openHandler as openDiscord } from '../../adapters/discord/handle.ts';
import { openHandler as openSlack } from '../../adapters/slack/handle.ts';
import type { Web } from '../../adapters/slack/ports.ts';
import { type OpenRecords, openRecords } from '../../adapters/storage/open.ts';
import { openDesk } from '../../src/desk.ts';
import type { Place, Who } from '../../src/records/place.ts';
import type { Where } from '../../src/records/where.ts';
import * as discord from '../support/discord-payloads.ts';
import { button, modal, openStage as openDiscordStage } from '../support/discord-stage.ts';
import * as slack from '../support/slack-payloads.ts';
import { openStage as openSlackStage } from '../support/slack-stage.ts';
import { person, place, postgres, type Storage } from '../support/storages.ts';
import { neverRings } from '../support/timers.ts';
import { JOB } from './examples.ts';

/** Deliveries of each kind of command, to two processes at once. */
const ROUNDS = 50;

/** One process that answers: gives what it said, as JSON, or null where it kept silent. */
type Door = (payload: unknown) => Promise<string | null>;

/** One platform in front of two processes that share a database, and the payloads of four commands that change. */
type Platform = {
  readonly doors: readonly [Door, Door];
  readonly at: Place;
  readonly mechanic: Who;
  /** The command as it is typed, once for every `n`. */
  readonly note: (job: number, n: number) => unknown;
  readonly tick: (job: number) => unknown;
  readonly pin: (n: number) => unknown;
  readonly save: (n: number) => unknown;
  readonly pass: () => void;
  readonly end: () => Promise<void>;
};

let storage: Storage;
let where: Where;
let records: OpenRecords;
beforeAll(async () => {
  storage = await postgres();
  where = await storage.fresh();
  records = await openRecords(where);
});
afterAll(async () => {
  await records.close();
  await storage.end();
});

const logId = () => randomBytes(4).toString('hex');
const BIKE = 'rings=36/22 cassette=11-36';

async function onDiscord(): Promise<Platform> {
  let now = Date.UTC(2026, 10, 25, 12);
  const nowMs = () => now;
  const stage = await openDiscordStage({ records: () => records, nowMs, timer: neverRings });
  const other = await openRecords(where);
  const door = (kept: OpenRecords): Door => {
    const desk = openDesk({ records: kept, nowMs, randomBytes });
    const handle = openDiscord({ ...stage.ports, desk, records: kept, logId });
    return async (payload) => {
      const { first, later } = await handle(payload);
      expect(later === null || first !== null).toBe(true);
      return first === null ? null : JSON.stringify(first);
    };
  };
  const who = discord.BOSS;
  const typed = (command: string, action: string, told: Record<string, string | number>) =>
    discord.slash(who, command, told, action, { atMs: now });
  return {
    doors: [door(records), door(other)],
    at: place('discord:server:100000000000000001'),
    mechanic: { place: place('discord:server:100000000000000001'), person: person('<@500000000000000002>') },
    note: (job, n) => typed('job', 'note', { job, text: `note ${n}` }),
    tick: (job) => typed('job', 'tick', { job, row: 1, value: '13', wrench: 'A1' }),
    pin: (n) => typed('answer', 'pin', { topic: `topic-${n}`, text: 'Take the 30.' }),
    save: (n) => typed('bike', 'save', { name: `bike-${n}`, setup: BIKE }),
    pass: () => {
      now += 60_000;
    },
    end: async () => {
      await other.close();
      await stage.end();
    },
  };
}

async function onSlack(): Promise<Platform> {
  const stage = openSlackStage(records);
  const other = await openRecords(where);
  const { platform, ports } = stage;
  platform.users.set('UBOSS', { id: 'UBOSS', team_id: slack.TEAM, name: 'boss', is_admin: true });
  const web: Web = {
    call: (method, args) => Promise.resolve(platform.call(method, { ...args })),
    respond: (url, message) => Promise.resolve(platform.respond(url, message as unknown as slack.Json)),
    send: () => Promise.resolve(false),
  };
  const door = (kept: OpenRecords): Door => {
    const desk = openDesk({ records: kept, nowMs: ports.nowMs, randomBytes });
    const handle = openSlack({ ...ports, desk, records: kept, logId }, () => Promise.resolve());
    return async (payload) => {
      const { ack, later } = await handle(payload, web);
      expect(later === null || ack !== undefined).toBe(true);
      return ack === undefined ? null : JSON.stringify(ack);
    };
  };
  const typed = (line: string) => slack.slash({ user: 'UBOSS' }, line, platform.newAddress());
  const at = place(`slack:${slack.TEAM}`);
  return {
    doors: [door(records), door(other)],
    at,
    mechanic: { place: at, person: person('<@UBOB>') },
    note: (job, n) => typed(`job note ${job} note ${n}`),
    tick: (job) => typed(`job tick ${job} 1 value=13 wrench=A1`),
    pin: (n) => typed(`answer pin topic-${n} text="Take the 30."`),
    save: (n) => typed(`bike save bike-${n} ${BIKE}`),
    pass: () => stage.pass(60_000),
    end: () => other.close(),
  };
}

describe.each([
  ['Discord', onDiscord],
  ['Slack', onSlack],
] as const)('a delivery of %s that two processes get at once', (_, open) => {
  let platform: Platform;
  beforeAll(async () => {
    platform = await open();
  });
  afterAll(() => platform.end());

  /** Gives a payload to both doors at once, and what the one that did the work said. */
  async function delivered(payload: unknown): Promise<string> {
    platform.pass();
    const [one, two] = await Promise.all(platform.doors.map((door) => door(payload)));
    const said = [one, two].filter((each) => typeof each === 'string');
    expect(said, JSON.stringify([one, two])).toHaveLength(1);
    return said[0] ?? '';
  }

  async function openJob(): Promise<number> {
    const opened = await records.jobs.open(platform.mechanic, JOB, 1);
    return opened.kind === 'opened' ? opened.view.job : 0;
  }

  it(`notes once, ${ROUNDS} times`, async () => {
    const job = await openJob();
    for (let n = 0; n < ROUNDS; n++) await delivered(platform.note(job, n));
    const log = await records.jobs.log(platform.at, job);
    const notes = log.flatMap(({ deed }) => (deed.kind === 'noted' ? [deed.text] : []));
    expect(notes).toEqual(Array.from({ length: ROUNDS }, (_, n) => `note ${n}`));
  });

  it(`signs once, ${ROUNDS} times, and says so once`, async () => {
    for (let n = 0; n < ROUNDS; n++) {
      const job = await openJob();
      expect(await delivered(platform.tick(job))).toContain(`Row 1 of job ${job} is signed`);
      expect((await records.jobs.log(platform.at, job)).map(({ deed }) => deed.kind)).toEqual(['opened', 'ticked']);
    }
  });

  it(`pins once, ${ROUNDS} times`, async () => {
    for (let n = 0; n < ROUNDS; n++) {
      expect(await delivered(platform.pin(n))).toContain(`topic-${n}`);
      expect(await records.answers.history(platform.at, `topic-${n}`, Number.POSITIVE_INFINITY, 5)).toHaveLength(1);
    }
  });

  it(`keeps a bike once, ${ROUNDS} times, in place of none before`, async () => {
    for (let n = 0; n < ROUNDS; n++) {
      const said = await delivered(platform.save(n));
      expect(said).toContain(`Kept: bike-${n}`);
      expect(said).not.toContain('in place of');
    }
  });

  it('changes nothing when it comes again after a restart', async () => {
    const job = await openJob();
    const payload = platform.note(job, 1);
    await delivered(payload);
    const restarted = await open();
    restarted.pass();
    expect(await restarted.doors[0](payload)).toBeNull();
    await restarted.end();
    expect(await records.jobs.log(platform.at, job)).toHaveLength(2);
  });
});

describe('a window of Discord that two processes get at once', () => {
  it('signs once', async () => {
    const platform = await onDiscord();
    const stage = await openDiscordStage({ records: () => records });
    const [shown] = await stage.say(discord.slash(discord.CEM, 'job', { setup: `${BIKE} 104bcd` }, 'open'));
    const [form] = await stage.say(discord.press(discord.CEM, button(shown, 'Tick 1'), [], { mine: false }));
    const fields = { value: '13', wrench: 'A1', why: 'printed on the part' };
    const payload = discord.submit(discord.CEM, modal(form).id, fields, { mine: false });
    const said = await Promise.all(platform.doors.map((door) => door(payload)));
    expect(said.filter((each) => each === null)).toHaveLength(1);
    expect(said.find((each) => each !== null)).toContain('is signed');
    await stage.end();
    await platform.end();
  });
});
