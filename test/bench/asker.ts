import { Agent, request as httpRequest } from 'node:http';
import { setTimeout as wait } from 'node:timers/promises';
import { keys } from '../support/discord-transports.ts';
import { signedRequest } from '../support/slack-double.ts';
import { discordPress, discordQuestion, receiptIn, type Sort, slackPress, slackQuestion } from './questions.ts';

/** Questions put to a server from a process of its own. Which one is a picture's or about what is kept goes by its number. */
export type Asking = {
  readonly platform: 'discord' | 'slack';
  readonly port: number;
  /** Where the platform takes what does not fit into a first answer. */
  readonly base: string;
  /** Numbers of the first question and of the one after the last. */
  readonly from: number;
  readonly until: number;
  /** Every so many is a press on an earlier card that draws a picture, or looks at what is kept; 0 for none. */
  readonly picturesEvery: number;
  readonly keptEvery: number;
  /**
   * So many a second, whether the answers keep up or not, apart as people are who know nothing of each other; null asks
   * the next one when an answer came, over a few connections.
   */
  readonly perSecond: number | null;
};

export type Asked = {
  readonly answered: number;
  readonly failed: number;
  /** How much later than planned the asker itself was, per question. */
  readonly lateMs: readonly number[];
  /** From the moment a question was planned for to its whole answer: one that had to wait for others counts its wait. */
  readonly textMs: readonly number[];
  /** The same for the first answer to one that draws. */
  readonly firstMs: readonly number[];
  /** Of each picture asked for: when, by the token that it comes to the platform with. */
  readonly tokens: readonly (readonly [token: string, plannedMs: number])[];
};

export type Ready = { readonly publicKey: string };

/** Lines that stay busy when nobody waits for a plan. */
const CONNECTIONS = 4;
/** As long as the platforms wait for a first answer, and some more. */
const GIVE_UP_MS = 10_000;

const { publicKey, sign } = keys();
const agent = new Agent({ keepAlive: true, maxSockets: 256 });
const nowMs = () => Number(process.hrtime.bigint()) / 1e6;

type Reply = { readonly status: number; readonly body: string };
type Wire = {
  readonly path: string;
  readonly headers: Readonly<Record<string, string>>;
  readonly body: string;
  readonly token: string;
};
/** A card that somebody has before them: the number of its question, and its receipt. */
type Shown = { readonly n: number; readonly receipt: string };

function wire({ platform, base }: Asking, n: number, what: Sort | Shown): Wire {
  if (platform === 'slack') {
    const token = `T${n}`;
    const url = `${base}/actions/${token}`;
    const payload = typeof what === 'string' ? slackQuestion(n, what, url) : slackPress(what.n, what.receipt, url);
    return { path: '/slack/events', ...signedRequest(payload), token };
  }
  const payload = typeof what === 'string' ? discordQuestion(n, what) : discordPress(what.n, what.receipt);
  const { body, timestamp, signature } = sign(JSON.stringify(payload));
  const headers = {
    'content-type': 'application/json',
    'x-signature-ed25519': signature,
    'x-signature-timestamp': timestamp,
  };
  return { path: '/interactions', headers, body, token: payload.token };
}

function sent(port: number, { path, headers, body }: Wire): Promise<Reply> {
  return new Promise((resolve, reject) => {
    const length = { 'content-length': String(Buffer.byteLength(body)) };
    const options = { agent, host: '127.0.0.1', port, path, method: 'POST', headers: { ...headers, ...length } };
    const request = httpRequest(options, (response) => {
      const chunks: Buffer[] = [];
      response.on('data', (chunk: Buffer) => chunks.push(chunk));
      response.once('end', () => resolve({ status: response.statusCode ?? 0, body: Buffer.concat(chunks).toString() }));
      response.once('error', reject);
    });
    request.setTimeout(GIVE_UP_MS, () => request.destroy(new Error('No answer came.')));
    request.once('error', reject);
    request.end(body);
  });
}

/** Cards that nobody has pressed anything on yet, the latest last; as many as a second or two of them are. */
let shown: Shown[] = [];
let shownAt = 0;
const MOST_SHOWN = 500;

async function asked(asking: Asking): Promise<Asked> {
  const { port, from, until, perSecond, picturesEvery, keptEvery } = asking;
  const [lateMs, textMs, firstMs]: [number[], number[], number[]] = [[], [], []];
  const tokens: [string, number][] = [];
  // Another server knows nothing of the cards of an earlier one.
  if (shownAt !== port) shown = [];
  shownAt = port;
  let [answered, failed] = [0, 0];

  const one = async (n: number, plannedMs: number) => {
    const card = picturesEvery > 0 && n % picturesEvery === 0 ? shown.shift() : undefined;
    const wired = wire(asking, n, card ?? (keptEvery > 0 && n % keptEvery === 1 ? 'kept' : 'text'));
    lateMs.push(nowMs() - plannedMs);
    if (card !== undefined) tokens.push([wired.token, plannedMs]);
    try {
      const { status, body } = await sent(port, wired);
      if (status !== 200) throw new Error(`The answer was ${status}.`);
      (card === undefined ? textMs : firstMs).push(nowMs() - plannedMs);
      answered += 1;
      const receipt = card === undefined ? receiptIn(body) : null;
      if (receipt === null) return;
      shown.push({ n, receipt });
      if (shown.length > MOST_SHOWN) shown.shift();
    } catch {
      failed += 1;
    }
  };

  if (perSecond === null) {
    let next = from;
    const line = async () => {
      while (next < until) {
        next += 1;
        await one(next - 1, nowMs());
      }
    };
    await Promise.all(Array.from({ length: CONNECTIONS }, line));
  } else {
    const all: Promise<void>[] = [];
    let plannedMs = nowMs() + 100;
    for (let n = from; n < until; n += 1) {
      // The exponential distribution: how far apart things are that happen independently, at a steady rate.
      plannedMs += (-Math.log(1 - Math.random()) * 1000) / perSecond;
      while (nowMs() < plannedMs) await wait(Math.max(0, Math.floor(plannedMs - nowMs())));
      all.push(one(n, plannedMs));
    }
    await Promise.all(all);
  }
  return { answered, failed, lateMs, textMs, firstMs, tokens };
}

process.on('message', (asking: Asking) => {
  void asked(asking).then((all) => process.send?.(all));
});
process.send?.({ publicKey } satisfies Ready);
process.once('disconnect', () => process.exit());
