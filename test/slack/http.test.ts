import { isValidSlackRequest } from '@slack/bolt';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Message, Modal } from '../../adapters/slack/wire.ts';
import { type OpenRecords, openRecords } from '../../adapters/storage/open.ts';
import { type Double, openDouble, SIGNING_SECRET, signatureOf, signedRequest } from '../support/slack-double.ts';
import { event, type Json, mention, press, slash, submission, suggestion } from '../support/slack-payloads.ts';
import { openProgram, type Program, STATE_SECRET } from '../support/slack-program.ts';
import { buttonOf, readable, selectOf } from '../support/slack-stage.ts';
import { place, type Storage, sqlite } from '../support/storages.ts';
import { until } from '../support/until.ts';

let storage: Storage;
let records: OpenRecords;
let double: Double;
let one: Program;
beforeAll(async () => {
  storage = await sqlite();
  records = await openRecords(await storage.fresh());
  double = await openDouble();
  one = await openProgram(double, records, {
    pictures: { kind: 'address', base: 'https://ringwright.example.org', secret: SIGNING_SECRET },
  });
});
afterAll(async () => {
  await one.app.close();
  await double.close();
  await records.close();
  await storage.end();
});

function to(program: Program, request: RequestInit): Promise<Response> {
  return fetch(`${program.address}/slack/events`, request);
}

async function posted(payload: Json, program = one): Promise<unknown> {
  const response = await to(program, signedRequest(payload));
  expect(response.status).toBe(200);
  const text = await response.text();
  return text === '' ? undefined : JSON.parse(text);
}

describe('requests over HTTP', () => {
  it('with a command are answered in the response itself', async () => {
    const reply = await posted(slash({ user: 'UANN' }, 'convert 2x10 36/22 11-36 104bcd', double.newAddress()));
    expect(reply).toMatchObject({ response_type: 'ephemeral', text: expect.stringContaining('suits best') });
  });

  it('go the whole way: a card, a section, a share, a window, an answer', async () => {
    const { platform } = double;
    const before = platform.arrived.length;
    const card = (await posted(
      slash({ user: 'UANN' }, 'convert 2x10 36/22 11-36 104bcd stays=440mm', double.newAddress()),
    )) as Message;
    const pressed = (where: Message, name: string) => {
      const button = buttonOf(where, name);
      return press(
        { user: 'UANN' },
        { type: 'button', action_id: button.action_id, value: button.value },
        { kind: 'message', ts: '1.1', mine: true, url: double.newAddress() },
      );
    };
    expect(await posted(pressed(card, 'Chain'))).toBeUndefined();
    await until(() => platform.arrived.length === before + 1);
    await posted(pressed(card, 'Share'));
    await until(() => platform.arrived.length === before + 2);
    expect(platform.arrived.at(-1)).toMatchObject({ everybody: true, by: 'address' });
    const windows = platform.opened.length;
    await posted(pressed(card, 'Correct'));
    await until(() => platform.opened.length === windows + 1);
    const view = platform.opened.at(-1)?.view as Modal;
    const shown = { id: 'V1', ...view, blocks: view.blocks as unknown as Json[] };
    expect(await posted(submission({ user: 'UANN' }, shown, { setup: 'ring=NaN' }))).toMatchObject({
      response_action: 'errors',
    });
    expect(await posted(submission({ user: 'UANN' }, shown, { setup: '38/24 11-36' }))).toBeUndefined();
    await until(() => platform.arrived.length === before + 3);
    expect(platform.faults).toEqual([]);
  });

  it('with suggestions, mentions and the Home tab are answered', async () => {
    expect(await posted(suggestion({ user: 'UANN' }, 'convert||cassette', '11-3'))).toMatchObject({
      options: expect.any(Array),
    });
    await posted(mention({ user: 'UANN' }, 'wear wear=0.75 speeds=10', '1700000000.000900'));
    await until(() => double.platform.arrived.some(({ thread }) => thread === '1700000000.000900'));
    await posted(event({ type: 'app_home_opened', user: 'UHOME', tab: 'home', channel: 'D1', event_ts: '1.1' }));
    await until(() => double.platform.homes.has('UHOME'));
    const home = double.platform.calls.find(({ method }) => method === 'views.publish');
    expect(home?.token).toBe('xoxb-one');
  });

  it('are never left without an answer, whatever they ask', async () => {
    expect(await posted({ ...slash({ user: 'UANN' }, 'help', double.newAddress()), command: '/other' })).toMatchObject({
      text: expect.any(String),
    });
    expect(
      await posted({
        type: 'shortcut',
        callback_id: 'x',
        user: { id: 'UANN' },
        team: { id: 'T01TEAM' },
        trigger_id: '9.9',
      }),
    ).toBeUndefined();
    expect(
      await posted({ type: 'view_closed', user: { id: 'UANN' }, team: { id: 'T01TEAM' }, view: {} }),
    ).toBeUndefined();
  });

  it('for pictures give only what is signed, and only as a GET', async () => {
    const card = (await posted(slash({ user: 'UPICTURE' }, 'measure bcd', double.newAddress()))) as Message;
    const image = card.blocks.find((block) => block.type === 'image');
    if (image?.type !== 'image' || !('image_url' in image)) throw new Error('no picture');
    const path = image.image_url.slice('https://ringwright.example.org'.length);
    const served = await fetch(`${one.address}${path}`);
    expect([served.status, served.headers.get('content-type')]).toEqual([200, 'image/png']);
    expect((await fetch(`${one.address}${path.replace('.png', 'x.png')}`)).status).toBe(404);
    expect((await fetch(`${one.address}/pictures/https%3A%2F%2Fexample.org`)).status).toBe(404);
    expect((await fetch(`${one.address}${path}`, { method: 'POST' })).status).toBe(404);
    expect((await fetch(`${one.address}/elsewhere`)).status).toBe(404);
  });
});

