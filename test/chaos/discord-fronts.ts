import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import type { Double } from '../support/discord-double.ts';
import { type Payload, type Person, slash } from '../support/discord-payloads.ts';
import { keys } from '../support/discord-transports.ts';
import type { Chance } from './chance.ts';
import type { Deed } from './deeds.ts';
import { type Again, type Asker, type Front, PATIENCE_MS, type Shown } from './front.ts';
import { badRequests, oneOf } from './garbage.ts';
import { post } from './requests.ts';
import { processesOf, sent } from './sending.ts';
import { until } from './waiting.ts';

export const DISCORD_TOKEN = 'a-made-up-token-of-a-bot';
const MAIN = join(import.meta.dirname, '../../adapters/discord/main.ts');
/** The platform gives a first answer that is announced the type 5 or 6. */
const ANNOUNCED: readonly unknown[] = [5, 6];

type Wires = {
  readonly double: Double;
  /** Where the program finds the platform. */
  readonly origin: string;
  /** The ports at which processes of this front listen just now. */
  readonly ports: () => readonly number[];
  readonly count: number;
  readonly chance: Chance;
};

/** What went out for an interaction as words; null while there are none yet. */
function wordsOf(bodies: readonly unknown[], announced: boolean): string | null {
  return bodies.length > (announced ? 1 : 0) ? JSON.stringify(bodies) : null;
}

/** What was sent to be read; that an announcement was taken away is nothing to read. */
function bodiesOf(double: Double, payload: Payload): readonly unknown[] {
  return double.sentFor(payload).flatMap(({ kind, body }) => (kind === 'remove' ? [] : [body]));
}

function common({ origin }: Wires) {
  return {
    platform: 'discord',
    main: MAIN,
    placeName: (place: number) => `discord:server:${server(place)}`,
    personName: (person: number) => `<@${user(person)}>`,
    api: { DISCORD_API: `${origin}/api` },
  } as const;
}

function server(place: number): string {
  return `1000000000000000${String(place).padStart(2, '0')}`;
}

function user(person: number): string {
  return `50000000000000${String(person).padStart(4, '0')}`;
}

function payloadOf({ command, action, told }: Deed, { place, person, runsPlace }: Asker): Payload {
  const who: Person = { id: user(person), ...(runsPlace ? { permissions: '32' } : {}) };
  return slash(who, command, told, action ?? undefined, { server: server(place) });
}

/** Interactions as signed requests, to any of the processes that are up. */
export function discordHttp(wires: Wires): Front {
  const { double, ports, count, chance } = wires;
  const { publicKey, sign } = keys();
  const { api, ...rest } = common(wires);

  const signed = (body: string) => {
    const { timestamp, signature } = sign(body);
    return { 'x-signature-timestamp': timestamp, 'x-signature-ed25519': signature };
  };
  /** Sends a payload once; gives the first answer. */
  const send = async (payload: Payload, which: number): Promise<{ readonly type: number } | null> => {
    const port = oneOf(ports(), which);
    const body = JSON.stringify(payload);
    const reply = port === undefined ? null : await post(port, '/interactions', signed(body), body);
    return reply?.status === 200 ? (JSON.parse(reply.text) as { readonly type: number }) : null;
  };

  return {
    ...rest,
    name: 'Discord over HTTP',
    count,
    env: { ...api, DISCORD_MODE: 'http', DISCORD_PUBLIC_KEY: publicKey, DISCORD_PORT: '0', DISCORD_TOKEN },
    ask: async (deed, asker, again) => {
      const payload = payloadOf(deed, asker);
      const fromMs = performance.now();
      const { once, twin } = sent(again, chance, (which) => send(payload, which));
      const answers = await Promise.race([
        Promise.all([once, twin]),
        wait(PATIENCE_MS, [null, null] as const, { ref: false }),
      ]);
      const came = answers.filter((each) => each !== null);
      const firstMs = performance.now() - fromMs;
      if (came.length === 0) return nothing(processesOf(again, count));
      const plain = came.filter(({ type }) => !ANNOUNCED.includes(type));
      if (plain.length === came.length) return shown(JSON.stringify(plain), firstMs, firstMs, again, count);
      const words = await until(() => wordsOf(bodiesOf(double, payload), false), PATIENCE_MS);
      const wordsMs = performance.now() - fromMs;
      return shown(words === null ? null : JSON.stringify(plain) + words, firstMs, wordsMs, again, count);
    },
    garbage: async (which) => {
      const port = oneOf(ports(), which);
      if (port === undefined) return null;
      return badRequests({ port, path: '/interactions', signed, strange: strangePayloads() }, which);
    },
  };
}

/** Interactions over the gateway, told to one of the sessions of the shard. */
export function discordGateway(wires: Wires): Front {
  const { double, count, chance } = wires;
  const { api, ...rest } = common(wires);
  return {
    ...rest,
    name: 'Discord over the gateway',
    count,
    env: { ...api, DISCORD_MODE: 'gateway', DISCORD_TOKEN },
    ask: async (deed, asker, again) => {
      const payload = payloadOf(deed, asker);
      const fromMs = performance.now();
      sent(again, chance, (which) => double.dispatch(payload, 0, which));
      const first = await until(() => double.sentFor(payload)[0] ?? null, PATIENCE_MS);
      const firstMs = performance.now() - fromMs;
      if (first === null) return nothing(processesOf(again, count));
      const announced = ANNOUNCED.includes(first.body.type);
      const words = await until(
        () =>
          wordsOf(
            double.sentFor(payload).map(({ body }) => body),
            announced,
          ),
        PATIENCE_MS,
      );
      return shown(words, firstMs, performance.now() - fromMs, again, count);
    },
    garbage: async (which) => {
      double.dispatch(oneOf(strangePayloads(), which) as unknown as Payload, 0, which);
      return null;
    },
  };
}

/** Interactions that are JSON, and none that the platform would send. */
function strangePayloads(): readonly unknown[] {
  const id = String(BigInt(Date.now()) << 22n);
  return [
    null,
    [],
    { type: 2 },
    { type: 99, id, token: 't', application_id: '1' },
    { type: 2, id: 5, token: {}, data: 'zq' },
    { type: 3, id, token: 't', application_id: '1', data: { custom_id: 'x'.repeat(5000) } },
    { type: 5, id, token: 't', application_id: '1', data: { custom_id: '1|tell|convert', components: 'none' } },
    { type: 2, id: '-1', token: 't', application_id: '1', data: { name: '__proto__', options: [{ name: {} }] } },
  ];
}

function nothing(processes: number): Shown {
  return { words: '', firstMs: null, wordsMs: null, processes };
}

function shown(words: string | null, firstMs: number, wordsMs: number, again: Again, count: number): Shown {
  const processes = processesOf(again, count);
  return words === null ? { ...nothing(processes), firstMs } : { words, firstMs, wordsMs, processes };
}
