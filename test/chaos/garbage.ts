import { connect } from 'node:net';
import { setTimeout as wait } from 'node:timers/promises';

/** Where a program listens, and how requests to it are signed. */
export type Listening = {
  readonly port: number;
  readonly path: string;
  readonly signed: (body: string) => Readonly<Record<string, string>>;
  /** Bodies that are JSON, and nothing the platform would send. */
  readonly strange: readonly unknown[];
};

/** More than any payload has. */
const HUGE_BYTES = 3 * 1024 * 1024;
/** A slow sender lets go after so many pieces. */
const PIECES = 10;
const PIECE_MS = 150;

/** One of a list, by a number of any size. */
export function oneOf<Each>(list: readonly Each[], which: number): Each | undefined {
  return list[which % Math.max(1, list.length)];
}

type Bad = (to: Listening, which: number) => Promise<string | null>;

/** A request that is answered has to be answered as one that is wrong, or calmly; never as a fault of ours. */
async function sent(to: Listening, body: string, headers: Readonly<Record<string, string>>, want: RegExp) {
  try {
    const url = `http://127.0.0.1:${to.port}${to.path}`;
    const response = await fetch(url, { method: 'POST', headers, body, signal: AbortSignal.timeout(10_000) });
    const said = await response.text();
    if (/\bat .+:\d+:\d+/.test(said)) return `a stack trace came back with ${response.status}`;
    return want.test(String(response.status)) ? null : `${response.status} came back where ${want.source} should`;
  } catch {
    // It hung up, or is being ended just now: both are calm.
    return null;
  }
}

const brokenJson: Bad = (to) => {
  const body = '{"type": 2, "data": {"name": "con';
  return sent(to, body, { 'content-type': 'application/json', ...to.signed(body) }, /^[24]/);
};

const wrongSignature: Bad = (to) => {
  const body = '{"type":1}';
  return sent(to, body, { 'content-type': 'application/json', ...to.signed(`${body} `) }, /^401$/);
};

const noSignature: Bad = (to) => sent(to, '{"type":1}', { 'content-type': 'application/json' }, /^401$/);

/** Only the platform itself can sign, and its framework may say in its own way that it cannot read. */
const strange: Bad = (to, which) => {
  const body = JSON.stringify(oneOf(to.strange, which));
  return sent(to, body, { 'content-type': 'application/json', ...to.signed(body) }, /^[245]/);
};

const huge: Bad = (to) => {
  const body = 'x'.repeat(HUGE_BYTES);
  return sent(to, body, { 'content-type': 'application/json', ...to.signed(body) }, /^4/);
};

/** A request that ends in its middle. */
const half: Bad = async ({ port, path }) => {
  const socket = connect(port, '127.0.0.1');
  socket.on('error', () => undefined);
  socket.write(`POST ${path} HTTP/1.1\r\nHost: here\r\nContent-Length: 1000\r\n\r\n{"type":`);
  await wait(PIECE_MS);
  socket.destroy();
  return null;
};

/** A request that comes letter by letter, and never whole. */
const slow: Bad = async ({ port, path }) => {
  const socket = connect(port, '127.0.0.1');
  socket.on('error', () => undefined);
  socket.write(`POST ${path} HTTP/1.1\r\nHost: here\r\nContent-Length: 1000\r\n\r\n`);
  for (let piece = 0; piece < PIECES && !socket.destroyed; piece += 1) {
    socket.write('{');
    await wait(PIECE_MS);
  }
  socket.destroy();
  return null;
};

/** Not even a request. */
const noise: Bad = async ({ port }) => {
  const socket = connect(port, '127.0.0.1');
  socket.on('error', () => undefined);
  socket.write('\x16\x03\x01\x00\xffGET / HTTP/9.9\r\n\r\n');
  await wait(PIECE_MS);
  socket.destroy();
  return null;
};

const BAD: readonly Bad[] = [brokenJson, wrongSignature, noSignature, strange, strange, huge, half, slow, noise];

/** Sends one bad request, and gives what is wrong with how it was taken; null where nothing is. */
export async function badRequests(to: Listening, which: number): Promise<string | null> {
  const bad = oneOf(BAD, which);
  return bad === undefined ? null : bad(to, Math.floor(which / BAD.length));
}
