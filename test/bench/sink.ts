import { createServer, get, type IncomingMessage } from 'node:http';
import type { AddressInfo } from 'node:net';

/**
 * As much of both platforms as a program that answers over HTTP needs, as cheap as can be: everything that is sent is
 * taken, a picture that has an address is fetched from it as the platform would, and when each came is remembered until
 * somebody asks. Nothing is checked here; the doubles of the tests do that.
 */
export type Sink = { readonly base: string };

/** Where pictures are fetched from. */
export type Fetching = { readonly port: number };

/** When pictures came, by the token of what they answer: milliseconds of the machine's clock that only goes forward. */
export type Came = readonly (readonly [token: string, atMs: number])[];

const MESSAGE = JSON.stringify({ id: '600000000000000001', channel_id: '200000000000000001' });
const SELF = JSON.stringify({ ok: true, bot_id: 'B01', user_id: 'UBOT', team_id: 'T01TEAM', user: { id: 'UANN' } });

let came: [string, number][] = [];
let port = 0;

function note(token: string): void {
  came.push([token, Number(process.hrtime.bigint()) / 1e6]);
}

async function textOf(request: IncomingMessage): Promise<string> {
  const chunks: Buffer[] = [];
  for await (const chunk of request as AsyncIterable<Buffer>) chunks.push(chunk);
  return Buffer.concat(chunks).toString('latin1');
}

function fetchPicture(token: string, path: string): void {
  const request = get({ host: '127.0.0.1', port, path }, (response) => {
    response.resume().once('end', () => {
      if (response.statusCode === 200) note(token);
    });
  });
  // A server that is ended meanwhile gives no picture, and that is counted by whoever asked for it.
  request.once('error', () => undefined);
}

const server = createServer((request, response) => {
  void textOf(request).then((text) => {
    const [, api, token = ''] = /\/(webhooks\/\d+|actions)\/([^/?]+)/.exec(request.url ?? '') ?? [];
    if ((request.headers['content-type'] ?? '').startsWith('multipart/')) note(token);
    const picture = api === 'actions' ? /"image_url":"https:\/\/[^/"]+([^"]+)"/.exec(text)?.[1] : undefined;
    if (picture !== undefined) fetchPicture(token, picture);
    response.writeHead(200, { 'content-type': 'application/json' }).end(api === undefined ? SELF : MESSAGE);
  });
});
server.listen(0, '127.0.0.1', () => {
  process.send?.({ base: `http://127.0.0.1:${(server.address() as AddressInfo).port}` } satisfies Sink);
});
process.on('message', (fetching: Fetching) => {
  ({ port } = fetching);
  process.send?.(came satisfies Came);
  came = [];
});
process.once('disconnect', () => process.exit());
