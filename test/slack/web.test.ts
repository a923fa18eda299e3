import { webApi } from '@slack/bolt';
import nock from 'nock';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { sentence } from '../../adapters/slack/render.ts';
import { clientOptions, openWeb } from '../../adapters/slack/web.ts';

const API = 'https://slack.com/api/';
const lines: object[] = [];
const log = {
  debug: () => undefined,
  info: () => undefined,
  warn: (data: object) => void lines.push(data),
  error: () => undefined,
};
const waited: number[] = [];
const wait = (ms: number) => Promise.resolve(void waited.push(ms));
const quiet = { debug: () => undefined, info: () => undefined, warn: () => undefined, error: () => undefined };
const logger = { ...quiet, setLevel: () => undefined, getLevel: () => 'error' as never, setName: () => undefined };
const client = new webApi.WebClient('xoxb-token', {
  ...clientOptions(API),
  logger,
  retryConfig: { retries: 1, minTimeout: 1 },
});
const web = openWeb(client, log, wait);

beforeAll(() => nock.disableNetConnect());
afterEach(() => {
  expect(nock.pendingMocks()).toEqual([]);
  nock.cleanAll();
  lines.length = 0;
  waited.length = 0;
});
afterAll(() => nock.enableNetConnect());

describe('a call of the Web API', () => {
  it('goes out as a form with the token, blocks as JSON in it', async () => {
    let body: unknown;
    nock('https://slack.com', { reqheaders: { authorization: 'Bearer xoxb-token' } })
      .post('/api/chat.postMessage', (sent) => {
        body = sent;
        return true;
      })
      .reply(200, { ok: true, ts: '1.2' });
    const post = sentence('5 < 6');
    expect(await web.call('chat.postMessage', { channel: 'C1', ...post })).toMatchObject({
      ok: true,
      data: { ts: '1.2' },
    });
    expect(body).toMatchObject({ channel: 'C1', text: '5 &lt; 6', unfurl_links: 'false' });
    expect(JSON.parse((body as { blocks: string }).blocks)).toEqual(post.blocks);
  });

  it('that is refused comes back with the platform’s code', async () => {
    nock('https://slack.com').post('/api/pins.add').reply(200, { ok: false, error: 'not_in_channel' });
    expect(await web.call('pins.add', { channel: 'C1' })).toEqual({ ok: false, error: 'not_in_channel' });
    expect(lines).toEqual([{ method: 'pins.add', error: 'not_in_channel' }]);
  });

  it('waits for a rate limit that is over soon, and for no longer one', async () => {
    nock('https://slack.com').post('/api/users.info').reply(429, '', { 'retry-after': '1' });
    nock('https://slack.com').post('/api/users.info').reply(200, { ok: true });
    expect(await web.call('users.info', { user: 'U1' })).toMatchObject({ ok: true });
    expect(waited).toEqual([1000]);
    nock('https://slack.com').post('/api/users.info').reply(429, '', { 'retry-after': '30' });
    expect(await web.call('users.info', { user: 'U1' })).toEqual({ ok: false, error: 'ratelimited' });
    expect(waited).toEqual([1000]);
  });

  it('is tried again where the network fails, and then given up', async () => {
    nock('https://slack.com').post('/api/views.open').replyWithError('connection reset');
    nock('https://slack.com').post('/api/views.open').reply(200, { ok: true });
    expect(await web.call('views.open', {})).toMatchObject({ ok: true });
    nock('https://slack.com').post('/api/views.open').times(2).replyWithError('secret words');
    expect(await web.call('views.open', {})).toEqual({ ok: false, error: 'unreachable' });
    expect(JSON.stringify(lines)).not.toContain('secret');
  });

  it('cannot be made to go anywhere else', async () => {
    expect(await web.call('https://example.org/x', {})).toEqual({ ok: false, error: 'unreachable' });
  });
});

describe('an address for answers', () => {
  const message = { ...sentence('said'), response_type: 'ephemeral', replace_original: true } as const;

  it('gets the message as JSON, without the token', async () => {
    nock('https://hooks.slack.com', { badheaders: ['authorization'] })
      .post('/actions/1', { ...message })
      .reply(200, 'ok');
    expect(await web.respond('https://hooks.slack.com/actions/1', message)).toBe(true);
  });

  it.each([404, 403, 500, 429])('that answers %i did not take it', async (status) => {
    nock('https://hooks.slack.com').post('/actions/1').reply(status, 'used_url');
    expect(await web.respond('https://hooks.slack.com/actions/1', message)).toBe(false);
    expect(lines).toMatchObject([{ status }]);
  });

  it('that cannot be reached did not take it', async () => {
    nock('https://hooks.slack.com').post('/actions/1').replyWithError('connection reset');
    expect(await web.respond('https://hooks.slack.com/actions/1', message)).toBe(false);
  });
});
