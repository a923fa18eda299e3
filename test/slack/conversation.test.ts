import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openHouse } from '../support/slack-house.ts';
import { press, slash, suggestion } from '../support/slack-payloads.ts';
import { buttonOf, namesOf, readable, type Stage, selectOf, shownAt, windowOf } from '../support/slack-stage.ts';

const LINE = '2x10 36/22 11-36 29er hardtail 104bcd clutch stays=440mm';

let house: Awaited<ReturnType<typeof openHouse>>;
let stage: Stage;
beforeAll(async () => {
  house = await openHouse();
  stage = await house.stage();
});
afterAll(async () => {
  await house.end();
  expect(stage.platform.faults).toEqual([]);
});

describe('a line behind the slash command', () => {
  it('is answered in the first answer, for the asker alone', async () => {
    const { ack, arrived } = await stage.slash('UANN', `convert ${LINE}`);
    expect(arrived).toEqual([]);
    expect(ack).toMatchObject({ response_type: 'ephemeral', replace_original: false, unfurl_links: false });
    expect(ack).toMatchObject({ text: expect.stringContaining('32T suits best') });
    expect(namesOf(shownAt({ ack, arrived, windows: [] }))).toEqual(
      expect.arrayContaining(['Why', 'Chain', 'Bolts', 'Torque', 'Weight', 'Share', 'Another ring size']),
    );
  });

  it('needs no command to tell a bike', async () => {
    expect(readable(shownAt(await stage.slash('UANN', LINE)))).toContain('32T suits best');
  });

  it('may have typographic quotes, dashes and whatever the platform makes of mentions and addresses', async () => {
    const line = 'convert 2×10 36/22 11–36 29er <http://hardtail.example|hardtail> 104bcd &amp; clutch';
    expect(readable(shownAt(await stage.slash('UANN', line)))).toContain('rings 36/22, cassette 11-36');
    await stage.slash('UANN', 'bike save “my winter bike” 2x10 36/22 11-36');
    expect(readable(shownAt(await stage.slash('UANN', 'convert bike=“my winter bike”')))).toContain('rings 36/22');
  });

  it.each(['help', 'help chain', 'help job', 'measure', 'measure bcd'])(
    '"%s" is answered whole at once',
    async (line) => {
      const text = readable(shownAt(await stage.slash('UANN', line)));
      expect(text.length).toBeGreaterThan(80);
      expect(text).not.toContain('page 1 of');
    },
  );

  it('that is empty opens a window with the fields of the bike', async () => {
    const { ack, windows } = await stage.slash('UANN', '');
    expect(ack).toBeUndefined();
    expect(windows).toHaveLength(1);
    const fields = windows[0]?.blocks.flatMap((block) => (block.type === 'input' ? [block.block_id] : []));
    expect(fields?.slice(0, 3)).toEqual(['setup', 'rings', 'cassette']);
  });

  it('that cannot be read opens a window with what was typed, and says what is wrong', async () => {
    const view = windowOf(await stage.slash('UANN', 'convert ring=NaN 36/22 11-36'));
    const [setup] = view.blocks;
    expect(setup).toMatchObject({ element: { initial_value: 'ring=NaN 36/22 11-36' } });
    expect(readable(view)).toContain('18 to 70');
  });

  it('in which nothing means anything opens the window too', async () => {
    expect(readable(windowOf(await stage.slash('UANN', 'asdf qwer')))).toContain('Not understood: asdf, qwer');
  });

  it('that asks in words is asked back with buttons', async () => {
    const message = shownAt(await stage.slash('UANN', 'can i go 1x?'));
    expect(message.text).not.toBe('');
    expect(readable(message)).not.toMatch(/\d+ %/);
  });

  it('is answered in words where no window can be opened', async () => {
    stage.platform.refuse('views.open', 'expired_trigger_id');
    const { ack } = await stage.slash('UANN', 'convert ring=NaN 36/22 11-36');
    expect(ack).toMatchObject({ text: expect.stringContaining('not a plain number') });
  });

  it('lacking a field of an action opens a window for the rest', async () => {
    const view = windowOf(await stage.slash('UANN', 'bike save winter'));
    expect(view.blocks.flatMap((block) => (block.type === 'input' ? [block.block_id] : []))).toEqual(['setup']);
    expect(readable(view)).toContain('Name of the bike: winter');
  });

  it('in a workspace without an installation says so', async () => {
    const { ack } = await stage.take(slash({ user: 'UANN', team: 'T0NEW' }, 'convert 36/22', '/x'), null);
    expect(ack).toMatchObject({ text: expect.stringContaining('not installed') });
  });
});