describe('signatures', () => {
  const payload = () => slash({ user: 'UANN' }, 'help', double.newAddress());

  // The example in the platform's documentation, "Verifying requests from Slack".
  it('agree with the published example', () => {
    const secret = '8f742231b10e8888abcd99yyyzzz85a5';
    const atS = 1531420618;
    const body =
      'token=xyzz0WbapA4vBCDEFasx0q6G&team_id=T1DC2JH3J&team_domain=testteamnow&channel_id=G8PSS9T3V&channel_name=foobar&user_id=U2CERLKJA&user_name=roadrunner&command=%2Fwebhook-collect&text=&response_url=https%3A%2F%2Fhooks.slack.com%2Fcommands%2FT1DC2JH3J%2F397700885554%2F96rGlfmibIGlgcZRskXaIFfN&trigger_id=398738663015.47445629121.803a0bc887a14d10d2c447fce8b6703c';
    const signature = 'v0=a2114d57b48eac39b9ad189dd8316235a7b4a8d21a10bd27519666489c69b503';
    expect(signatureOf(body, secret, atS)).toBe(signature);
    const headers = { 'x-slack-signature': signature, 'x-slack-request-timestamp': atS };
    expect(isValidSlackRequest({ signingSecret: secret, body, headers, nowMilliseconds: atS * 1000 })).toBe(true);
  });

  it.each([
    ['forged', () => signedRequest(payload(), { secret: 'another-secret-altogether' })],
    ['older than five minutes', () => signedRequest(payload(), { atS: Math.floor(Date.now() / 1000) - 301 })],
    ['for another body', () => ({ ...signedRequest(payload()), body: 'command=%2Fringwright&text=help' })],
    [
      'missing',
      () => ({ ...signedRequest(payload()), headers: { 'content-type': 'application/x-www-form-urlencoded' } }),
    ],
  ])('that are %s open nothing', async (_, request) => {
    const response = await to(one, request());
    expect([response.status, await response.text()]).toEqual([401, '']);
  });

  it('that are replayed do nothing a second time', async () => {
    const request = signedRequest(slash({ user: 'UREPLAY' }, 'bike save once 36/22 11-36', double.newAddress()));
    expect(await (await to(one, request)).text()).toContain('Kept: once');
    expect(await (await to(one, request)).text()).toBe('');
  });

  it('do not save a request that is far too large', async () => {
    const body = `text=${'x'.repeat(600_000)}`;
    const atS = Math.floor(Date.now() / 1000);
    const headers = {
      'x-slack-request-timestamp': String(atS),
      'x-slack-signature': signatureOf(body, SIGNING_SECRET, atS),
    };
    expect((await to(one, { method: 'POST', headers, body })).status).toBe(413);
  });
});

