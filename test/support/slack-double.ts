import { createHmac } from 'node:crypto';
import { createServer, type IncomingMessage, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { type WebSocket, WebSocketServer } from 'ws';
import type { Json } from './slack-payloads.ts';
import { openPlatform } from './slack-platform.ts';

/**
 * Slack on loopback: its Web API, its addresses for answers, its uploads, its sockets and its question whether to install.
 * What it takes and refuses is decided by the platform in memory.
 */
export async function openDouble() {
  const platform = openPlatform();
  const sockets = new Set<WebSocket>();
  const acknowledged = new Map<string, (payload: unknown) => void>();
  const connects: string[] = [];
  let envelopes = 0;
  let admitted: Promise<void> = Promise.resolve();

  const server = createServer((request, response) => {
    void answer(request, response).catch((error: unknown) => {
      response.writeHead(500);
      response.end(String(error));
    });
  });
  await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
  const { port } = server.address() as AddressInfo;
  const base = `http://127.0.0.1:${port}`;

  async function answer(request: IncomingMessage, response: ServerResponse): Promise<void> {
    const chunks: Buffer[] = [];
    for await (const chunk of request) chunks.push(chunk as Buffer);
    const bytes = Buffer.concat(chunks);
    const { pathname } = new URL(request.url ?? '/', base);
    const json = (body: unknown, status = 200) => {
      response.writeHead(status, { 'content-type': 'application/json' });
      response.end(JSON.stringify(body));
    };
    if (pathname.startsWith('/actions/')) {
      const taken = platform.respond(pathname, JSON.parse(bytes.toString()) as Json);
      response.writeHead(taken ? 200 : 404);
      response.end(taken ? 'ok' : 'used_url');
      return;
    }
    if (pathname.startsWith('/upload/')) {
      response.writeHead(platform.upload(pathname.slice('/upload/'.length), bytes) ? 200 : 400);
      response.end();
      return;
    }
    const method = pathname.slice('/api/'.length);
    const token = /^Bearer (.+)$/.exec(request.headers.authorization ?? '')?.[1] ?? null;
    if (method === 'apps.connections.open') {
      await admitted;
      connects.push(token ?? '');
      return json({ ok: true, url: `ws://${request.headers.host}/link` });
    }
    const args = decoded(bytes.toString());
    if (method === 'oauth.v2.access') {
      platform.calls.push({ method, args, token: null });
      const team = String(args.code).replace('code-', '');
      return json({
        ok: true,
        app_id: 'A01',
        authed_user: { id: 'UINSTALLER' },
        scope: 'commands,chat:write',
        token_type: 'bot',
        access_token: `xoxb-${team}`,
        bot_user_id: 'UBOT',
        team: { id: team, name: team },
        enterprise: null,
        is_enterprise_install: false,
      });
    }
    const reply = platform.call(method, args, token);
    return json(reply.ok ? { ok: true, ...addressed(reply.data) } : { ok: false, error: reply.error });
  }

  /** Paths of the platform in memory are whole addresses here. */
  function addressed(data: Json): Json {
    return typeof data.upload_url === 'string' ? { ...data, upload_url: `${base}${data.upload_url}` } : data;
  }

  const wss = new WebSocketServer({ server, path: '/link' });
  wss.on('connection', (socket) => {
    sockets.add(socket);
    socket.on('close', () => sockets.delete(socket));
    socket.on('message', (data) => {
      const told = JSON.parse(String(data)) as { envelope_id: string; payload?: unknown };
      acknowledged.get(told.envelope_id)?.(told.payload);
    });
    socket.send(JSON.stringify({ type: 'hello', num_connections: 1, connection_info: { app_id: 'A01' } }));
  });

  return {
    platform,
    base,
    api: `${base}/api/`,
    connects,
    newAddress: () => `${base}${platform.newAddress()}`,
    /** Sends a payload over one of the sockets; gives what it was acknowledged with. */
    send: async (
      type: 'slash_commands' | 'interactive' | 'events_api',
      payload: unknown,
      which = 0,
    ): Promise<unknown> => {
      const socket = [...sockets][sockets.size === 0 ? 0 : which % sockets.size];
      if (socket === undefined) throw new Error('nobody is connected');
      envelopes += 1;
      const envelope_id = `E${envelopes}`;
      const acknowledgement = new Promise<unknown>((done) => acknowledged.set(envelope_id, done));
      socket.send(JSON.stringify({ type, envelope_id, accepts_response_payload: type !== 'events_api', payload }));
      return acknowledgement;
    },
    /** Tells the program to connect anew, as the platform does now and then. */
    disconnect: () => {
      for (const socket of sockets) socket.send(JSON.stringify({ type: 'disconnect', reason: 'refresh_requested' }));
    },
    /** Ends every connection, and lets nobody in again before `until`. */
    shut: (until: Promise<void>) => {
      admitted = until;
      for (const socket of sockets) socket.close();
    },
    connections: () => sockets.size,
    close: async () => {
      for (const socket of sockets) socket.terminate();
      wss.close();
      server.closeAllConnections();
      await new Promise((done) => server.close(done));
    },
  };
}

export type Double = Awaited<ReturnType<typeof openDouble>>;

/** A form in which nested values are JSON, as the platform's own client sends it. */
function decoded(body: string): Json {
  return Object.fromEntries(
    [...new URLSearchParams(body)].map(([name, value]) => [
      name,
      /^[[{]|^(?:true|false)$/.test(value) ? JSON.parse(value) : value,
    ]),
  );
}

export const SIGNING_SECRET = 'signing-secret-of-the-double';

/** A request as the platform signs it ("Verifying requests from Slack"). */
export function signedRequest(payload: Json, { secret = SIGNING_SECRET, atS = Math.floor(Date.now() / 1000) } = {}) {
  const isForm = payload.type === undefined || payload.type !== 'event_callback';
  const form = payload.type === undefined ? payload : { payload: JSON.stringify(payload) };
  const body = isForm
    ? new URLSearchParams(
        Object.entries(form).map(([name, value]): [string, string] => [name, String(value)]),
      ).toString()
    : JSON.stringify(payload);
  return {
    method: 'POST',
    headers: {
      'content-type': isForm ? 'application/x-www-form-urlencoded' : 'application/json',
      'x-slack-request-timestamp': String(atS),
      'x-slack-signature': signatureOf(body, secret, atS),
    },
    body,
  };
}

export function signatureOf(body: string, secret: string, atS: number): string {
  return `v0=${createHmac('sha256', secret).update(`v0:${atS}:${body}`).digest('hex')}`;
}
