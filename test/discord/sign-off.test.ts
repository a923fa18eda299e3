import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Person, press, slash, submit } from '../support/discord-payloads.ts';
import { button, modal, openStage, type Sent, type Stage, shown } from '../support/discord-stage.ts';

const BIKE = '2x10 36/22 11-36 29er hardtail 104bcd stays=440mm cranktype=pinch boltmaterial=steel bar=flat';
const EVERYBODY = { mine: false } as const;

/** Bytes that stand for a page. */
const PAGE = Uint8Array.from([0x25, 0x50, 0x44, 0x46]);

let stage: Stage;
beforeAll(async () => {
  stage = await openStage({ printPage: () => Promise.resolve(PAGE) });
});
afterAll(() => stage.end());

let places = 0;
function workshop() {
  places += 1;
  const at = { server: `10000000000000${1000 + places}` };
  const who = (name: number): Person => ({ id: `52000000000${1000 + places}${name}` });
  return { at, ann: who(1), bob: who(2) };
}

async function opened(at: object, who: Person): Promise<Sent> {
  const [job] = await stage.say(slash(who, 'job', { setup: BIKE, title: 'Hardtail' }, 'open', at));
  if (job === undefined) throw new Error('no job');
  return job;
}

/** Presses the button of a row and sends off the modal it opens. */
async function ticked(at: object, who: Person, job: Sent | undefined, label: string, fields: Record<string, string>) {
  const [form] = await stage.say(press(who, button(job, label), [], EVERYBODY, at));
  return stage.say(submit(who, modal(form).id, fields, EVERYBODY, at));
}

