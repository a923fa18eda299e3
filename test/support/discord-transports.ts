import { generateKeyPairSync, sign } from 'node:crypto';
import { setTimeout as wait } from 'node:timers/promises';
import { openGateway } from '../../adapters/discord/gateway.ts';
import { openHttp } from '../../adapters/discord/http.ts';
import { openRest } from '../../adapters/discord/rest.ts';
import type { Double } from './discord-double.ts';
import type { Payload } from './discord-payloads.ts';
import { callbackFaults } from './discord-rules.ts';
import type { Json, Sent, Stage } from './discord-stage.ts';

/** One of the two ways an interaction comes in and its answers go out. */
export type Transport = {
  /** Sends an interaction and gives all that was sent for it, once it satisfies `until`. */
  readonly say: (payload: Payload, until?: (sent: readonly Sent[]) => boolean) => Promise<readonly Sent[]>;
  /** Sends it without waiting. */
  readonly send: (payload: Payload) => void;
  readonly close: () => Promise<void>;
};

export const TRANSPORTS = { gateway, http } as const;

const TOKEN = 'a-made-up-token-of-a-bot';
const PATIENCE_MS = 4000;

export function portsOf(stage: Stage, double: Double, token: string | null = TOKEN) {
  return {
    handle: stage.handle,
    rest: openRest({ api: double.api, token }),
    log: stage.ports.log,
    nowMs: stage.ports.nowMs,
    wait: (ms: number) => wait(ms, undefined, { ref: false }),
    lost: () => stage.ports.log.info({}, 'told to end'),
  };
}

async function gateway(stage: Stage, double: Double): Promise<Transport> {
  const settings = { api: double.api, token: TOKEN, shards: [0], shardCount: 1 };
  const open = await openGateway(settings, portsOf(stage, double));
  return {
    say: async (payload, until) => {
      double.dispatch(payload);
      return settled(() => double.sentFor(payload), until);
    },
    send: (payload) => double.dispatch(payload),
    close: open.close,
  };
}

async function http(stage: Stage, double: Double): Promise<Transport> {
  const { publicKey, sign: signed } = keys();
  const settings = { host: '127.0.0.1', port: 0, publicKey };
  const open = await openHttp(settings, portsOf(stage, double));
  const firsts = new Map<string, Sent>();
  const post = async (payload: Payload) => {
    const response = await posted(open.port, signed(JSON.stringify(payload)));
    if (response.status !== 200) return;
    const body = (await response.json()) as Json;
    const faults = callbackFaults(body);
    if (faults.length > 0) throw new Error(faults.join('; '));
    firsts.set(payload.token, { kind: 'first', body, files: [] });
  };
  const sent = (payload: Payload) => {
    const first = firsts.get(payload.token);
    return [...(first === undefined ? [] : [first]), ...double.sentFor(payload)];
  };
  return {
    say: async (payload, until) => {
      await post(payload);
      return settled(() => sent(payload), until);
    },
    send: (payload) => void post(payload),
    close: open.close,
  };
}

async function settled(
  sent: () => readonly Sent[],
  until: (sent: readonly Sent[]) => boolean = (all) => all.length > 0,
): Promise<readonly Sent[]> {
  const endMs = Date.now() + PATIENCE_MS;
  while (!until(sent())) {
    if (Date.now() > endMs)
      throw new Error(`waited in vain: ${JSON.stringify(sent().map(({ kind, body }) => [kind, body.type]))}`);
    await wait(5);
  }
  return sent();
}

/** A request as the platform signs it. */
export type Signed = { readonly body: string; readonly timestamp: string; readonly signature: string };

/** A key pair of one's own, and what signs with it. */
export function keys() {
  const { publicKey, privateKey } = generateKeyPairSync('ed25519');
  return {
    publicKey: publicKey.export({ format: 'der', type: 'spki' }).subarray(-32).toString('hex'),
    sign: (body: string, atMs: number = Date.now()): Signed => {
      const timestamp = String(Math.floor(atMs / 1000));
      return { body, timestamp, signature: sign(null, Buffer.from(timestamp + body), privateKey).toString('hex') };
    },
  };
}

export function posted(port: number, { body, timestamp, signature }: Signed, path = '/interactions', method = 'POST') {
  return fetch(`http://127.0.0.1:${port}${path}`, {
    method,
    headers: { 'X-Signature-Ed25519': signature, 'X-Signature-Timestamp': timestamp },
    ...(method === 'GET' ? {} : { body }),
  });
}