describe('a window', () => {
  it('shows its answer where it was opened', async () => {
    const view = windowOf(await stage.slash('UANN', ''));
    const { ack, arrived } = await stage.submit('UANN', view, { setup: '36/22 29er', cassette: '11-36', bcd: '104' });
    expect(ack).toBeUndefined();
    expect(arrived).toMatchObject([{ by: 'address', everybody: false, replaces: false }]);
    expect(arrived[0]?.message.text).toContain('suits best');
  });

  it('keeps what was typed and says at the field what is wrong', async () => {
    const view = windowOf(await stage.slash('UANN', 'chain'));
    const { ack, arrived } = await stage.submit('UANN', view, { setup: '36/22 11-36', stays: '9000mm' });
    expect(arrived).toEqual([]);
    expect(ack).toEqual({ response_action: 'errors', errors: { stays: expect.stringContaining('300 to 800') } });
  });

  it('left open for an hour shows its answer in itself', async () => {
    const view = windowOf(await stage.slash('UANN', ''));
    stage.pass(60 * 60_000);
    const { ack, arrived } = await stage.submit('UANN', view, { setup: LINE });
    expect(arrived).toEqual([]);
    expect(ack).toMatchObject({ response_action: 'update', view: { type: 'modal' } });
  });

  it('offers what is known while somebody types, and what they typed', async () => {
    const view = windowOf(await stage.slash('UANN', ''));
    const field = view.blocks.find((block) => block.type === 'input' && block.block_id === 'cassette');
    if (field?.type !== 'input') throw new Error('no cassette');
    const { ack } = await stage.take(suggestion({ user: 'UANN' }, field.element.action_id, '11-3'));
    if (ack === undefined || !('options' in ack)) throw new Error('no options');
    expect(ack.options[0]).toMatchObject({ value: '11-3' });
    expect(ack.options.length).toBeGreaterThan(1);
    expect(ack.options.length).toBeLessThanOrEqual(100);
    expect(
      Math.max(...ack.options.map(({ value, text }) => Math.max(value.length, text.text.length))),
    ).toBeLessThanOrEqual(75);
    const own = await stage.take(suggestion({ user: 'UANN' }, field.element.action_id, '11-13-16-20-24-29-37'));
    expect(own.ack).toMatchObject({ options: [{ value: '11-13-16-20-24-29-37' }] });
  });
});

describe('a card', () => {
  it('changes in place, and comes back from its code after a restart', async () => {
    const card = shownAt(await stage.slash('UANN', `convert ${LINE}`));
    const chain = await stage.press('UANN', buttonOf(card, 'Chain'));
    expect(chain.arrived).toMatchObject([{ by: 'address', replaces: true, everybody: false }]);
    expect(readable(shownAt(chain))).toContain('Chain for 32T');
    const again = await house.stage();
    expect(readable(shownAt(await again.press('UANN', buttonOf(card, 'Chain'))))).toContain('There is no receipt');
    const back = await stage.press('UANN', buttonOf(shownAt(chain), 'In short'));
    expect(readable(shownAt(back))).toContain('as given before');
  });

  it('shows another ring in place', async () => {
    const card = shownAt(await stage.slash('UANN', `convert ${LINE}`));
    const other = await stage.press('UANN', selectOf(card, 'Another ring size'), {}, 'ring=34');
    expect(other.arrived).toMatchObject([{ replaces: true }]);
    const list = selectOf(shownAt(other), 'Another ring size');
    expect(list.initial_option?.value).toBe('ring=34');
  });

  it('opens the other sections from a list', async () => {
    const card = shownAt(await stage.slash('UANN', `convert ${LINE}`));
    const gears = await stage.press('UANN', selectOf(card, 'More about it'), {}, 'gears');
    expect(readable(shownAt(gears))).toContain('Gears');
  });

  it('is shared by its button, and a copy of what is shared is for who presses', async () => {
    const card = shownAt(await stage.slash('UANN', `convert ${LINE}`));
    const shared = await stage.press('UANN', buttonOf(card, 'Share'));
    expect(shared.arrived).toMatchObject([{ everybody: true, replaces: false, thread: null }]);
    expect(namesOf(shownAt(shared))).not.toContain('Share');
    const why = await stage.press('UBOB', buttonOf(shownAt(shared), 'Why'), { mine: false });
    expect(why.arrived).toMatchObject([{ everybody: false, replaces: false }]);
  });

  it('is shared into the thread it was asked in', async () => {
    const card = shownAt(await stage.slash('UANN', `convert ${LINE}`));
    const shared = await stage.press('UANN', buttonOf(card, 'Share'), { thread: '1700000000.000100' });
    expect(shared.arrived).toMatchObject([{ everybody: true, thread: '1700000000.000100' }]);
  });

  it('is corrected in a window that holds what was read', async () => {
    const card = shownAt(await stage.slash('UANN', `convert ${LINE}`));
    const view = windowOf(await stage.press('UANN', buttonOf(card, 'Correct')));
    expect(view.blocks[0]).toMatchObject({ element: { initial_value: expect.stringContaining('rings 36/22') } });
    const { arrived } = await stage.submit('UANN', view, { setup: '2x10 38/24 11-36 104bcd' });
    expect(arrived).toMatchObject([{ replaces: true, message: { text: expect.stringContaining('T') } }]);
    expect(readable(arrived[0]?.message ?? shownAt({ ack: undefined, arrived, windows: [] }))).toContain('rings 38/24');
  });

  it('of questions goes on with the answer that is pressed', async () => {
    const card = shownAt(await stage.slash('UANN', 'convert 2x10 hardtail 42/32/24, 140 mm rear shock 11-36'));
    const [first] = card.blocks.flatMap((block) => (block.type === 'actions' ? block.elements : []));
    if (first?.type !== 'button') throw new Error('no button');
    const next = await stage.press('UANN', first);
    expect(next.arrived).toMatchObject([{ replaces: true }]);
  });

  it('with a button of an older version says so', async () => {
    const odd = { type: 'button', action_id: 'x', value: '0|see|short|0|convert|%23X', text: { text: 'Old' } };
    const payload = press({ user: 'UANN' }, odd, {
      kind: 'message',
      ts: '1.1',
      mine: true,
      url: stage.platform.newAddress(),
    });
    expect(shownAt(await stage.take(payload)).text).toContain('older version');
  });
});

