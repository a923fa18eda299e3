import { once } from 'node:events';
import { connect, type Socket } from 'node:net';

/** What came back for many requests. */
export type Answers = {
  readonly count: number;
  /** Of all bodies together. */
  readonly bytes: number;
};

/** A POST as it goes over the wire, made ready beforehand so that sending it costs next to nothing. */
export function postRequest(path: string, headers: Readonly<Record<string, string>>, body: string): Buffer {
  const lines = Object.entries({ ...headers, 'content-length': String(Buffer.byteLength(body)) }).map(
    ([name, value]) => `${name}: ${value}`,
  );
  return Buffer.from(`POST ${path} HTTP/1.1\r\nhost: 127.0.0.1\r\n${lines.join('\r\n')}\r\n\r\n${body}`);
}

/**
 * Sends requests over a few connections that stay open, each sending its next one when it has its answer. The runtime's
 * own client would take as much of the machine as the server that is measured.
 *
 * @throws where an answer is not 200 or says nothing, or where one is missing
 */
export async function askAll(
  ports: readonly number[],
  requests: readonly Buffer[],
  connections: number,
  hear: (body: Buffer) => void = () => undefined,
): Promise<Answers> {
  let [next, count, bytes] = [0, 0, 0];
  const line = async (port: number) => {
    const socket = connect(port, '127.0.0.1').setNoDelay();
    await once(socket, 'connect');
    while (next < requests.length) {
      const request = requests[next];
      next += 1;
      if (request === undefined) break;
      const body = await answerTo(socket, request);
      if (body.length === 0) throw new Error('The server said nothing.');
      count += 1;
      bytes += body.length;
      hear(body);
    }
    socket.destroy();
  };
  await Promise.all(Array.from({ length: connections }, (_, index) => line(ports[index % ports.length] ?? Number.NaN)));
  if (count !== requests.length) throw new Error(`${count} of ${requests.length} requests were answered.`);
  return { count, bytes };
}

function answerTo(socket: Socket, request: Buffer): Promise<Buffer> {
  return new Promise((resolve, reject) => {
    let read: Buffer = Buffer.alloc(0);
    const hear = (data: Buffer) => {
      read = read.length === 0 ? data : Buffer.concat([read, data]);
      const body = bodyIn(read);
      if (body === null) return;
      settle();
      if (read.toString('latin1', 0, 12) === 'HTTP/1.1 200') resolve(body);
      else reject(new Error(`The server answered ${read.toString('latin1', 0, 40)}`));
    };
    const lost = () => {
      settle();
      reject(new Error('The server closed the connection.'));
    };
    const settle = () => {
      socket.off('data', hear);
      socket.off('close', lost);
    };
    socket.on('data', hear);
    socket.on('close', lost);
    socket.write(request);
  });
}

/** The whole body, by its length or in chunks (RFC 9112, sections 6 and 7.1); null while some is missing. */
function bodyIn(read: Buffer): Buffer | null {
  const from = read.indexOf('\r\n\r\n') + 4;
  if (from < 4) return null;
  const head = read.toString('latin1', 0, from);
  const length = /\r\ncontent-length: *(\d+)/i.exec(head)?.[1];
  if (length !== undefined) {
    const until = from + Number(length);
    return read.length < until ? null : read.subarray(from, until);
  }
  const chunks: Buffer[] = [];
  for (let at = from; ; ) {
    const end = read.indexOf('\r\n', at);
    if (end === -1) return null;
    const size = Number.parseInt(read.toString('latin1', at, end), 16);
    const next = end + 2 + size + 2;
    if (read.length < next) return null;
    if (size === 0) return Buffer.concat(chunks);
    chunks.push(read.subarray(end + 2, end + 2 + size));
    at = next;
  }
}
