import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readCustomId } from '../../adapters/discord/custom-id.ts';
import { escaped } from '../../adapters/discord/escape.ts';
import { ask } from '../../src/workbench.ts';
import { ANN, BOB, BOSS, CEM, press, slash, submit, typing } from '../support/discord-payloads.ts';
import { button, list, modal, openStage, type Sent, type Stage, shown } from '../support/discord-stage.ts';

const HILLS = '2x10 36/22 11-36 29er hardtail 104bcd clutch stays=440mm chain=108';

let stage: Stage;
beforeAll(async () => {
  stage = await openStage();
});
afterAll(() => stage.end());

/** People of their own for each test, so that none is slowed down by another. */
let people = 0;
function somebody(more: object = {}) {
  people += 1;
  return { id: `51000000000000${1000 + people}`, ...more };
}

async function asked(setup: string, command = 'convert', who = somebody()): Promise<Sent> {
  const [first] = await stage.say(slash(who, command, { setup }));
  if (first === undefined) throw new Error('no answer');
  return first;
}

describe('a plan', () => {
  it('comes in private first: the answer in one line, the stops, what was read, and buttons', async () => {
    const first = await asked(HILLS);
    expect(first.body.type).toBe(4);
    const { content, text, buttons, private: mine } = shown(first);
    expect(mine).toBe(true);
    expect(content).toMatch(/^32T suits best/);
    expect(text.indexOf('**STOP:**')).toBeLessThan(text.indexOf('Gears: 0.89'));
    expect(text).toContain('Read: 2x10');
    expect([...buttons.keys()]).toEqual(['Why', 'Chain', 'Bolts', 'Torque', 'Weight', 'Correct', 'Share']);
    expect(text).toMatch(/Code #[0-9A-Z]{8} · rules/);
  });

  it('opens each part in its place, and goes back', async () => {
    const who = somebody();
    const first = await asked(HILLS, 'convert', who);
    const [torque] = await stage.say(press(who, button(first, 'Torque')));
    expect(torque?.body.type).toBe(7);
    expect(torque && shown(torque).text).toContain('12–14 N·m (106–124 lbf·in)');
    const [short] = await stage.say(press(who, button(torque, 'In short')));
    expect(short && shown(short).content).toBe(shown(first).content);
    const views = list(first, 'More about it');
    const [work] = await stage.say(press(who, views.id, ['work']));
    expect(work && shown(work).text).toContain('Order of work');
  });

  it('is asked anew in place for another ring size, and for an answer to one of its questions', async () => {
    const who = somebody();
    const first = await asked(HILLS, 'convert', who);
    const rings = list(first, 'Another ring size');
    expect(rings.values).toContain('ring=34');
    const [other] = await stage.say(press(who, rings.id, ['ring=34']));
    expect(other?.body.type).toBe(7);
    expect(other && shown(other).content).toMatch(/^34T/);
    const tell = list(other, 'Tell me more');
    const [rough] = await stage.say(press(who, tell.id, ['ground=rough']));
    expect(rough && shown(rough).text).toMatch(/Read: .*wanted ring 34.*rough/);
  });

  it('has every page of a long part behind a button, with nothing lost between them', async () => {
    const who = somebody();
    const first = await asked(HILLS, 'convert', who);
    const pages: Sent[] = [];
    let next: string | undefined = button(first, 'Why');
    while (next !== undefined) {
      const [page] = await stage.say(press(who, next));
      if (page === undefined) break;
      pages.push(page);
      next = shown(page).buttons.get('Next page');
    }
    expect(pages.length).toBeGreaterThan(1);
    const text = pages.map((page) => shown(page).text).join('\n');
    const steps = ask({ command: 'convert', setup: HILLS }).card.blocks.flatMap((block) =>
      block.kind === 'working' ? block.steps : [],
    );
    expect(steps.length).toBeGreaterThan(10);
    for (const { quantity, result } of steps) {
      expect(text).toContain(escaped(quantity));
      expect(text).toContain(escaped(result));
    }
    const [before] = await stage.say(press(who, button(pages[1], 'Previous page')));
    expect(before && shown(before).text).toBe(pages[0] && shown(pages[0]).text);
  });

  it('is shared with everybody; whoever presses a button there gets a copy of their own', async () => {
    const ann = somebody();
    const first = await asked(HILLS, 'convert', ann);
    const [everybody] = await stage.say(press(ann, button(first, 'Share')));
    expect(everybody?.body.type).toBe(4);
    expect(everybody && shown(everybody).private).toBe(false);
    expect(everybody && [...shown(everybody).buttons.keys()]).not.toContain('Share');
    const bob = somebody();
    const [copy] = await stage.say(press(bob, button(everybody, 'Torque'), [], { mine: false }));
    expect(copy?.body.type).toBe(4);
    expect(copy && shown(copy).private).toBe(true);
    const [ring] = await stage.say(press(bob, list(everybody, 'Another ring').id, ['ring=30'], { mine: false }));
    expect(ring && shown(ring).private).toBe(true);
  });

  it('is answered by another process after a restart, from what its button says', async () => {
    const who = somebody();
    const first = await asked(HILLS, 'convert', who);
    const [again] = await stage.say(press(who, button(first, 'Chain')), { handle: stage.restarted() });
    expect(again && shown(again).text).toContain('106 pitches');
  });

  it('comes back by its code, and with one thing changed', async () => {
    const who = somebody();
    const first = await asked(HILLS, 'convert', who);
    const code = /#[0-9A-Z]{8}/.exec(shown(first).text)?.[0] ?? '';
    const [again] = await stage.say(slash(who, 'convert', { code }));
    expect(again && shown(again).content).toBe(shown(first).content);
    const [changed] = await stage.say(slash(who, 'convert', { code, ring: 34 }));
    expect(changed && shown(changed).content).toMatch(/^34T/);
    const [suggested] = await stage.say(typing(who, 'convert', 'code', code.slice(1, 4)));
    expect(JSON.stringify(suggested?.body)).toContain(code);
  });

  it('takes typed options like words of the line', async () => {
    const [first] = await stage.say(
      slash(somebody(), 'convert', {
        rings: '36/22',
        cassette: '11-36',
        bcd: 104,
        clutch: true,
        ring: 32,
        suspension: 'none',
      }),
    );
    expect(first && shown(first).text).toMatch(
      /Read: rings 36\/22, cassette 11-36, wanted ring 32, 104 mm circle, hardtail, clutch/,
    );
  });
});

describe('a command without a bike', () => {
  it('opens a modal with the line and the fields that matter most, and answers what it holds', async () => {
    const who = somebody();
    const [form] = await stage.say(slash(who, 'convert'));
    const { id, fields } = modal(form);
    expect(fields.map(({ custom_id }) => custom_id)).toEqual(['setup', 'rings', 'cassette', 'speeds']);
    const [answer] = await stage.say(
      submit(who, id, { setup: '104bcd 29er', rings: '36/22', cassette: '11-36', speeds: '' }),
    );
    expect(answer?.body.type).toBe(4);
    expect(answer && shown(answer).content).toMatch(/^32T/);
  });

  it.each(['gears', 'chain', 'mount', 'chainline', 'torque', 'weight', 'wear'])(
    '%s opens one as well',
    async (command) => {
      const [modal] = await stage.say(slash(somebody(), command));
      expect(modal?.body.type).toBe(9);
    },
  );
});

describe('what was read', () => {
  it('is corrected in a modal that holds it as a line, in place', async () => {
    const who = somebody();
    const first = await asked(HILLS, 'convert', who);
    const [form] = await stage.say(press(who, button(first, 'Correct')));
    const { id, fields } = modal(form);
    const line = fields[0]?.value ?? '';
    expect(line).toContain('rings 36/22');
    const [answer] = await stage.say(submit(who, id, { setup: line.replace('36/22', '38/24') }, { mine: true }));
    expect(answer?.body.type).toBe(7);
    expect(answer && shown(answer).text).toContain('rings 38/24');
    expect(answer && shown(answer).text).not.toContain('rings 36/22');
  });

  it('is asked back with big buttons where it can mean two things, and settled by one press', async () => {
    const who = somebody();
    const first = await asked('2x10 42/32/24 11-36 hardtail rear shock', 'convert', who);
    const labels = [...shown(first).buttons.keys()];
    expect(labels.length).toBeGreaterThan(3);
    const [settled] = await stage.say(press(who, button(first, labels[0] ?? '')));
    expect(settled?.body.type).toBe(7);
    expect(settled && shown(settled).content).not.toBe(shown(first).content);
  });

  it('is refused with an example, and the line stays at hand', async () => {
    const who = somebody();
    const first = await asked('36/22 11-36 ring=NaN', 'convert', who);
    expect(shown(first).text).toMatch(/18 to 70/);
    const [form] = await stage.say(press(who, button(first, 'Correct')));
    expect(JSON.stringify(form?.body)).toContain('36/22 11-36 ring=NaN');
  });
});

describe('things kept', () => {
  it('are saved, suggested and used by name', async () => {
    const who = somebody();
    await stage.say(slash(who, 'bike', { name: 'Winter', setup: HILLS }, 'save'));
    const [suggested] = await stage.say(typing(who, 'convert', 'bike', 'wi'));
    expect(suggested?.body).toMatchObject({ type: 8, data: { choices: [{ value: 'Winter' }] } });
    const [plan] = await stage.say(slash(who, 'convert', { bike: 'Winter' }));
    expect(plan && shown(plan).content).toMatch(/^32T suits best/);
    const [none] = await stage.say(typing(somebody(), 'convert', 'bike', 'wi'));
    expect(none?.body).toEqual({ type: 8, data: { choices: [] } });
  });

  it('are suggested as numbers where the option is one', async () => {
    const [suggested] = await stage.say(typing(somebody(), 'convert', 'bcd', '104'));
    expect(suggested?.body).toMatchObject({ type: 8, data: { choices: [{ name: '104 mm, 4 bolts', value: 104 }] } });
  });

  it('that are too long to be one word of a list still fit a suggestion', async () => {
    const who = somebody();
    await stage.say(
      slash(who, 'bike', { name: 'Long', setup: `${HILLS} ground=rough guide=no hub=142 cranktype=pinch` }, 'save'),
    );
    const [suggested] = await stage.say(typing(who, 'convert', 'bike', ''));
    expect(JSON.stringify(suggested?.body)).toContain('…');
  });

  it('show every word of theirs in a private conversation too, apart from every server', async () => {
    const who = somebody();
    await stage.say(slash(who, 'bike', { name: 'Alone', setup: '36/22' }, 'save', { server: null, channel: '201' }));
    const [there] = await stage.say(slash(who, 'bike', {}, 'list', { server: null, channel: '201' }));
    expect(there && shown(there).text).toContain('Alone');
    const [elsewhere] = await stage.say(slash(who, 'bike', {}, 'list'));
    expect(elsewhere && shown(elsewhere).text).not.toContain('Alone');
  });

  it('are deleted on request, with everything that named the person', async () => {
    const who = somebody();
    await stage.say(slash(who, 'bike', { name: 'Gone', setup: '36/22' }, 'save'));
    const [seen] = await stage.say(slash(who, 'data', {}, 'show'));
    expect(seen && shown(seen).private).toBe(true);
    await stage.say(slash(who, 'data', { confirm: true }, 'delete'));
    const [bikes] = await stage.say(slash(who, 'bike', {}, 'list'));
    expect(bikes && shown(bikes).text).not.toContain('Gone');
  });
});

describe('rights', () => {
  it('are looked up at every use: members are refused kindly, roles named in the settings may pin', async () => {
    const at = { server: '100000000000000777' };
    const pin = { topic: 'hills', text: 'On our hills take 30.' };
    const member = somebody();
    const [refused] = await stage.say(slash(member, 'answer', pin, 'pin', at));
    expect(refused && shown(refused).content).toMatch(/for the moderators/);
    expect(refused && shown(refused).private).toBe(true);
    const [changed] = await stage.say(slash(BOSS, 'settings', { pinroles: '+<@&444000000000000001>' }, 'change', at));
    expect(changed && shown(changed).text).toContain('<@&444000000000000001>');
    const mod = somebody({ roles: ['444000000000000001'] });
    const [pinned] = await stage.say(slash(mod, 'answer', pin, 'pin', at));
    expect(pinned && shown(pinned).content).not.toMatch(/for the moderators/);
    const [open] = await stage.say(slash(member, 'answer', { topic: 'hills' }, 'show', at));
    expect(open && shown(open).private).toBe(false);
    expect(open && shown(open).text).toContain(`<@${mod.id}>`);
  });

  it('let help show what a person may use', async () => {
    const [boss] = await stage.say(slash(BOSS, 'help', { topic: 'answer' }));
    const [member] = await stage.say(slash(somebody(), 'help', { topic: 'answer' }));
    expect(boss && shown(boss).text).toContain('answer pin');
    expect(member && shown(member).text).not.toContain('answer pin');
  });
});

describe('hostile words', () => {
  const NAME =
    '@everyone <!channel> <@&1> <@5> **x** [go](javascript:1) ```c``` \u202eabc every\u200bone https://x.example/y';

  it('ping nobody, link nowhere and turn nothing round, wherever they come back', async () => {
    const who = somebody();
    await stage.say(slash(who, 'bike', { name: NAME.slice(0, 60), setup: '36/22' }, 'save'));
    const replies = [
      ...(await stage.say(slash(who, 'bike', {}, 'list'))),
      ...(await stage.say(slash(who, 'convert', { setup: `36/22 11-36 ${NAME}` }))),
      ...(await stage.say(slash(who, 'answer', { topic: NAME }, 'show'))),
      ...(await stage.say(slash(who, 'convert', { bike: NAME }))),
    ];
    expect(replies.length).toBe(4);
    for (const reply of replies) {
      const { text } = shown(reply);
      expect(text).not.toMatch(/[\u202e\u200b]/);
      expect(text).not.toMatch(/(?<!\\)<[@#!]/);
      expect(text).not.toMatch(/(?<!\\)@everyone/);
      expect(text).not.toMatch(/(?<!\\)\[go/);
      expect(text).not.toMatch(/https:\/\/x/);
      expect(text).not.toContain('```');
    }
  });

  it('stay out of the log, and so do tokens', async () => {
    const told = JSON.stringify(stage.lines);
    for (const word of ['everyone', 'javascript', 'token-', '36/22', 'Winter']) expect(told).not.toContain(word);
  });
});

describe('somebody too fast', () => {
  it('is told when to try again, alone, and others are not held up', async () => {
    const fast = somebody();
    const replies: Sent[] = [];
    for (let count = 0; count < 12; count += 1) replies.push(...(await stage.say(slash(fast, 'help'))));
    const held = replies.filter((reply) => /try again in/.test(shown(reply).content));
    expect(held.length).toBeGreaterThan(0);
    expect(held.every((reply) => shown(reply).private)).toBe(true);
    const [other] = await stage.say(slash(somebody(), 'help'));
    expect(other && shown(other).content).toMatch(/^Describe the bike/);
  });
});

describe('an interaction', () => {
  it('that comes twice is answered once', async () => {
    const payload = slash(somebody(), 'help');
    expect((await stage.say(payload)).length).toBe(1);
    expect(await stage.say(payload)).toEqual([]);
  });

  it('that comes late is answered all the same, and noted', async () => {
    const before = stage.lines.length;
    await stage.say(slash(somebody(), 'help', {}, undefined, { atMs: Date.now() - 9000 }));
    expect(stage.lines.slice(before).map(({ text }) => text)).toContain('an interaction came late');
  });

  it.each([
    ['of a kind nobody knows', { ...slash(ANN, 'help'), type: 99 }],
    ['without its fields', { type: 2 }],
    ['that is no object', 'hello'],
    ['that is nothing', null],
  ])('%s is noted and let go', async (_, payload) => {
    expect(await stage.handle(payload)).toMatchObject({ first: null, later: null });
  });

  it.each([
    ['a command nobody knows', slash(BOB, 'shift-gears')],
    ['an old button', press(CEM, 'v0:chain')],
    ['a button of another version', press(CEM, '0|see|short|0|convert|#ABCDEFGH')],
    ['a list without a choice that is known', press(BOB, '1|pick|view|convert|#ABCDEFGH', ['nonsense'])],
    ['a modal nobody knows', submit(BOB, '1|nothing', {})],
  ])('with %s is answered calmly', async (_, payload) => {
    const [first] = await stage.say(payload);
    expect(first && shown(first).private).toBe(true);
    expect(first && shown(first).content).toMatch(/not there any more|older version/);
  });

  it('with a code that is not kept any more says so', async () => {
    const [first] = await stage.say(press(CEM, '1|see|chain|0|convert|#ABCDEFGH'));
    expect(first && shown(first).content).toContain('no receipt "ABCDEFGH"');
  });
});

describe('buttons', () => {
  it('all read back as what they stand for', async () => {
    const first = await asked(HILLS);
    const ids = [...shown(first).buttons.values(), ...shown(first).lists.map(({ id }) => id)];
    expect(ids.length).toBeGreaterThan(8);
    for (const id of ids) expect(readCustomId(id)).not.toBeNull();
  });
});