describe('an address for answers', () => {
  it('is used five times at most; the rest comes by the Web API, and nothing is lost', async () => {
    const url = stage.platform.newAddress();
    stage.platform.addresses.set(url, 4);
    const card = shownAt(await stage.slash('UANN', `convert ${LINE}`));
    const on = { ts: '1.1', mine: true, url } as const;
    const first = await stage.press('UANN', buttonOf(card, 'Chain'), on);
    expect(first.arrived).toMatchObject([{ by: 'address' }]);
    const second = await stage.press('UANN', buttonOf(card, 'Why'), on);
    expect(second.arrived).toMatchObject([{ by: 'chat.postEphemeral', channel: 'C01SHOP' }]);
    expect(stage.platform.addresses.get(url)).toBe(5);
  });

  it('is not tried where it is too old', async () => {
    const view = windowOf(await stage.slash('UANN', 'bike save winter'));
    stage.pass(31 * 60_000);
    const { ack } = await stage.submit('UANN', view, { setup: '2x10 36/22 11-36' });
    expect(ack).toMatchObject({ response_action: 'update' });
  });
});

describe('somebody mentioning the program', () => {
  it('is answered in the thread, for everybody', async () => {
    const { ack, arrived } = await stage.mention('UANN', LINE, '1700000000.000200');
    expect(ack).toBeUndefined();
    expect(arrived).toMatchObject([{ by: 'chat.postMessage', channel: 'C01SHOP', thread: '1700000000.000200' }]);
    expect(arrived[0]?.message.text).toContain('32T suits best');
  });

  it('outside a thread begins one', async () => {
    const { arrived } = await stage.mention('UANN', 'measure bcd');
    expect(arrived[0]?.thread).toMatch(/^\d+\.\d+$/);
  });

  it('about what is theirs is answered for them alone', async () => {
    const { arrived } = await stage.mention('UANN', 'data show', '1700000000.000300');
    expect(arrived).toMatchObject([{ by: 'chat.postEphemeral', everybody: false, thread: '1700000000.000300' }]);
    const refused = await stage.mention('UANN', 'convert ring=NaN');
    expect(refused.arrived).toMatchObject([{ by: 'chat.postEphemeral', thread: null }]);
  });
});

