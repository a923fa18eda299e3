import { DatabaseSync } from 'node:sqlite';
import { setTimeout as wait } from 'node:timers/promises';
import type { CuttingProxy } from '../support/cutting-proxy.ts';
import type { Double as DiscordDouble } from '../support/discord-double.ts';
import type { PostgresServer } from '../support/postgres.ts';
import { crash, holdUp } from '../support/postgres-trouble.ts';
import type { Double as SlackDouble } from '../support/slack-double.ts';
import type { Trouble, TroubledProxy } from '../support/troubled-proxy.ts';
import type { Chance } from './chance.ts';
import { type Crew, KILLED, SHUT_OUT, TOLD_TO_END } from './crew.ts';
import { until } from './waiting.ts';
import { STORAGE, type Weather } from './weather.ts';

/** Everything that can be broken. */
export type Stage = {
  readonly crews: readonly Crew[];
  readonly discord: { readonly double: DiscordDouble; readonly proxy: TroubledProxy };
  readonly slack: { readonly double: SlackDouble; readonly proxy: TroubledProxy };
  readonly storage:
    | { readonly kind: 'PostgreSQL'; readonly server: PostgresServer; readonly proxy: CuttingProxy }
    | { readonly kind: 'SQLite'; readonly path: string };
  readonly weather: Weather;
  readonly chance: Chance;
  /** How long something stays broken. */
  readonly brokenMs: { readonly low: number; readonly high: number };
};

/** Breaks one thing, and makes it whole again. */
export type Breakage = { readonly kind: string; readonly run: (stage: Stage) => Promise<void> };

/** A client tries again for about so long after its platform is well: a second to wait, and the tries before. */
const AFTERWARDS_MS = 3000;
/** Of the requests in trouble, so many meet it. */
const SHARE = 0.5;

function while_({ chance, brokenMs }: Stage): Promise<void> {
  return wait(chance.between(brokenMs.low, brokenMs.high));
}

async function ofStorage(kind: string, stage: Stage, work: () => Promise<void>): Promise<void> {
  const end = stage.weather.begin(kind, STORAGE, AFTERWARDS_MS);
  await work();
  end();
}

/** Breakages of a PostgreSQL server and of the way to it. */
const POSTGRES: Readonly<Record<string, (stage: Stage, server: PostgresServer, proxy: CuttingProxy) => Promise<void>>> =
  {
    'PostgreSQL stopped and started': async (stage, server) => {
      await server.stop();
      await while_(stage);
      await server.start();
    },
    'PostgreSQL killed and started': async (stage, server) => {
      await crash(server);
      await while_(stage);
      await server.start();
    },
    'PostgreSQL held up': async (stage, server) => {
      const goOn = holdUp(server);
      await while_(stage);
      await while_(stage);
      goOn();
    },
    'connections to PostgreSQL cut': async (stage, _, proxy) => {
      for (let times = stage.chance.between(1, 4); times > 0; times -= 1) {
        proxy.cut();
        await wait(stage.chance.between(20, 300));
      }
    },
    'connections to PostgreSQL silent, then cut': async (stage, _, proxy) => {
      proxy.hold(true);
      await while_(stage);
      await while_(stage);
      proxy.cut();
      proxy.hold(false);
    },
    'connections to PostgreSQL cut at saving': async (stage, _, proxy) => {
      proxy.cutAtSaving(stage.chance.between(2, 6));
      await while_(stage);
      proxy.cutAtSaving(0);
    },
  };

const SQLITE: Readonly<Record<string, (stage: Stage, path: string) => Promise<void>>> = {
  'file locked by somebody else': async (stage, path) => {
    const db = new DatabaseSync(path, { timeout: 5000 });
    db.exec('begin immediate');
    await while_(stage);
    await while_(stage);
    db.exec('rollback');
    db.close();
  },
};

/** The breakages of each engine. */
export const STORAGE_BREAKAGES: readonly (Breakage & { readonly engine: Stage['storage']['kind'] })[] = [
  ...Object.entries(POSTGRES).map(([kind, run]) => ({
    kind,
    engine: 'PostgreSQL' as const,
    run: async (stage: Stage) => {
      const { storage } = stage;
      if (storage.kind === 'PostgreSQL') {
        await ofStorage(kind, stage, () => run(stage, storage.server, storage.proxy));
      }
    },
  })),
  ...Object.entries(SQLITE).map(([kind, run]) => ({
    kind,
    engine: 'SQLite' as const,
    run: async (stage: Stage) => {
      const { storage } = stage;
      if (storage.kind === 'SQLite') await ofStorage(kind, stage, () => run(stage, storage.path));
    },
  })),
];

/** Breaks what reaches some of the ways in. */
async function reaching(kind: string, stage: Stage, reach: (crew: Crew) => boolean, work: () => Promise<void>) {
  const ends = stage.crews.filter(reach).map(({ front }) => stage.weather.begin(kind, front.name, AFTERWARDS_MS));
  await work();
  for (const end of ends) end();
}

function ofProcess(kind: string, farewell: typeof KILLED): Breakage {
  return {
    kind,
    run: async (stage) => {
      const { chance } = stage;
      const crew = chance.pick(stage.crews);
      await reaching(
        kind,
        stage,
        (each) => each === crew,
        () => crew.change(chance.between(0, 9), farewell, chance.between(0, 500)),
      );
    },
  };
}

