import { createServer, type IncomingMessage, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { errorData, type Log } from '../../src/log.ts';
import type { Metrics } from './metrics.ts';
import type { Readiness } from './readiness.ts';

/** What the watching port shows. */
export type Shown = {
  readonly readiness: () => Readiness;
  readonly metrics: Pick<Metrics, 'text' | 'contentType'>;
};

export type WatchPort = {
  /** Where it listens; null where it could not. */
  readonly port: number | null;
  readonly close: () => Promise<void>;
};

/** Probes and collectors send a line and a few headers, and nothing they send takes long. Common practice. */
const HEADER_BYTES = 8192;
const REQUEST_MS = 5000;
/** One probe, a collector or two, and somebody who looks by hand. */
const CONNECTIONS = 32;

/**
 * A port of its own for whoever keeps the program running: `/healthz` answers while the program turns at all, `/readyz`
 * says whether it should be sent questions, `/metrics` what it counted. What goes wrong here ends nothing else: a port
 * that is taken leaves a line in the log.
 */
export async function openWatchPort(
  { host, port }: { readonly host: string; readonly port: number },
  shown: Shown,
  log: Log,
): Promise<WatchPort> {
  const server = createServer(
    { maxHeaderSize: HEADER_BYTES, headersTimeout: REQUEST_MS, requestTimeout: REQUEST_MS },
    (request, response) => {
      // No body is read: the connection ends with the answer, whatever still comes.
      answer(request, response, shown).catch((error: unknown) => {
        log.warn(errorData(error), 'a look at the program failed');
        if (!response.headersSent) written(response, request.method, 500, { 'content-type': TEXT }, 'failed\n');
      });
    },
  );
  server.maxConnections = CONNECTIONS;
  server.on('clientError', (_, socket) => socket.destroy());
  const listening = await new Promise<boolean>((resolve) => {
    server.once('error', (error) => {
      log.warn(errorData(error), 'the port for watching could not be opened; all else goes on');
      resolve(false);
    });
    server.listen(port, host, () => resolve(true));
  });
  server.on('error', (error) => log.warn(errorData(error), 'the port for watching had an error'));
  return {
    port: listening ? (server.address() as AddressInfo).port : null,
    close: async () => {
      if (!listening) return;
      const closed = new Promise<void>((resolve) => server.close(() => resolve()));
      server.closeAllConnections();
      await closed;
    },
  };
}

const TEXT = 'text/plain; charset=utf-8';

async function answer({ url = '', method }: IncomingMessage, response: ServerResponse, shown: Shown): Promise<void> {
  const say = (status: number, headers: Readonly<Record<string, string>>, body: string) =>
    written(response, method, status, headers, body);
  const page = url.split('?', 1)[0];
  if (page !== '/healthz' && page !== '/readyz' && page !== '/metrics') {
    return say(404, { 'content-type': TEXT }, 'not here\n');
  }
  if (method !== 'GET' && method !== 'HEAD') {
    return say(405, { 'content-type': TEXT, allow: 'GET, HEAD' }, 'only to be looked at\n');
  }
  switch (page) {
    case '/healthz':
      return say(200, { 'content-type': TEXT }, 'turning\n');
    case '/readyz': {
      const readiness = shown.readiness();
      return say(readiness.ready ? 200 : 503, { 'content-type': 'application/json' }, `${JSON.stringify(readiness)}\n`);
    }
    case '/metrics':
      return say(200, { 'content-type': shown.metrics.contentType }, await shown.metrics.text());
  }
}

function written(
  response: ServerResponse,
  method: string | undefined,
  status: number,
  headers: Readonly<Record<string, string>>,
  body: string,
): void {
  response.writeHead(status, { ...headers, 'cache-control': 'no-store', connection: 'close' });
  response.end(method === 'HEAD' ? undefined : body);
}
