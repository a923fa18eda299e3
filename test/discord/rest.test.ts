import { REST, RESTEvents } from '@discordjs/rest';
import nock from 'nock';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { sentence } from '../../adapters/discord/render.ts';
import { messageResponse } from '../../adapters/discord/responses.ts';
import { openCommands, openRest } from '../../adapters/discord/rest.ts';

const API = 'https://discord.com';
const IDS = { id: '700000000000000001', application: '900000000000000001', token: 'the-interaction-token' };
const SETTINGS = { api: `${API}/api`, token: 'a-made-up-token-of-a-bot' };

beforeEach(() => {
  nock.disableNetConnect();
});
afterEach(() => {
  const open = nock.pendingMocks();
  nock.cleanAll();
  nock.enableNetConnect();
  expect(open).toEqual([]);
});

describe('a request to the platform', () => {
  it('that answers an interaction goes to its address, with its token and without the bot’s', async () => {
    nock(API, { badheaders: ['authorization'] })
      .post(
        `/api/v10/interactions/${IDS.id}/${IDS.token}/callback`,
        (body) => body.type === 4 && body.data.flags === 64,
      )
      .query(true)
      .reply(204);
    await openRest(SETTINGS).callback(IDS, messageResponse(sentence('Hello.'), false));
  });

  it('that changes the answer is a patch of the original, and one that follows says who sees it', async () => {
    const webhook = `/api/v10/webhooks/${IDS.application}/${IDS.token}`;
    nock(API, { badheaders: ['authorization'] })
      .patch(new RegExp(`^${webhook}/messages/(@|%40)original$`), (body) => body.flags === undefined)
      .reply(200, { id: '1' })
      .post(webhook, (body) => body.flags === 64 && body.allowed_mentions.parse.length === 0)
      .query({ wait: 'true' })
      .reply(200, { id: '2' });
    const sender = openRest(SETTINGS).sender(IDS);
    expect(await sender.edit(sentence('Changed.'))).toBe('1');
    expect(await sender.follow(sentence('Followed.'), false)).toBe('2');
  });

  it('that more was sent for is forgotten within a minute, and its token with it', async () => {
    const edits = 5;
    nock(API)
      .patch(/^\/api\/v10\/webhooks\//)
      .times(edits)
      .reply(200, { id: '1' });
    const swept: number[] = [];
    const emit = vi.spyOn(REST.prototype, 'emit').mockImplementation((event: string | symbol, ...told: unknown[]) => {
      if (event === RESTEvents.HandlerSweep) swept.push((told as [ReadonlyMap<string, unknown>])[0].size);
      return true;
    });
    vi.useFakeTimers({ toFake: ['setInterval'] });
    try {
      const rest = openRest(SETTINGS);
      for (let each = 0; each < edits; each += 1) {
        await rest.sender({ ...IDS, token: `${IDS.token}-${each}` }).edit(sentence('Changed.'));
      }
      vi.advanceTimersByTime(60_000);
    } finally {
      vi.useRealTimers();
      emit.mockRestore();
    }
    expect(swept).toContain(edits);
  });

  it('that pins goes to the newer address of pins, with the bot’s token', async () => {
    nock(API, { reqheaders: { authorization: `Bot ${SETTINGS.token}` } })
      .put('/api/v10/channels/20/messages/pins/30')
      .reply(204);
    expect(await openRest(SETTINGS).sender(IDS).pin('20', '30')).toBeNull();
    expect(
      await openRest({ ...SETTINGS, token: null })
        .sender(IDS)
        .pin('20', '30'),
    ).toBe('withoutBot');
  });

  it('for the commands asks for every language, and puts all of them at once', async () => {
    nock(API, { reqheaders: { authorization: `Bot ${SETTINGS.token}` } })
      .get('/api/v10/applications/9/guilds/8/commands')
      .query({ with_localizations: 'true' })
      .reply(200, [])
      .put('/api/v10/applications/9/guilds/8/commands', (body) => Array.isArray(body) && body.length === 1)
      .reply(200, []);
    const commands = openCommands({ ...SETTINGS, application: '9', server: '8' });
    expect(await commands.read()).toEqual([]);
    await commands.write([{ name: 'x' }]);
  });
});