const REFUSALS: Readonly<Record<string, Trouble>> = {
  'the platform answers 429': {
    kind: 'refuse',
    status: 429,
    headers: { 'retry-after': '1', 'x-ratelimit-scope': 'user' },
    body: JSON.stringify({ message: 'You are being rate limited.', retry_after: 1, global: false }),
  },
  'the platform answers 429 for everything': {
    kind: 'refuse',
    status: 429,
    headers: { 'retry-after': '1', 'x-ratelimit-global': 'true', 'x-ratelimit-scope': 'global' },
    body: JSON.stringify({ message: 'You are being rate limited.', retry_after: 1, global: true }),
  },
  'the platform answers 500': { kind: 'refuse', status: 500, body: '{"message":"500: Internal Server Error"}' },
  'the platform answers 502': { kind: 'refuse', status: 502, body: '<html>Bad Gateway</html>' },
  'the platform hangs': { kind: 'hang', ms: 1500 },
  'the platform cuts before it hears': { kind: 'cut', when: 'before' },
  'the platform cuts in its answer': { kind: 'cut', when: 'halfway' },
  'the platform cuts after it heard': { kind: 'cut', when: 'after' },
};

function ofPlatform(kind: string, trouble: Trouble, onlyPath: RegExp | null = null): Breakage {
  return {
    kind,
    run: async (stage) => {
      const { chance } = stage;
      const platform = onlyPath === null ? chance.pick(['discord', 'slack'] as const) : 'slack';
      const { proxy } = stage[platform];
      await reaching(
        `${kind}`,
        stage,
        ({ front }) => front.platform === platform,
        async () => {
          proxy.meet((path) => ((onlyPath?.test(path) ?? true) && chance.happens(SHARE) ? trouble : null));
          await while_(stage);
          proxy.meet(() => null);
        },
      );
    },
  };
}

/** A session is back within seconds; one that the platform has put on hold for long is a matter of its own. */
const BACK_MS = 20_000;

const GATEWAY = 'Discord over the gateway';
const SOCKET = 'Slack over a socket';

/** A line to the platform: how many are there, and how often one was ever begun or gone on with. */
const LINES = {
  [GATEWAY]: ({ discord: { double } }: Stage) => ({ now: double.connections(), ever: double.sessions.length }),
  [SOCKET]: ({ slack: { double } }: Stage) => ({ now: double.connections(), ever: double.connects.length }),
} as const;

function ofLine(kind: string, name: keyof typeof LINES, work: (stage: Stage) => void | Promise<void>): Breakage {
  return {
    kind,
    run: (stage) =>
      reaching(
        kind,
        stage,
        ({ front }) => front.name === name,
        async () => {
          const look = () => LINES[name](stage);
          const count = stage.crews.find(({ front }) => front.name === name)?.front.count ?? 0;
          const before = look().ever;
          await work(stage);
          await until(() => (look().now >= count && look().ever >= before + count ? true : null), BACK_MS);
        },
      ),
  };
}

/** Breakages of processes and of what the platforms do. */
export const OTHER_BREAKAGES: readonly Breakage[] = [
  ofProcess('a process killed (kill -9)', KILLED),
  ofProcess('a process told to end (SIGTERM)', TOLD_TO_END),
  ...Object.entries(REFUSALS).map(([kind, trouble]) => ofPlatform(kind, trouble)),
  ofPlatform('addresses for answers expired', { kind: 'refuse', status: 404, body: 'used_url' }, /^\/actions\//),
  ofLine('gateway session broken (4000)', GATEWAY, ({ discord }) => discord.double.drop(4000)),
  ofLine('gateway told to connect anew (op 7)', GATEWAY, ({ discord }) => discord.double.tell(7, null)),
  ofLine('gateway session not valid (op 9)', GATEWAY, ({ discord }) => discord.double.tell(9, false)),
  ofLine('gateway socket cut', GATEWAY, ({ discord }) => discord.proxy.cut()),
  ofLine('gateway heartbeats unheard', GATEWAY, async ({ discord }) => {
    discord.double.hear(false);
    await wait(2 * HEARTBEAT_MS + 500);
    discord.double.hear(true);
  }),
  ofLine('gateway shuts a program out (4014)', GATEWAY, async ({ crews, discord }) => {
    const crew = crews.find(({ front }) => front.name === GATEWAY);
    const before = crew?.serving() ?? [];
    // Whoever is just connecting anew is shut out as soon as it has.
    const shutting = setInterval(() => discord.double.drop(4014), 200);
    await Promise.race([Promise.all(before.map((each) => each.ended)), wait(BACK_MS)]);
    clearInterval(shutting);
    await Promise.all(before.map((_, at) => crew?.change(at, SHUT_OUT, 100)));
  }),
  ofLine('socket told to connect anew', SOCKET, ({ slack }) => slack.double.disconnect()),
  ofLine('socket cut', SOCKET, ({ slack }) => slack.proxy.cut()),
];

/** How often a session says that it is there, in the doubles of a run: soon, so that silence is noticed soon. */
export const HEARTBEAT_MS = 2000;
