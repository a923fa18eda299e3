import { createServer, type IncomingMessage, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { type WebSocket, WebSocketServer } from 'ws';
import { APPLICATION, type Payload } from './discord-payloads.ts';
import { callbackFaults, messageFaults } from './discord-rules.ts';
import type { Json, Sent } from './discord-stage.ts';

/** A session of the gateway as it introduced itself. */
export type Session = {
  readonly shard: readonly [number, number];
  readonly intents: number;
  readonly token: string;
  readonly resumed: boolean;
};

/**
 * Discord on loopback, as far as an application that answers interactions sees it: the gateway, and the REST interface
 * with its rules. It refuses what the platform refuses, so a body that breaks a limit fails the test that sent it.
 */
export type Double = {
  readonly api: string;
  /** What was sent for one interaction, in order. */
  readonly sentFor: (payload: Payload) => readonly Sent[];
  readonly sessions: readonly Session[];
  /** Tells the sessions of a shard about an interaction; with `only`, one of them. */
  readonly dispatch: (payload: Payload, shard?: number, only?: number) => void;
  /** Says something else to every session, such as that it must connect anew. */
  readonly tell: (op: number, d: unknown) => void;
  /** Whether heartbeats are answered from now on. */
  readonly hear: (hears: boolean) => void;
  /** Breaks every connection with a close code. */
  readonly drop: (code: number) => void;
  readonly connections: () => number;
  /** What came with the token of a bot: pins, replies, commands. */
  readonly byBot: readonly { readonly method: string; readonly path: string; readonly body: Json }[];
  /** The next requests to a path that begins so are refused with an error of the platform, as often as said. */
  readonly refuse: (start: string, status: number, code: number, times?: number) => void;
  readonly commands: () => readonly Json[];
  /** What the platform would have refused. */
  readonly faults: readonly string[];
  readonly close: () => Promise<void>;
};

type Request = {
  readonly method: string;
  readonly path: string;
  /** By which address the double was found; whoever stands in between is found again by it. */
  readonly host: string;
  readonly body: Json | readonly Json[];
  readonly files: Sent['files'];
  readonly bot: boolean;
};
type Answer = { readonly status: number; readonly body?: unknown };

/** A session, whether or not it is connected just now, with what it was told, the first of which has the number 2. */
type Line = { readonly shard: number; readonly told: Payload[] };

/** How often a session says that it is there ("Gateway", Heartbeat Interval), unless a test wants it sooner. */
const HEARTBEAT_MS = 41_250;

export async function openDouble({ heartbeatMs = HEARTBEAT_MS } = {}): Promise<Double> {
  const sent = new Map<string, Sent[]>();
  const acknowledged = new Set<string>();
  const sessions: Session[] = [];
  const sockets = new Map<WebSocket, Line>();
  /** Also those that are broken just now: what they miss is told when they go on. */
  const lines = new Map<string, Line>();
  let hears = true;
  const byBot: { method: string; path: string; body: Json }[] = [];
  const refusals: { start: string; status: number; code: number; times: number }[] = [];
  const faults: string[] = [];
  let commands: Json[] = [];
  let messages = 0;

  const add = (token: string, each: Sent): Answer => {
    sent.set(token, [...(sent.get(token) ?? []), each]);
    messages += 1;
    return { status: 200, body: message(`60000000000000000${messages}`) };
  };
  const checked = (found: readonly string[]) => {
    faults.push(...found);
    return found.length === 0;
  };
  const invalid: Answer = { status: 400, body: { code: 50035, message: 'Invalid Form Body', errors: {} } };

  const answer = ({ method, path, host, body, files, bot }: Request): Answer => {
    const refusal = refusals.find((each) => path.startsWith(each.start) && each.times > 0);
    if (refusal !== undefined) {
      refusal.times -= 1;
      return { status: refusal.status, body: { code: refusal.code, message: 'refused' } };
    }
    const json = Array.isArray(body) ? {} : (body as Json);
    const names = files.map(({ name }) => name);
    const callback = /^\/interactions\/(\d+)\/([^/]+)\/callback$/.exec(path);
    if (callback !== null) {
      const token = callback[2] ?? '';
      if (acknowledged.has(token)) return { status: 400, body: { code: 40060, message: 'already acknowledged' } };
      if (!checked(callbackFaults(json, names))) return invalid;
      acknowledged.add(token);
      add(token, { kind: 'first', body: json, files });
      return { status: 204 };
    }
    const webhook = /^\/webhooks\/(\d+)\/([^/]+)(\/messages\/@original)?$/.exec(path);
    if (webhook !== null) {
      const token = webhook[2] ?? '';
      const kind = webhook[3] === undefined ? 'follow' : 'edit';
      if (method === 'DELETE') {
        add(token, { kind: 'remove', body: {}, files: [] });
        return { status: 204 };
      }
      return checked(messageFaults(kind, json, names)) ? add(token, { kind, body: json, files }) : invalid;
    }
    if (path === '/gateway/bot') {
      const limit = { total: 1000, remaining: 999, reset_after: 1000, max_concurrency: 16 };
      return { status: 200, body: { url: `ws://${host}/gw`, shards: 1, session_start_limit: limit } };
    }
    if (!bot) return { status: 401, body: { code: 0, message: 'unauthorized' } };
    byBot.push({ method, path, body: json });
    if (/^\/applications\/\d+\/(?:guilds\/\d+\/)?commands$/.test(path)) {
      if (method === 'PUT')
        commands = (body as readonly Json[]).map((each, index) => ({ ...each, id: `${index}`, version: '1' }));
      return { status: 200, body: commands };
    }
    if (/^\/channels\/\d+\/messages$/.test(path)) {
      return checked(messageFaults('reply', json, names)) ? { status: 200, body: message('9') } : invalid;
    }
    return /\/messages\/pins\/\d+$/.test(path)
      ? { status: 204 }
      : { status: 404, body: { code: 0, message: 'not found' } };
  };

  const server = createServer((request, response) => {
    void read(request).then((read) => write(response, answer(read)));
  });
  const gateway = new WebSocketServer({ server, path: '/gw' });
  const event = (d: Payload, s: number) => JSON.stringify({ op: 0, t: 'INTERACTION_CREATE', s, d });
  gateway.on('connection', (socket, request) => {
    const tell = (op: number, d: unknown, more: object = {}) => socket.send(JSON.stringify({ op, d, ...more }));
    tell(10, { heartbeat_interval: heartbeatMs });
    socket.on('close', () => sockets.delete(socket));
    socket.on('message', (data) => {
      const { op, d } = JSON.parse(String(data)) as { op: number; d: Record<string, unknown> };
      if (op === 1 && hears) tell(11, null);
      if (op === 2) {
        const shard = (d.shard as [number, number] | undefined) ?? [0, 1];
        sessions.push({ shard, intents: Number(d.intents), token: String(d.token), resumed: false });
        const session_id = `session-${sessions.length}`;
        const line = { shard: shard[0], told: [] };
        lines.set(session_id, line);
        sockets.set(socket, line);
        const user = { id: APPLICATION, username: 'Ringwright', discriminator: '0000', avatar: null, bot: true };
        const ready = {
          v: 10,
          user,
          guilds: [],
          session_id,
          resume_gateway_url: `ws://${request.headers.host}/gw`,
          shard,
          application: { id: APPLICATION, flags: 0 },
        };
        tell(0, ready, { t: 'READY', s: 1 });
      }
      if (op === 6) {
        const line = lines.get(String(d.session_id));
        if (line === undefined) return tell(9, false);
        sessions.push({ shard: [line.shard, 1], intents: 0, token: String(d.token), resumed: true });
        sockets.set(socket, line);
        for (const [at, payload] of line.told.entries())
          if (at + 2 > Number(d.seq)) socket.send(event(payload, at + 2));
        tell(0, {}, { t: 'RESUMED', s: Number(d.seq) });
      }
    });
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const { port } = server.address() as AddressInfo;

  return {
    api: `http://127.0.0.1:${port}/api`,
    sentFor: ({ token }) => sent.get(token) ?? [],
    sessions,
    dispatch: (payload, shard = 0, only) => {
      const all = [...lines.values()].filter((line) => line.shard === shard);
      const connected = all.filter((line) => [...sockets.values()].includes(line));
      const able = connected.length > 0 ? connected : all.slice(-1);
      for (const line of only === undefined ? able : [able[only % able.length]]) {
        line?.told.push(payload);
        for (const [socket, each] of sockets) if (each === line) socket.send(event(payload, line.told.length + 1));
      }
    },
    tell: (op, d) => {
      for (const socket of sockets.keys()) socket.send(JSON.stringify({ op, d }));
    },
    hear: (told) => {
      hears = told;
    },
    drop: (code) => {
      for (const socket of sockets.keys()) socket.close(code);
    },
    connections: () => sockets.size,
    byBot,
    refuse: (start, status, code, times = 1) => refusals.push({ start, status, code, times }),
    commands: () => commands,
    faults,
    close: async () => {
      for (const socket of gateway.clients) socket.terminate();
      server.closeAllConnections();
      await new Promise<void>((resolve) => server.close(() => resolve()));
    },
  };
}

async function read(request: IncomingMessage): Promise<Request> {
  const chunks: Buffer[] = [];
  for await (const chunk of request as AsyncIterable<Buffer>) chunks.push(chunk);
  const bytes = Buffer.concat(chunks);
  const path = decodeURIComponent((request.url ?? '').split('?')[0] ?? '').replace(/^\/api\/v10/, '');
  const type = request.headers['content-type'] ?? '';
  const bot = String(request.headers.authorization ?? '').startsWith('Bot ');
  const common = { method: request.method ?? '', path, host: request.headers.host ?? '', bot };
  if (!type.startsWith('multipart/')) {
    return { ...common, body: bytes.length === 0 ? {} : (JSON.parse(bytes.toString('utf8')) as Json), files: [] };
  }
  const form = await new Response(bytes, { headers: { 'content-type': type } }).formData();
  const files: { name: string; bytes: Uint8Array; type: string }[] = [];
  for (const [field, value] of form) {
    if (!field.startsWith('files[') || typeof value === 'string') continue;
    files.push({ name: value.name, bytes: new Uint8Array(await value.arrayBuffer()), type: value.type });
  }
  return { ...common, body: JSON.parse(String(form.get('payload_json'))) as Json, files };
}

function write(response: ServerResponse, { status, body }: Answer): void {
  const text = body === undefined ? '' : JSON.stringify(body);
  response.writeHead(status, text === '' ? {} : { 'Content-Type': 'application/json' }).end(text);
}

function message(id: string) {
  const author = { id: APPLICATION, username: 'Ringwright', discriminator: '0000', avatar: null };
  return { id, channel_id: '200000000000000001', author, content: '', timestamp: '2026-11-25T12:00:00.000000+00:00' };
}
