import { createServer, type IncomingMessage, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { errorData, type Log } from '../../src/log.ts';
import type { Notice } from '../../src/notice.ts';
import { idsOf, sendLater } from './deliver.ts';
import { OURS } from './limits.ts';
import type { Handled, Sender } from './ports.ts';
import { apart, type Interactions } from './rest.ts';
import { isSigned, readPublicKey } from './signature.ts';
import { openUnderWay } from './under-way.ts';
import { CALLBACK, type Response } from './wire.ts';

export type Http = {
  readonly port: number;
  /** How many requests are being answered. */
  readonly underWay: () => number;
  readonly close: () => Promise<void>;
};

/** A request that is not answered with an interaction: a number, and nothing to learn from. */
type Refused = 400 | 401 | 404 | 405 | 413;

/**
 * Answers interactions that come as signed requests: stateless, so any number of these may stand behind one address.
 * Only what the platform signed, just now and over these very bytes, is looked at.
 */
export async function openHttp(
  settings: { readonly host: string; readonly port: number; readonly publicKey: string },
  ports: {
    readonly handle: (payload: unknown) => Promise<Handled>;
    readonly rest: Interactions;
    readonly log: Log;
    readonly notice?: Notice | undefined;
    readonly nowMs: () => number;
    readonly wait: (ms: number) => Promise<void>;
  },
): Promise<Http> {
  const { handle, log, nowMs, wait } = ports;
  const key = readPublicKey(settings.publicKey);
  const underWay = openUnderWay(wait);

  const answer = async (request: IncomingMessage, response: ServerResponse) => {
    if (request.url?.split('?')[0] !== '/interactions') return refuse(response, 404);
    if (request.method !== 'POST') return refuse(response, 405);
    const body = await bodyOf(request);
    if (body === null) return refuse(response, 413);
    const timestamp = String(request.headers['x-signature-timestamp'] ?? '');
    const signature = String(request.headers['x-signature-ed25519'] ?? '');
    if (!isRecent(timestamp, nowMs()) || !isSigned(key, timestamp, body, signature)) {
      log.warn({ bytes: body.length }, 'a request was not signed by the platform');
      return refuse(response, 401);
    }
    const payload = parsed(body);
    const fromMs = nowMs();
    const handled = payload === undefined ? null : await handle(payload);
    if (handled === null || handled.first === null) return refuse(response, 400);
    const { first, later } = inBody(handled.first, handled);
    await sent(response, 200, JSON.stringify(first));
    if (later === null) return;
    const ids = idsOf(payload);
    if (ids !== null) await sendLater({ ...handled, first, later }, ids, ports, () => nowMs() - fromMs);
  };

  const server = createServer((request, response) => {
    const work = answer(request, response).catch((error: unknown) => {
      // Whoever hangs up in the middle of asking can be anybody, and is no fault of ours.
      if (!request.complete) return log.info({}, 'a request broke off');
      log.error(errorData(error), 'a request was not answered');
      if (!response.headersSent) response.writeHead(500).end();
    });
    underWay.add(work);
  });
  await new Promise<void>((resolve, reject) => {
    server.once('error', reject);
    server.listen(settings.port, settings.host, resolve);
  });
  return {
    port: (server.address() as AddressInfo).port,
    underWay: underWay.count,
    close: async () => {
      const closed = new Promise<void>((resolve) => server.close(() => resolve()));
      server.closeIdleConnections();
      if (!(await underWay.finish(OURS.farewellMs))) log.warn({}, 'some answers were not finished');
      server.closeAllConnections();
      await closed;
    },
  };
}

/** A body carries no pictures: an answer with some is announced in it, and sent right after. */
function inBody(first: Response, { later }: Handled): { readonly first: Response; readonly later: Handled['later'] } {
  const { body, files } = apart(first);
  if (files.length === 0) return { first: body as Response, later };
  if (first.type !== CALLBACK.message && first.type !== CALLBACK.update) return { first, later };
  const { data, files: pictures } = first;
  const announcement: Response =
    first.type === CALLBACK.update
      ? { type: CALLBACK.deferUpdate }
      : { type: CALLBACK.deferMessage, data: { flags: first.data.flags } };
  const send = async (sender: Sender) => {
    await sender.edit({ body: data, files: pictures });
    await later?.(sender);
  };
  return { first: announcement, later: send };
}

function isRecent(timestamp: string, nowMs: number): boolean {
  return /^\d{1,12}$/.test(timestamp) && Math.abs(nowMs / 1000 - Number(timestamp)) <= OURS.signedWithinS;
}

function parsed(body: Buffer): unknown {
  try {
    return JSON.parse(body.toString('utf8'));
  } catch {
    return undefined;
  }
}

/** The bytes as they came, or null where there are more than an interaction has. */
async function bodyOf(request: IncomingMessage): Promise<Buffer | null> {
  const chunks: Buffer[] = [];
  let bytes = 0;
  for await (const chunk of request as AsyncIterable<Buffer>) {
    bytes += chunk.length;
    if (bytes > OURS.bodyBytes) return null;
    chunks.push(chunk);
  }
  return Buffer.concat(chunks);
}

function refuse(response: ServerResponse, status: Refused): Promise<void> {
  return sent(response, status, '');
}

function sent(response: ServerResponse, status: number, body: string): Promise<void> {
  return new Promise((resolve) => {
    response.once('close', resolve);
    const more = status === 413 ? { Connection: 'close' } : {};
    const type = body === '' ? {} : { 'Content-Type': 'application/json' };
    // With its length told, head and body go out in one piece instead of in chunks.
    response.writeHead(status, { ...type, 'Content-Length': Buffer.byteLength(body), ...more }).end(body);
  });
}
