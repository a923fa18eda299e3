import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { MESSAGE_COMMANDS } from '../../adapters/discord/standard-answers.ts';
import { PERMISSION } from '../../adapters/discord/wire.ts';
import {
  APPLICATION,
  BOSS,
  onMessage,
  type Person,
  press,
  slash,
  submit,
  typing,
} from '../support/discord-payloads.ts';
import { button, modal, openStage, type Stage, shown } from '../support/discord-stage.ts';

const MAY_PIN = { botMay: PERMISSION.pinMessages };

let stage: Stage;
beforeAll(async () => {
  stage = await openStage();
});
afterAll(() => stage.end());

let people = 0;
function somebody(more: object = {}): Person {
  people += 1;
  return { id: `53000000000000${1000 + people}`, ...more };
}
/** Somebody who may manage the server, anew each time so that nobody is too fast. */
function boss(): Person {
  return somebody({ permissions: BOSS.permissions });
}

describe('a message', () => {
  const MESSAGE = { content: 'Count the pins,\nthen cut. **Twice.**', author: '555000000000000001' };

  it('becomes a standard answer under a topic, and is pinned in its channel by a press', async () => {
    const who = boss();
    const [form] = await stage.say(onMessage(who, MESSAGE_COMMANDS.pin, MESSAGE, MAY_PIN));
    const { id, fields: inputs } = modal(form);
    expect(inputs.map(({ custom_id }) => custom_id)).toEqual(['topic', 'text', 'from', 'aliases', 'why']);
    expect(inputs[1]?.value).toBe(MESSAGE.content);
    const fields = { topic: 'chain length', text: MESSAGE.content, aliases: '', why: '', from: '' };
    const [kept] = await stage.say(submit(who, id, fields, undefined, MAY_PIN));
    expect(kept && shown(kept).private).toBe(true);
    const sent = await stage.say(press(who, button(kept, 'Pin that message here'), [], { mine: true }, MAY_PIN));
    expect(sent.map(({ kind }) => kind)).toEqual(['first', 'pin', 'edit']);
    expect(sent[1]?.body).toMatchObject({ message: '700000000000000077' });
    expect(sent[2] && shown(sent[2]).content).toBe('Pinned in this channel.');
    const [shownAnswer] = await stage.say(slash(somebody(), 'answer', { topic: 'chain length' }, 'show'));
    expect(shownAnswer && shown(shownAnswer).text).toContain('Count the pins');
    expect(shownAnswer && shown(shownAnswer).text).toContain('\\*\\*Twice.\\*\\*');
  });

  it('of ours is pinned by its code, so that its card is solved anew', async () => {
    const who = boss();
    const [plan] = await stage.say(slash(who, 'convert', { setup: '36/22 11-36 104bcd' }));
    const footer = /Code #[0-9A-Z]{8} · rules \S+/.exec(plan ? shown(plan).text : '')?.[0] ?? '';
    const message = { content: '', author: APPLICATION, footer };
    const [form] = await stage.say(onMessage(who, MESSAGE_COMMANDS.pin, message, MAY_PIN));
    const { id, fields: inputs } = modal(form);
    const from = inputs.find(({ custom_id }) => custom_id === 'from')?.value ?? '';
    expect(footer).toContain(from);
    const [kept] = await stage.say(submit(who, id, { topic: 'our hills', from }, undefined, MAY_PIN));
    expect(kept?.body.type).toBe(4);
    const [answer] = await stage.say(slash(somebody(), 'answer', { topic: 'our hills' }, 'show'));
    expect(answer && shown(answer).text).toContain('32T');
  });

  it('somebody else claims to be ours is taken by its words', async () => {
    const message = { content: 'Trust me', author: '555000000000000002', footer: 'Code #ABCDEFGH · rules 1' };
    const [form] = await stage.say(onMessage(boss(), MESSAGE_COMMANDS.pin, message));
    const { fields: inputs } = modal(form);
    expect(inputs.find(({ custom_id }) => custom_id === 'from')?.value).toBeUndefined();
  });

  it('is nothing a member may pin, and they are told whom to ask', async () => {
    const [refused] = await stage.say(onMessage(somebody(), MESSAGE_COMMANDS.pin, MESSAGE));
    expect(refused && shown(refused).private).toBe(true);
    expect(refused && shown(refused).content).toMatch(/for the moderators/);
    const sent = await stage.say(press(somebody(), '1|pin-message|700000000000000077', [], { mine: true }, MAY_PIN));
    expect(sent.map(({ kind }) => kind)).toEqual(['first', 'edit']);
  });

  it('is answered from the standard answers, with a line of one’s own, at the message itself', async () => {
    await stage.say(slash(boss(), 'answer', { topic: 'bolts', text: 'Measure the stack.' }, 'pin'));
    const who = somebody();
    const question = { content: 'my bolts are too long?', author: '555000000000000003' };
    const [form] = await stage.say(onMessage(who, MESSAGE_COMMANDS.reply, question));
    const { id, fields: inputs } = modal(form);
    expect(inputs[0]?.options?.map(({ value }) => value)).toContain('bolts');
    const fields = { topic: ['bolts'], line: 'Hello @everyone, see below' };
    const sent = await stage.say(submit(who, id, fields, undefined, { botMay: PERMISSION.sendMessages }), {
      mayReply: true,
    });
    expect(sent.map(({ kind }) => kind)).toEqual(['first', 'reply', 'edit']);
    expect(sent[1]?.body).toMatchObject({ message_reference: { message_id: '700000000000000077' } });
    expect(sent[1] && shown(sent[1]).content).toContain('Hello \\@everyone, see below');
    expect(sent[1] && shown(sent[1]).content).toContain(`<@${who.id}>`);
    expect(sent[1] && shown(sent[1]).text).toContain('Measure the stack.');
  });

  it('is answered with its address where the program may not write by itself', async () => {
    const who = somebody();
    const [form] = await stage.say(onMessage(who, MESSAGE_COMMANDS.reply, MESSAGE));
    const { id } = modal(form);
    const sent = await stage.say(submit(who, id, { topic: ['bolts'], line: '' }));
    expect(sent.map(({ kind }) => kind)).toEqual(['first', 'follow', 'edit']);
    expect(sent[1] && shown(sent[1]).content).toContain('/100000000000000001/200000000000000001/700000000000000077');
    expect(sent[1] && shown(sent[1]).private).toBe(false);
  });

  it('is answered with nothing where the topic is not there, and only the asker hears of it', async () => {
    const who = somebody();
    const sent = await stage.say(
      submit(who, '1|reply|700000000000000077|555000000000000003', { topic: 'blots', line: 'x' }),
    );
    expect(sent.map(({ kind }) => kind)).toEqual(['first', 'edit']);
    expect(sent[0]?.body).toMatchObject({ type: 5, data: { flags: 64 } });
    expect(sent[1] && shown(sent[1]).text).toContain('bolts');
  });
});