describe('many workspaces', () => {
  let many: Program;
  beforeAll(async () => {
    many = await openProgram(double, records, {
      tenancy: { kind: 'many', clientId: '1.2', clientSecret: 'client-secret-16', stateSecret: STATE_SECRET },
      publicUrl: 'https://ringwright.example.org',
    });
  });
  afterAll(() => many.app.close());

  /** Goes through the platform's question as a browser does. */
  async function installed(team: string): Promise<Response> {
    const page = await fetch(`${many.address}/slack/install`);
    const href = /href="([^"]+)"/.exec(await page.text())?.[1]?.replaceAll('&amp;', '&') ?? '';
    const asked = new URL(href);
    expect(asked.searchParams.get('scope')?.split(',')).toContain('commands');
    expect(asked.searchParams.get('scope')).not.toContain('files:write');
    expect(asked.searchParams.get('redirect_uri')).toBe('https://ringwright.example.org/slack/oauth_redirect');
    const cookie = page.headers.get('set-cookie')?.split(';')[0] ?? '';
    const state = encodeURIComponent(asked.searchParams.get('state') ?? '');
    return fetch(`${many.address}/slack/oauth_redirect?code=code-${team}&state=${state}`, { headers: { cookie } });
  }

  it('install the program, and each is served with its own token', async () => {
    for (const team of ['T0RIDGE', 'T0LANE']) {
      const done = await installed(team);
      expect([done.status, await done.text()]).toEqual([200, expect.stringContaining('is installed')]);
    }
    for (const team of ['T0RIDGE', 'T0LANE']) {
      await posted(event({ type: 'app_home_opened', user: `U${team}`, tab: 'home' }, team), many);
      await until(() => double.platform.homes.has(`U${team}`));
      const call = double.platform.calls.find(
        ({ method, args }) => method === 'views.publish' && args.user_id === `U${team}`,
      );
      expect(call?.token).toBe(`xoxb-${team}`);
    }
  });

  it('never see what is kept in another', async () => {
    const ask = (team: string, text: string) =>
      posted(slash({ user: 'USAME', team }, text, double.newAddress()), many) as Promise<Message>;
    await ask('T0RIDGE', 'bike save ridge-runner 36/22 11-36');
    expect(readable(await ask('T0RIDGE', 'bike list'))).toContain('ridge-runner');
    expect(readable(await ask('T0LANE', 'bike list'))).not.toContain('ridge-runner');
  });

  it('keep their tokens where nobody who reads the records can read them', async () => {
    const kept = await records.installations.read(place('slack:T0RIDGE'));
    expect(kept).toMatch(/^[\w+/=]+$/);
    expect(Buffer.from(kept ?? '', 'base64').toString('latin1')).not.toContain('xoxb');
    // Moved to another place, the same bytes are worth nothing.
    await records.installations.keep(place('slack:T0MOVED'), kept ?? '', 1);
    const reply = await posted(slash({ user: 'UANN', team: 'T0MOVED' }, 'help', double.newAddress()), many);
    expect(reply).toMatchObject({ text: expect.stringContaining('not installed') });
  });

  it('without an installation are told so', async () => {
    const reply = await posted(
      slash({ user: 'UANN', team: 'T0NOBODY' }, 'convert 36/22 11-36', double.newAddress()),
      many,
    );
    expect(reply).toMatchObject({ response_type: 'ephemeral', text: expect.stringContaining('not installed') });
  });

  it('cannot be installed with a state of somebody else', async () => {
    const done = await fetch(`${many.address}/slack/oauth_redirect?code=code-T0EVIL&state=forged`);
    expect([done.status, await done.text()]).toEqual([400, expect.stringContaining('was not installed')]);
    expect(await records.installations.read(place('slack:T0EVIL'))).toBeNull();
  });

  it.each([
    ['taken out', { type: 'app_uninstalled' }],
    ['of a revoked token', { type: 'tokens_revoked', tokens: { bot: ['UBOT'] } }],
  ])('%s are forgotten, with all else kept', async (_, gone) => {
    await installed('T0GONE');
    await posted(slash({ user: 'UANN', team: 'T0GONE' }, 'bike save winter 36/22 11-36', double.newAddress()), many);
    await posted(event(gone, 'T0GONE'), many);
    const kept = async () => (await records.installations.read(place('slack:T0GONE'))) === null;
    await until(() => many.lines.some(({ text }) => text.includes('taken out of a workspace')));
    expect(await kept()).toBe(true);
    await installed('T0GONE');
    const list = (await posted(
      slash({ user: 'UANN', team: 'T0GONE' }, 'bike list', double.newAddress()),
      many,
    )) as Message;
    expect(readable(list)).toContain('winter');
  });
});

describe('a token that is not valid any more', () => {
  it('does not keep a question from being answered', async () => {
    double.platform.refuse('auth.test', 'token_revoked');
    const program = await openProgram(double, records);
    await until(() => program.lines.length > 0);
    expect(program.lines).toContainEqual({
      level: 'error',
      data: { error: 'token_revoked' },
      text: expect.stringContaining('token of the bot'),
    });
    double.platform.refuse('users.info', 'token_revoked');
    const card = (await posted(
      slash({ user: 'UANN' }, 'convert 2x10 36/22 11-36', double.newAddress()),
      program,
    )) as Message;
    expect(selectOf(card, 'Another ring size').options.length).toBeGreaterThan(1);
    await program.app.close();
  });
});
