import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { SHORTCUTS } from '../../adapters/slack/standard-answers.ts';
import { openHouse } from '../support/slack-house.ts';
import { stamp } from '../support/slack-payloads.ts';
import { buttonOf, namesOf, readable, type Stage, shownAt, windowOf } from '../support/slack-stage.ts';

let house: Awaited<ReturnType<typeof openHouse>>;
beforeAll(async () => {
  house = await openHouse();
});
afterAll(() => house.end());

async function withTopic(stage: Stage): Promise<void> {
  const view = windowOf(
    await stage.shortcut('UBOSS', SHORTCUTS.pin, { ts: stamp(), text: 'Measure first, then cut.' }),
  );
  const { arrived } = await stage.submit('UBOSS', view, { topic: 'chain-length', text: 'Measure first, then cut.' });
  expect(readable(arrived[0]?.message ?? { blocks: [] })).toContain('chain-length');
}

describe('the shortcut to pin', () => {
  it('takes over the words of a message, for an admin', async () => {
    const stage = await house.stage();
    const message = { ts: stamp(), text: 'Is it &lt;5 mm &amp; even? <@U1|ann> says *yes*' };
    const view = windowOf(await stage.shortcut('UBOSS', SHORTCUTS.pin, message));
    const text = view.blocks.find((block) => block.type === 'input' && block.block_id === 'text');
    expect(text).toMatchObject({ element: { initial_value: 'Is it <5 mm & even? <@U1> says *yes*' } });
  });

  it('takes one of our own answers by its code, so that it is solved anew', async () => {
    const stage = await house.stage();
    const card = shownAt(await stage.slash('UBOSS', 'convert 2x10 36/22 11-36 104bcd'));
    const code = /Code #(\w{8})/.exec(readable(card))?.[1];
    const message = { ts: stamp(), text: card.text, bot_id: 'B01', blocks: card.blocks };
    const view = windowOf(await stage.shortcut('UBOSS', SHORTCUTS.pin, message));
    const from = view.blocks.find((block) => block.type === 'input' && block.block_id === 'from');
    expect(from).toMatchObject({ element: { initial_option: { value: `#${code}` } } });
    const { arrived } = await stage.submit('UBOSS', view, { topic: 'hardtail', from: `#${code}` });
    expect(namesOf(shownAt({ ack: undefined, arrived, windows: [] }))).toContain('Post and pin here');
    const shown = await stage.slash('UANN', 'answer show hardtail');
    expect(shown.ack).toMatchObject({ response_type: 'in_channel' });
    expect(readable(shownAt(shown))).toContain('suits best');
  });

  it('is for those who may, and says whom to ask', async () => {
    const stage = await house.stage();
    const { arrived, windows } = await stage.shortcut('UANN', SHORTCUTS.pin, { ts: stamp(), text: 'words' });
    expect(windows).toEqual([]);
    expect(arrived[0]).toMatchObject({ everybody: false });
    expect(readable(arrived[0]?.message ?? { blocks: [] })).toContain('for the moderators');
  });

  it('says at the field what is wrong, and keeps what was typed', async () => {
    const stage = await house.stage();
    const view = windowOf(await stage.shortcut('UBOSS', SHORTCUTS.pin, { ts: stamp(), text: 'words' }));
    const { ack, arrived } = await stage.submit('UBOSS', view, { topic: 'long', text: 'x'.repeat(1801) });
    expect(arrived).toEqual([]);
    expect(ack).toMatchObject({ response_action: 'errors' });
    expect(JSON.stringify(ack)).toContain('1801');
  });

  it('tells of a message longer than a window takes', async () => {
    const stage = await house.stage();
    const view = windowOf(await stage.shortcut('UBOSS', SHORTCUTS.pin, { ts: stamp(), text: 'x'.repeat(3500) }));
    expect(readable(view)).toContain('3500 characters');
    expect(stage.platform.faults).toEqual([]);
  });
});