describe('a torque sign-off', () => {
  it('is there for everybody, with a button for every row that is open', async () => {
    const { at, ann } = workshop();
    const job = await opened(at, ann);
    const { private: mine, buttons, text } = shown(job);
    expect(mine).toBe(false);
    const ticks = [...buttons.keys()].filter((label) => label.startsWith('Tick'));
    const rows = Number(/of (\d+) rows/.exec(text)?.[1]);
    expect(ticks.length).toBe(rows);
    expect(text).toContain(`<@${ann.id}>`);
  });

  it('asks for value and wrench, and is changed in place', async () => {
    const { at, ann } = workshop();
    const job = await opened(at, ann);
    const [form] = await stage.say(press(ann, button(job, 'Tick 1'), [], EVERYBODY, at));
    expect(modal(form).fields.map(({ custom_id }) => custom_id)).toEqual(['value', 'wrench', 'due', 'why']);
    const [after] = await ticked(at, ann, job, 'Tick 1', { value: '13', wrench: 'A1', due: '2199-01-01', why: '' });
    expect(after?.body.type).toBe(7);
    expect(after && shown(after).content).toContain('Row 1 of job 1 is signed: 13 N·m');
    expect(after && [...shown(after).buttons.keys()]).not.toContain('Tick 1');
  });

  it('refuses for the one who pressed alone, and leaves the job as it is', async () => {
    const { at, ann } = workshop();
    const job = await opened(at, ann);
    const [refused] = await ticked(at, ann, job, 'Tick 1', { value: '99', wrench: 'A1', due: '', why: '' });
    expect(refused?.body.type).toBe(4);
    expect(refused && shown(refused).private).toBe(true);
    expect(refused && shown(refused).text).toContain('12');
    // What was typed stays at hand.
    const [again] = await stage.say(press(ann, button(refused, 'Correct'), [], { mine: true }, at));
    expect(JSON.stringify(again?.body)).toContain('"value":"99"');
  });

  it('wants a second person at the crank: not the same one, whoever presses', async () => {
    const { at, ann, bob } = workshop();
    const job = await opened(at, ann);
    const row = /(\d+) Crank pinch bolts/.exec(shown(job).text)?.[1] ?? '';
    const fields = { value: '13', wrench: 'A1', due: '2199-01-01', why: '' };
    const [first] = await ticked(at, ann, job, `Tick ${row}`, fields);
    const [same] = await ticked(at, ann, first, `Second check ${row}`, fields);
    expect(same && shown(same).private).toBe(true);
    expect(same && shown(same).text).toMatch(/second|somebody else/i);
    const [second] = await ticked(at, bob, first, `Second check ${row}`, fields);
    expect(second?.body.type).toBe(7);
    expect(second && shown(second).content).toContain('Two people have signed it');
  });

  it('survives two people ticking at once: the message ends with both, whichever answer comes last', async () => {
    const { at, ann, bob } = workshop();
    const job = await opened(at, ann);
    const fields = { value: '13', wrench: 'A1', due: '2199-01-01', why: '' };
    const form = async (who: Person, label: string) =>
      modal((await stage.say(press(who, button(job, label), [], EVERYBODY, at)))[0]).id;
    const one = await form(ann, 'Tick 1');
    const two = await form(bob, 'Tick 2');
    // Both acts are done before either answer is on its way: the first to act shows less than there is.
    const handled = await stage.handle(submit(ann, one, fields, EVERYBODY, at));
    const [other] = await stage.say(
      submit(bob, two, { ...fields, value: '4.5', why: 'printed on the part' }, EVERYBODY, at),
    );
    expect(other?.body.type).toBe(7);
    const edits: string[] = [];
    await handled.later?.({
      edit: (post) => {
        edits.push(JSON.stringify(post.body));
        return Promise.resolve('1');
      },
      follow: () => Promise.resolve('2'),
      remove: () => Promise.resolve(),
      pin: () => Promise.resolve(null),
      reply: () => Promise.resolve(false),
    });
    expect(edits.length).toBe(1);
    expect(edits[0]).not.toContain('"Tick 1"');
    expect(edits[0]).not.toContain('"Tick 2"');
  });

  it('opens its log for the one who asks, and closes when every row is settled', async () => {
    const { at, ann } = workshop();
    let job: Sent | undefined = await opened(at, ann);
    const [log] = await stage.say(press(ann, button(job, 'Log'), [], EVERYBODY, at));
    expect(log && shown(log).private).toBe(true);
    for (let count = 0; count < 40; count += 1) {
      const strike: string | undefined = [...shown(job).buttons.keys()].find((label) => label.startsWith('Strike'));
      if (strike === undefined) break;
      // Somebody else each time: one alone would be asked to slow down.
      [job] = await ticked(at, { id: `5400000000000000${10 + count}` }, job, strike, { why: 'not on this bike' });
      if (job === undefined) break;
    }
    const [closed] = await stage.say(press(ann, button(job, 'Close job 1'), [], EVERYBODY, at));
    expect(closed?.body.type).toBe(7);
    expect(closed && shown(closed).content).toMatch(/^Job 1 is closed/);
    expect(closed && [...shown(closed).buttons.keys()].some((label) => label.startsWith('Tick'))).toBe(false);
  });

  it('is handed out as a page to print, with words for who cannot see it', async () => {
    const { at, ann } = workshop();
    const job = await opened(at, ann);
    expect(job.kind).toBe('first');
    const [page] = await stage.say(slash(ann, 'job', { job: 1, paper: 'letter' }, 'print', at));
    expect(page && shown(page).private).toBe(true);
    expect(page?.files).toMatchObject([{ name: 'job-1.pdf', bytes: PAGE }]);
    expect(page?.body).toMatchObject({
      data: { attachments: [{ id: '0', description: expect.stringContaining('page to print') }] },
    });
    const [again] = await stage.say(press(ann, button(page, 'Show it'), [], { mine: true }, at));
    expect(again?.body.type).toBe(7);
  });

  it('has buttons for more rows than fit in rows of five, the rest as a list', async () => {
    const { at, ann } = workshop();
    const rows = Array.from({ length: 40 }, (_, index) => ({
      fastener: `Bolt ${index}`,
      material: 'steel',
      lowNm: 5,
      highNm: 6,
      source: '',
    }));
    const place = `discord:server:${at.server}`;
    const who = { place, person: `<@${ann.id}>` } as Parameters<typeof stage.records.jobs.open>[0];
    await stage.records.jobs.open(who, { title: 'Everything', setup: '', rows }, 1);
    const [job] = await stage.say(slash(ann, 'job', { job: 1 }, 'show', at));
    if (job === undefined) throw new Error('no job');
    const ticks = [...shown(job).buttons.keys()].filter((label) => label.startsWith('Tick'));
    const listed = shown(job)
      .lists.flatMap(({ values }) => values)
      .filter((value) => value.startsWith('tick'));
    expect(ticks.length + listed.length).toBeGreaterThanOrEqual(30);
    const more = shown(job).lists.find(({ placeholder }) => placeholder === 'More to do');
    const [form] = await stage.say(press(ann, more?.id ?? '', [listed[0] ?? ''], EVERYBODY, at));
    expect(modal(form).fields.length).toBe(4);
  });
});
