import { createServer, type IncomingMessage, request as requestTo, type ServerResponse } from 'node:http';
import { type AddressInfo, connect, type Socket } from 'node:net';

/** What happens to one request on its way. `cut` after: what was asked is done, and the answer does not come back. */
export type Trouble =
  | {
      readonly kind: 'refuse';
      readonly status: number;
      readonly headers?: Record<string, string>;
      readonly body: string;
    }
  | { readonly kind: 'hang'; readonly ms: number }
  | { readonly kind: 'cut'; readonly when: 'before' | 'halfway' | 'after' };

/** A request that the other side has taken, and what it said. */
export type Taken = { readonly path: string; readonly body: string; readonly atMs: number };

/** Stands between a program and a double of its platform, and breaks things on the way. */
export type TroubledProxy = {
  readonly origin: string;
  /** Asked for every request; null lets it pass. */
  readonly meet: (trouble: (path: string) => Trouble | null) => void;
  /** What was taken since the last look, oldest first. */
  readonly taken: readonly Taken[];
  /** Breaks every socket that was upgraded, without a word. */
  readonly cut: () => void;
  readonly close: () => Promise<void>;
};

export async function openTroubledProxy(target: string): Promise<TroubledProxy> {
  const { port: targetPort } = new URL(target);
  const taken: Taken[] = [];
  const upgraded = new Set<Socket>();
  let meet: (path: string) => Trouble | null = () => null;

  const pass = async (request: IncomingMessage, response: ServerResponse) => {
    const chunks: Buffer[] = [];
    for await (const chunk of request as AsyncIterable<Buffer>) chunks.push(chunk);
    const body = Buffer.concat(chunks);
    const path = request.url ?? '/';
    const trouble = meet(path);
    if (trouble?.kind === 'refuse') {
      response.writeHead(trouble.status, { 'content-type': 'application/json', ...trouble.headers }).end(trouble.body);
      return;
    }
    if (trouble?.kind === 'hang') {
      setTimeout(() => request.socket.destroy(), trouble.ms).unref();
      return;
    }
    if (trouble?.kind === 'cut' && trouble.when === 'before') {
      request.socket.destroy();
      return;
    }
    const onward = requestTo(
      { host: '127.0.0.1', port: targetPort, method: request.method, path, headers: request.headers },
      (reply) => {
        const parts: Buffer[] = [];
        reply.on('data', (part: Buffer) => parts.push(part));
        reply.on('end', () => {
          const status = reply.statusCode ?? 500;
          if (status < 300) taken.push({ path, body: body.toString('utf8'), atMs: performance.now() });
          if (trouble?.kind === 'cut' && trouble.when === 'after') {
            request.socket.destroy();
            return;
          }
          const whole = Buffer.concat(parts);
          if (trouble?.kind === 'cut') {
            response.writeHead(status, { ...reply.headers, 'content-length': String(whole.length + 100) });
            response.write(whole.subarray(0, whole.length / 2), () => request.socket.destroy());
            return;
          }
          response.writeHead(status, reply.headers).end(whole);
        });
      },
    );
    onward.on('error', () => request.socket.destroy());
    onward.end(body);
  };

  const server = createServer((request, response) => {
    pass(request, response).catch(() => request.socket.destroy());
  });
  server.on('upgrade', (request: IncomingMessage, socket: Socket, head: Buffer) => {
    const onward = connect(Number(targetPort), '127.0.0.1');
    const lines = [`${request.method} ${request.url} HTTP/1.1`];
    for (let at = 0; at < request.rawHeaders.length; at += 2) {
      lines.push(`${request.rawHeaders[at]}: ${request.rawHeaders[at + 1]}`);
    }
    onward.write(`${lines.join('\r\n')}\r\n\r\n`);
    onward.write(head);
    onward.pipe(socket).pipe(onward);
    for (const each of [socket, onward]) {
      upgraded.add(each);
      each.on('error', () => undefined);
      each.on('close', () => {
        upgraded.delete(each);
        socket.destroy();
        onward.destroy();
      });
    }
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const { port } = server.address() as AddressInfo;
  const cut = () => {
    for (const socket of upgraded) socket.destroy();
  };
  return {
    origin: `http://127.0.0.1:${port}`,
    meet: (trouble) => {
      meet = trouble;
    },
    taken,
    cut,
    close: async () => {
      cut();
      server.closeAllConnections();
      await new Promise<void>((resolve) => server.close(() => resolve()));
    },
  };
}
