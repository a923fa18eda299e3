import { once } from 'node:events';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { type WebSocket, WebSocketServer } from 'ws';
import { APPLICATION, type Payload } from '../support/discord-payloads.ts';

/** A gateway that lets one session in and takes what is answered, without looking into it: it must cost little. */
export type GatewayDouble = {
  readonly api: string;
  /** Tells the session about interactions, a few under way at a time; gives the bodies of what was answered. */
  readonly tell: (payloads: readonly Payload[], together: number) => Promise<readonly string[]>;
  readonly close: () => Promise<void>;
};

export async function openGatewayDouble(): Promise<GatewayDouble> {
  let session: WebSocket | null = null;
  let heard: (body: string) => void = () => undefined;
  let sequence = 1;

  const server = createServer(async (request, response) => {
    const chunks: Buffer[] = [];
    for await (const chunk of request as AsyncIterable<Buffer>) chunks.push(chunk);
    const isCallback = request.url?.includes('/callback') ?? false;
    if (isCallback) response.writeHead(204).end();
    else response.writeHead(200, { 'Content-Type': 'application/json' }).end(JSON.stringify(gatewayAt(ws)));
    if (isCallback) heard(Buffer.concat(chunks).toString('utf8'));
  });
  const gateway = new WebSocketServer({ server });
  gateway.on('connection', (socket) => {
    const say = (op: number, d: unknown, more: object = {}) => socket.send(JSON.stringify({ op, d, ...more }));
    say(10, { heartbeat_interval: 41_250 });
    socket.on('message', (data) => {
      const { op } = JSON.parse(String(data)) as { readonly op: number };
      if (op === 1) say(11, null);
      if (op !== 2) return;
      session = socket;
      say(0, ready(ws), { t: 'READY', s: sequence });
    });
  });
  server.listen(0, '127.0.0.1');
  await once(server, 'listening');
  const { port } = server.address() as AddressInfo;
  const ws = `ws://127.0.0.1:${port}`;

  return {
    api: `http://127.0.0.1:${port}/api`,
    tell: (payloads, together) =>
      new Promise((resolve) => {
        const bodies: string[] = [];
        let next = 0;
        const dispatch = () => {
          const d = payloads[next];
          if (d === undefined) return;
          next += 1;
          sequence += 1;
          session?.send(JSON.stringify({ op: 0, t: 'INTERACTION_CREATE', s: sequence, d }));
        };
        heard = (body) => {
          bodies.push(body);
          if (bodies.length === payloads.length) resolve(bodies);
          else dispatch();
        };
        for (let index = 0; index < together; index += 1) dispatch();
        if (payloads.length === 0) resolve(bodies);
      }),
    close: async () => {
      for (const socket of gateway.clients) socket.terminate();
      server.closeAllConnections();
      server.close();
      await once(server, 'close');
    },
  };
}

function gatewayAt(url: string) {
  const session_start_limit = { total: 1000, remaining: 999, reset_after: 1000, max_concurrency: 1 };
  return { url, shards: 1, session_start_limit };
}

function ready(url: string) {
  const user = { id: APPLICATION, username: 'Ringwright', discriminator: '0000', avatar: null, bot: true };
  const application = { id: APPLICATION, flags: 0 };
  return { v: 10, user, guilds: [], session_id: 'session', resume_gateway_url: url, shard: [0, 1], application };
}
