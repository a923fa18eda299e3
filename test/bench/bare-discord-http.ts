import { verify } from 'node:crypto';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { readPublicKey } from '../../adapters/discord/signature.ts';

/**
 * The least that can answer a signed interaction: the runtime's server, the same check of the signature, the payload
 * parsed, and always the same reply. BENCH_KEY is the public key, BENCH_REPLY the reply.
 */
const { BENCH_KEY = '', BENCH_REPLY = '' } = process.env;
const key = readPublicKey(BENCH_KEY);

const server = createServer((request, response) => {
  const chunks: Buffer[] = [];
  request.on('data', (chunk: Buffer) => chunks.push(chunk));
  request.on('end', () => {
    const body = Buffer.concat(chunks);
    const timestamp = String(request.headers['x-signature-timestamp']);
    const signature = Buffer.from(String(request.headers['x-signature-ed25519']), 'hex');
    const isSigned = verify(null, Buffer.concat([Buffer.from(timestamp), body]), key, signature);
    const { type } = JSON.parse(body.toString('utf8')) as { readonly type: number };
    const status = isSigned && type === 2 ? 200 : 401;
    response.writeHead(status, { 'Content-Type': 'application/json' }).end(status === 200 ? BENCH_REPLY : '');
  });
});
server.listen(0, '127.0.0.1', () => {
  console.log(JSON.stringify({ msg: 'answering', port: (server.address() as AddressInfo).port }));
});
process.once('SIGTERM', () => process.exit());