describe('who may pin', () => {
  const line = 'answer pin hills text="Take the 30."';

  it('is anybody in a group that the settings name, as the platform has it now', async () => {
    const stage = await house.stage();
    stage.platform.groups.set('S01MODS', { handle: 'mods', users: ['UANN'] });
    await stage.slash('UBOSS', 'settings change pinroles=+<!subteam^S01MODS|@mods>');
    expect(readable(shownAt(await stage.slash('UBOB', line)))).toContain('for the moderators');
    expect(readable(shownAt(await stage.slash('UANN', line)))).toContain('hills');
    const shown = readable(shownAt(await stage.slash('UBOSS', 'settings show')));
    expect(shown).toContain('mods');
    expect(shown).not.toContain('S01MODS');
  });

  it('is anybody the settings name', async () => {
    const stage = await house.stage();
    await stage.slash('UBOSS', 'settings change pinpeople=+<@UANN|ann>');
    expect(readable(shownAt(await stage.slash('UANN', line)))).toContain('hills');
    const shown = await stage.slash('UBOSS', 'settings show');
    expect(readable(shownAt(shown))).toContain('Ann');
    expect(JSON.stringify(shown.ack)).not.toContain('UANN');
  });

  it('is no admin of another workspace, and nobody whose account is closed', async () => {
    const stage = await house.stage();
    stage.platform.users.set('UELSE', { is_admin: true, team_id: 'T09ELSE' });
    stage.platform.users.set('UGONE', { is_admin: true, deleted: true });
    for (const user of ['UELSE', 'UGONE', 'UUNKNOWN']) {
      expect(readable(shownAt(await stage.slash(user, line)))).toContain('for the moderators');
    }
  });

  it('is asked once in a few minutes, and again after them', async () => {
    const stage = await house.stage();
    const asks = () => stage.platform.calls.filter(({ method }) => method === 'users.info').length;
    await stage.slash('UBOSS', 'settings show');
    await stage.slash('UBOSS', 'settings show');
    expect(asks()).toBe(1);
    stage.platform.users.set('UBOSS', { is_admin: false });
    stage.pass(10 * 60_000);
    expect(readable(shownAt(await stage.slash('UBOSS', line)))).toContain('for the moderators');
  });

  it('is not asked for what everybody may do', async () => {
    const stage = await house.stage();
    await stage.slash('UANN', 'convert 2x10 36/22 11-36');
    await stage.slash('UANN', 'bike list');
    expect(stage.platform.calls).toEqual([]);
  });
});

