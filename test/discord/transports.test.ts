import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { PERMISSION } from '../../adapters/discord/wire.ts';
import type { Pictures } from '../../src/draw/pictures.ts';
import { type Double, openDouble } from '../support/discord-double.ts';
import { BOSS, press, slash, submit, typing } from '../support/discord-payloads.ts';
import { button, list, modal, openStage, type Stage, shown } from '../support/discord-stage.ts';
import { TRANSPORTS, type Transport } from '../support/discord-transports.ts';

const HILLS = '2x10 36/22 11-36 29er hardtail 104bcd clutch stays=440mm chain=108 hub=142';

/** A picture for the path: four bytes are enough to see that the same ones arrive. */
const PNG = Uint8Array.from([0x89, 0x50, 0x4e, 0x47]);
const PICTURES: Pictures = { png: () => Promise.resolve({ kind: 'drawn', png: PNG }), close: () => Promise.resolve() };

let people = 0;
function somebody(more: object = {}) {
  people += 1;
  return { id: `55000000000000${1000 + people}`, ...more };
}

describe.each(['gateway', 'http'] as const)('over the %s', (name) => {
  let stage: Stage;
  let double: Double;
  let line: Transport;
  beforeAll(async () => {
    stage = await openStage({ pictures: PICTURES });
    double = await openDouble();
    line = await TRANSPORTS[name](stage, double);
  });
  afterAll(async () => {
    await line.close();
    await double.close();
    await stage.end();
    expect(double.faults).toEqual([]);
    expect(stage.lines.filter(({ level }) => level === 'error')).toEqual([]);
  });

  it('a question is answered, looked into, changed in place and shared', async () => {
    const who = somebody();
    const [plan] = await line.say(slash(who, 'convert', { setup: HILLS }));
    expect(plan && shown(plan).content).toMatch(/^32T suits best/);
    const [weight] = await line.say(press(who, button(plan, 'Weight')));
    expect(weight?.body.type).toBe(7);
    const [ring] = await line.say(press(who, list(plan, 'Another ring').id, ['ring=34']));
    expect(ring && shown(ring).content).toMatch(/^34T/);
    const [shared] = await line.say(press(who, button(plan, 'Share')));
    expect(shared?.body).toMatchObject({ type: 4, data: { flags: 0 } });
  });

  it('a command without a bike opens a modal, and its bike is answered', async () => {
    const who = somebody();
    const [form] = await line.say(slash(who, 'gears'));
    const [answer] = await line.say(submit(who, modal(form).id, { setup: '36/22 11-36 29er', ring: '32' }));
    expect(answer?.body.type).toBe(4);
  });

  it('suggestions come while somebody types', async () => {
    const [found] = await line.say(typing(somebody(), 'convert', 'cassette', '11-36 10-speed'));
    expect(found?.body).toMatchObject({ type: 8, data: { choices: [{ value: '11-13-15-17-19-21-24-28-32-36' }] } });
  });

  it('pictures go along, the same bytes, with words for who cannot see them', async () => {
    const who = somebody();
    const [plan] = await line.say(slash(who, 'convert', { setup: HILLS }));
    const sent = await line.say(press(who, button(plan, 'Chain')), (all) => all.some(({ files }) => files.length > 0));
    const carrying = sent.find(({ files }) => files.length > 0);
    expect(carrying?.files[0]).toMatchObject({ name: 'chain-1.png', type: 'image/png' });
    expect(carrying?.files[0]?.bytes).toEqual(PNG);
    const body = (carrying?.kind === 'first' ? carrying.body.data : carrying?.body) as {
      attachments: { description: string }[];
    };
    expect(body.attachments[0]?.description).toMatch(/106 pitches/);
    // A view without a picture takes the old one away.
    const [weight] = await line.say(press(who, button(plan, 'Weight')));
    expect(weight?.body).toMatchObject({ data: { attachments: [] } });
  });

  it('a topic is posted and pinned by the bot', async () => {
    const may = { botMay: PERMISSION.pinMessages };
    const who = somebody({ permissions: BOSS.permissions });
    const [kept] = await line.say(slash(who, 'answer', { topic: 'hills', text: 'Take 30.' }, 'pin'));
    const sent = await line.say(
      press(who, button(kept, 'Post and pin here'), [], { mine: true }, may),
      (all) => all.length > 2,
    );
    expect(sent.map(({ kind }) => kind)).toEqual(['first', 'edit', 'follow']);
    expect(sent[2] && shown(sent[2]).content).toBe('Pinned in this channel.');
    expect(double.byBot.at(-1)).toMatchObject({
      method: 'PUT',
      path: expect.stringMatching(/^\/channels\/200000000000000001\/messages\/pins\/6/),
    });

    double.refuse('/channels/', 400, 30003);
    const again = await line.say(
      press(who, button(kept, 'Post and pin here'), [], { mine: true }, may),
      (all) => all.length > 2,
    );
    expect(again[2] && shown(again[2]).content).toMatch(/list of pins is full/);
    double.refuse('/channels/', 403, 50013);
    const third = await line.say(
      press(who, button(kept, 'Post and pin here'), [], { mine: true }, may),
      (all) => all.length > 2,
    );
    expect(third[2] && shown(third[2]).content).toMatch(/may not pin/);
  });

  it('a message is answered at its place by the bot', async () => {
    const who = somebody();
    const at = { botMay: PERMISSION.sendMessages };
    const sent = await line.say(
      submit(who, '1|reply|700000000000000077|555000000000000003', { topic: 'hills', line: 'Hi' }, undefined, at),
      (all) => all.length > 1,
    );
    expect(sent.map(({ kind }) => kind)).toEqual(['first', 'edit']);
    expect(double.byBot.at(-1)).toMatchObject({
      path: '/channels/200000000000000001/messages',
      body: {
        message_reference: { message_id: '700000000000000077' },
        allowed_mentions: { parse: [], replied_user: false },
      },
    });
    double.refuse('/channels/', 403, 50001);
    const without = await line.say(
      submit(somebody(), '1|reply|700000000000000077|555000000000000003', { topic: 'hills' }, undefined, at),
      (all) => all.length > 2,
    );
    expect(without.map(({ kind }) => kind)).toEqual(['first', 'follow', 'edit']);
  });

  it('a job is ticked by many at once, and the last to answer shows all of it', async () => {
    const at = { server: name === 'http' ? '100000000000000991' : '100000000000000992' };
    const setup = `${HILLS} cranktype=pinch boltmaterial=steel bar=flat`;
    const [job] = await line.say(slash(somebody(), 'job', { setup }, 'open', at));
    const rows = [...(job ? shown(job).buttons.keys() : [])].filter((label) => label.startsWith('Tick'));
    expect(rows.length).toBeGreaterThan(3);
    const everybody = { mine: false };
    const payloads = rows.map((label) => {
      const row = label.replace('Tick ', '');
      const fields = { value: '5', wrench: 'A1', due: '2199-01-01', why: 'printed on the part' };
      return submit(somebody(), `1|fill|job|tick|1|${row}`, fields, everybody, at);
    });
    await Promise.all(payloads.map((payload) => line.say(payload)));
    const [after] = await line.say(slash(somebody(), 'job', { job: 1 }, 'show', at));
    expect(after && [...shown(after).buttons.keys()].filter((label) => label.startsWith('Tick'))).toEqual([]);
  });

  it('is not slowed down to the platform’s limit for bots: it does not count for answers', async () => {
    // The library counts by the clock of the system: while that stands still, whoever is held back waits for ever.
    vi.useFakeTimers({ toFake: ['Date'] });
    try {
      const who = () => somebody({ permissions: BOSS.permissions });
      const at = (index: number) => ({ server: `1000000000000${1000 + index}` });
      const asked = Array.from({ length: 150 }, (_, index) =>
        line.say(press(who(), '1|pin-message|7', [], { mine: true }, at(index)), (all) => all.length > 1),
      );
      const answers = await Promise.all(asked);
      expect(answers.map((sent) => sent[1]?.kind)).toEqual(asked.map(() => 'edit'));
    } finally {
      vi.useRealTimers();
    }
  });
});