describe('the Home tab', () => {
  const opened = { type: 'app_home_opened', user: 'UANN', tab: 'home' };
  it('says how to ask and shows what is theirs, and its buttons answer in windows', async () => {
    await stage.slash('UANN', 'bike save summer 2x11 34/50 11-32');
    await stage.slash('UANN', 'job open 2x10 36/22 11-36 104bcd');
    await stage.take({ type: 'event_callback', team_id: 'T01TEAM', event_id: 'EvHome1', event: opened });
    const home = stage.platform.homes.get('UANN');
    if (home === undefined) throw new Error('no home');
    const text = readable(home);
    for (const words of [
      'Welcome',
      '/ringwright convert',
      'summer',
      'Open jobs',
      'What is kept about you',
      'Delete it',
    ]) {
      expect(text).toContain(words);
    }
    const kept = windowOf(await stage.pressIn('UANN', buttonOf(home, 'Show it'), 'home'));
    expect(readable(kept)).toContain('Kept about you here');
    const plan = windowOf(await stage.pressIn('UANN', buttonOf(home, 'Plan summer'), 'home'));
    expect(namesOf(plan)).not.toContain('Share');
    const chain = await stage.pressIn('UANN', buttonOf(plan, 'Chain'), 'modal', 'V77');
    expect(stage.platform.opened.at(-1)).toMatchObject({ id: 'V77', method: 'views.update' });
    expect(readable(windowOf(chain))).toContain('Chain for');
  });

  it('deletes what is kept about somebody after saying what that would do', async () => {
    await stage.slash('UCEM', 'bike save old 2x10 36/22 11-36');
    await stage.take({
      type: 'event_callback',
      team_id: 'T01TEAM',
      event_id: 'EvHome2',
      event: { ...opened, user: 'UCEM' },
    });
    const home = stage.platform.homes.get('UCEM');
    if (home === undefined) throw new Error('no home');
    const before = windowOf(await stage.pressIn('UCEM', buttonOf(home, 'Delete it'), 'home'));
    expect(readable(before)).toContain('Nothing is deleted yet');
    const after = windowOf(await stage.pressIn('UCEM', buttonOf(before, 'Delete it for good'), 'modal', 'V8'));
    expect(readable(after)).toContain('Deleted: 1 bike');
  });

  it('opens a window for a bike, whose answer takes its place', async () => {
    await stage.take({ type: 'event_callback', team_id: 'T01TEAM', event_id: 'EvHome3', event: opened });
    const home = stage.platform.homes.get('UANN');
    if (home === undefined) throw new Error('no home');
    const view = windowOf(await stage.pressIn('UANN', buttonOf(home, 'Describe a bike'), 'home'));
    const { ack } = await stage.submit('UANN', view, { setup: LINE });
    expect(ack).toMatchObject({ response_action: 'update' });
  });
});

describe('payloads', () => {
  it('that come twice are answered once', async () => {
    const payload = slash({ user: 'UANN' }, 'convert 36/22 11-36', stage.platform.newAddress());
    expect((await stage.take(payload)).ack).toBeDefined();
    expect(await stage.take(payload)).toMatchObject({ ack: undefined, arrived: [] });
  });

  it('that come too fast are told when to try again', async () => {
    const burst = Array.from({ length: 12 }, () =>
      stage.handle(slash({ user: 'UFAST' }, 'help', stage.platform.newAddress())),
    );
    const texts = (await Promise.all(burst)).map(({ ack }) => (ack !== undefined && 'text' in ack ? ack.text : ''));
    expect(texts.filter((text) => text.includes('very fast'))).toHaveLength(4);
    expect(texts.at(-1)).toMatch(/try again in .*second/);
  });

  it('of a kind that is not known are taken and logged without their words', async () => {
    expect(await stage.take({ type: 'workflow_step_edit', secret: 'words' })).toMatchObject({ ack: undefined });
    expect(JSON.stringify(stage.lines.at(-1))).not.toContain('words');
  });

  it('that we fail at get an apology with a log id, and the log has none of their words', async () => {
    const broken = await house.stage();
    Object.assign(broken.ports.records.receipts, {
      keep: () => Promise.reject(new Error('secret words in an error')),
    });
    const { ack } = await broken.slash('UANN', 'convert 36/22 11-36 my secret words');
    expect(ack).toMatchObject({ text: expect.stringContaining('log id abcd1234') });
    expect(JSON.stringify(broken.lines)).toContain('abcd1234');
    expect(JSON.stringify(broken.lines)).not.toContain('secret');
  });

  it('answered late are received in time and answered afterwards', async () => {
    const late = await house.stage();
    const { desk } = late.ports;
    Object.assign(late.ports, {
      desk: { ask: async (asked: never) => new Promise((done) => setTimeout(() => done(desk.ask(asked)), 30)) },
    });
    late.beSlow(true);
    const { ack, arrived } = await late.slash('UANN', `convert ${LINE}`);
    expect(ack).toBeUndefined();
    expect(arrived).toMatchObject([{ by: 'address', everybody: false }]);
  });
});