describe('pinning in the channel', () => {
  it('posts the topic for all and pins that message', async () => {
    const stage = await house.stage();
    await withTopic(stage);
    const card = shownAt(await stage.slash('UBOSS', 'answer edit chain-length text="Measure twice." why=clearer'));
    const { arrived } = await stage.press('UBOSS', buttonOf(card, 'Post and pin here'));
    expect(arrived.map(({ by, everybody }) => [by, everybody])).toEqual([
      ['chat.postMessage', true],
      ['address', false],
    ]);
    expect(stage.platform.pins).toEqual([{ channel: 'C01SHOP', timestamp: arrived[0]?.ts }]);
    expect(arrived[1]?.message.text).toBe('Pinned in this channel.');
  });

  it('pins the message it came from', async () => {
    const stage = await house.stage();
    const view = windowOf(await stage.shortcut('UBOSS', SHORTCUTS.pin, { ts: '1764000000.000100', text: 'words' }));
    const { arrived } = await stage.submit('UBOSS', view, { topic: 'words', text: 'words' });
    const kept = shownAt({ ack: undefined, arrived, windows: [] });
    await stage.press('UBOSS', buttonOf(kept, 'Pin that message here'));
    expect(stage.platform.pins).toEqual([{ channel: 'C01SHOP', timestamp: '1764000000.000100' }]);
    // Rights may be gone by the time somebody presses, and the button may be somebody else's.
    const other = await stage.press('UANN', buttonOf(kept, 'Pin that message here'), { mine: false });
    expect(readable(shownAt(other))).toContain('for the moderators');
    expect(stage.platform.pins).toHaveLength(1);
  });

  it.each([
    ['not_in_channel', 'Invite me'],
    ['restricted_action', 'may not pin'],
    ['message_not_found', 'is gone'],
    ['too_many_pins', 'list of pins is full'],
    ['ratelimited', 'Try the button again later'],
  ])('that the platform refuses with %s is explained, with a way to try again', async (error, words) => {
    const stage = await house.stage();
    const view = windowOf(await stage.shortcut('UBOSS', SHORTCUTS.pin, { ts: '1764000000.000100', text: 'words' }));
    const { arrived } = await stage.submit('UBOSS', view, { topic: 'words', text: 'words' });
    stage.platform.refuse('pins.add', error);
    const failed = await stage.press(
      'UBOSS',
      buttonOf(shownAt({ ack: undefined, arrived, windows: [] }), 'Pin that message here'),
    );
    expect(shownAt(failed).text).toContain(words);
    await stage.press('UBOSS', buttonOf(shownAt(failed), 'Try to pin again'));
    expect(stage.platform.pins).toHaveLength(1);
  });

  it('that stands already is as good as done', async () => {
    const stage = await house.stage();
    const view = windowOf(await stage.shortcut('UBOSS', SHORTCUTS.pin, { ts: '1764000000.000100', text: 'words' }));
    const { arrived } = await stage.submit('UBOSS', view, { topic: 'words', text: 'words' });
    stage.platform.refuse('pins.add', 'already_pinned');
    const done = await stage.press(
      'UBOSS',
      buttonOf(shownAt({ ack: undefined, arrived, windows: [] }), 'Pin that message here'),
    );
    expect(shownAt(done).text).toBe('Pinned in this channel.');
  });
});

describe('the shortcut to answer', () => {
  it('posts the topic in the thread of the message, with a line of one’s own', async () => {
    const stage = await house.stage();
    await withTopic(stage);
    const message = { ts: '1764000000.000200', user: 'UBOB', text: 'how long must it be?' };
    const view = windowOf(await stage.shortcut('UANN', SHORTCUTS.reply, message));
    const { ack, arrived } = await stage.submit('UANN', view, {
      topic: 'chain-length',
      line: 'Hello <!channel> & *all*!',
    });
    expect(ack).toBeUndefined();
    expect(arrived[0]).toMatchObject({ by: 'chat.postMessage', thread: '1764000000.000200', everybody: true });
    const text = readable(arrived[0]?.message ?? { blocks: [] });
    expect(text).toContain('Ann: Hello <!channel> & *all*!');
    expect(text).toContain('Measure first');
    expect(arrived[1]?.message.text).toContain('posted in the thread');
  });

  it('goes by the address for answers where the program is no member', async () => {
    const stage = await house.stage();
    await withTopic(stage);
    stage.platform.channels.clear();
    const view = windowOf(await stage.shortcut('UANN', SHORTCUTS.reply, { ts: '1764000000.000300', text: 'so?' }));
    const { arrived } = await stage.submit('UANN', view, { topic: 'chain-length' });
    expect(arrived[0]).toMatchObject({ by: 'address', thread: '1764000000.000300', everybody: true });
  });

  it('keeps the window open for a topic that is not there, and names those that come near', async () => {
    const stage = await house.stage();
    await withTopic(stage);
    const view = windowOf(await stage.shortcut('UANN', SHORTCUTS.reply, { ts: '1764000000.000400', text: 'so?' }));
    const { ack } = await stage.submit('UANN', view, { topic: 'chain-lenght' });
    expect(ack).toMatchObject({
      response_action: 'errors',
      errors: { topic: expect.stringContaining('chain-length') },
    });
  });
});
