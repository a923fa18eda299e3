import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Doubles } from './doubles.ts';
import { openPeer } from './peer.ts';
import { median, type Row } from './row.ts';

/** Goal of whoever ordered the program: ready within this many times the import of the platform's library alone. */
const GOAL_RATIO = 1.5;
/** A process is started anew so often, ours and the bare one by turns; its median is taken. */
const PROCESSES = 15;

type Env = Readonly<Record<string, string>>;
type Program = {
  readonly what: string;
  readonly main: string;
  readonly library: string;
  readonly env: Env;
  readonly limitedBy: string;
};

function programsAt({ discordApi, slackApi }: Doubles): readonly Program[] {
  const discord = { main: 'discord', library: 'discord.js' };
  const slack = { main: 'slack', library: '@slack/bolt' };
  const token = { DISCORD_API: discordApi, DISCORD_TOKEN: 'a-made-up-token-of-a-bot' };
  const workspace = { SLACK_API: slackApi, SLACK_BOT_TOKEN: 'xoxb-made-up' };
  return [
    {
      ...discord,
      what: 'Discord over the gateway, connected',
      env: token,
      limitedBy:
        'reading and linking 900 files, of which the query builder is a quarter; the session at the double is within the time',
    },
    {
      ...discord,
      what: 'Discord over HTTP, listening',
      env: { ...token, DISCORD_MODE: 'http', DISCORD_PORT: '0', DISCORD_PUBLIC_KEY: 'd75a'.repeat(16) },
      limitedBy: 'reading and linking 900 files, of which the query builder is a quarter',
    },
    {
      ...slack,
      what: 'Slack over a socket, connected',
      env: { ...workspace, SLACK_APP_TOKEN: 'xapp-made-up' },
      limitedBy:
        '600 files besides the 500 of Bolt: the query builder, our own, the reader of shapes; a socket opened at the double',
    },
    {
      ...slack,
      what: 'Slack over HTTP, listening',
      env: { ...workspace, SLACK_MODE: 'http', SLACK_PORT: '0', SLACK_SIGNING_SECRET: 'made-up'.repeat(4) },
      limitedBy: '600 files besides the 500 of Bolt: the query builder, our own, the reader of shapes',
    },
  ];
}

/**
 * From the start of a process to the line that says it answers, against a process that does no more than import the
 * platform's library. Both find what they compile kept from an earlier start, or both do not. What is kept about people
 * is there already, as after any start but the first. The platforms are in another process.
 */
export async function measureStarts(processes = PROCESSES): Promise<readonly Row[]> {
  const folder = mkdtempSync(join(tmpdir(), 'ringwright-bench-'));
  const doubles = await openPeer<Doubles>('./doubles.ts');
  const rows: Row[] = [];
  try {
    for (const { what, main, library, env, limitedBy } of programsAt(doubles.told)) {
      const ours = [fileURLToPath(new URL(`../../adapters/${main}/main.ts`, import.meta.url))];
      const bare = ['--input-type=module', '-e', `await import('${library}'); console.log('"answering"');`];
      for (const kept of [true, false]) {
        const cache: Env = kept
          ? { NODE_COMPILE_CACHE: join(folder, 'compiled') }
          : { NODE_DISABLE_COMPILE_CACHE: '1' };
        const shared = { ...cache, RINGWRIGHT_DATA: folder };
        const [ourMs, bareMs]: [number[], number[]] = [[], []];
        for (let round = kept ? -1 : 0; round < processes; round += 1) {
          const took = [await readyMs(ours, { ...env, ...shared }), await readyMs(bare, shared)] as const;
          // The first round of all fills what is kept.
          if (round < 0) continue;
          ourMs.push(took[0]);
          bareMs.push(took[1]);
        }
        const [measured, baseline] = [median(ourMs), median(bareMs)];
        rows.push({
          what: `${what}${kept ? '' : ', nothing compiled before'}`,
          measured: `${measured.toFixed(0)} ms`,
          baseline: `${baseline.toFixed(0)} ms, import of ${library}`,
          ratio: measured / baseline,
          goal: kept ? GOAL_RATIO : null,
          limitedBy: kept ? limitedBy : 'types taken off and compiled, file by file, at the first start only',
        });
      }
    }
  } finally {
    doubles.end();
    rmSync(folder, { recursive: true, force: true });
  }
  return rows;
}

/** How long a process takes until it says that it answers; then it is ended. */
async function readyMs(args: readonly string[], env: Env): Promise<number> {
  const from = performance.now();
  const child = spawn(process.execPath, args, { env: { PATH: process.env.PATH, ...env }, stdio: 'pipe' });
  const ended = once(child, 'close');
  const tookMs = (await said(child, '"answering"')) - from;
  // With the signal, as whoever looks after it would: what it compiled is kept at an orderly end.
  child.kill('SIGTERM');
  await ended;
  return tookMs;
}

function said(child: ChildProcess, words: string): Promise<number> {
  return new Promise((resolve, reject) => {
    let output = '';
    const hear = (data: Buffer) => {
      output += data.toString();
      if (output.includes(words)) resolve(performance.now());
    };
    child.stdout?.on('data', hear);
    child.stderr?.on('data', hear);
    child.once('close', () => reject(new Error(`The measured process ended: ${output}`)));
  });
}