describe('a topic', () => {
  it('is found while it is typed, by name and by its text', async () => {
    const [found] = await stage.say(typing(somebody(), 'answer', 'topic', 'stack', 'show'));
    expect(found?.body).toMatchObject({ type: 8, data: { choices: [{ value: 'bolts' }] } });
  });

  it('is posted and pinned by a press, and why not is explained kindly with a way to try again', async () => {
    const who = boss();
    const [kept] = await stage.say(slash(who, 'answer', { topic: 'washers', text: 'Never stack them.' }, 'pin'));
    const id = button(kept, 'Post and pin here');
    const posted = await stage.say(press(who, id, [], { mine: true }, MAY_PIN));
    expect(posted.map(({ kind }) => kind)).toEqual(['first', 'edit', 'pin', 'follow']);
    expect(posted[0]?.body).toMatchObject({ type: 5, data: { flags: 0 } });
    expect(posted[1] && shown(posted[1]).text).toContain('Never stack them.');
    expect(posted[2]?.body).toMatchObject({ message: '600000000000000001' });

    const outcomes = {
      permission: /may not pin/,
      full: /list of pins is full/,
      gone: /message is gone/,
      withoutBot: /not a member/,
      other: /would not do it/,
    } as const;
    for (const [pin, words] of Object.entries(outcomes)) {
      const sent = await stage.say(press(boss(), id, [], { mine: true }, MAY_PIN), {
        pin: pin as keyof typeof outcomes,
      });
      const last = sent.at(-1);
      expect(last && shown(last).content).toMatch(words);
      expect(last && shown(last).private).toBe(true);
      expect(button(last, 'Try to pin again')).toBeTruthy();
    }
    const untried = await stage.say(press(boss(), id, [], { mine: true }));
    expect(untried.map(({ kind }) => kind)).toEqual(['first', 'edit', 'follow']);
    expect(untried[2] && shown(untried[2]).content).toMatch(/may not pin/);
  });

  it('is posted by nobody whose rights were taken back since the button was made', async () => {
    const sent = await stage.say(press(somebody(), '1|pin-topic|washers', [], { mine: true }, MAY_PIN));
    expect(sent.map(({ kind }) => kind)).toEqual(['first', 'remove', 'follow']);
    expect(sent[2] && shown(sent[2]).private).toBe(true);
  });

  it('goes from a draft to a second moderator by buttons', async () => {
    const at = { server: '100000000000000888' };
    await stage.say(slash(boss(), 'settings', { approvals: true }, 'change', at));
    const one = boss();
    const two = boss();
    const [draft] = await stage.say(slash(one, 'answer', { topic: 'hills', text: 'Take 30.' }, 'pin', at));
    const approve = [...(draft ? shown(draft).buttons : new Map<string, string>()).entries()].find(([label]) =>
      /approve/i.test(label),
    );
    expect(approve).toBeDefined();
    const [own] = await stage.say(press(one, approve?.[1] ?? '', [], { mine: true }, at));
    expect(own && shown(own).content).toMatch(/own|second|other/i);
    const [kept] = await stage.say(press(two, approve?.[1] ?? '', [], { mine: true }, at));
    expect(kept && shown(kept).text).toMatch(/version 1/i);
  });
});
