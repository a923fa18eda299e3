import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { connect } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type ChildProgram, startProgram } from '../support/child-program.ts';
import { type Double as Discord, openDouble as openDiscord } from '../support/discord-double.ts';
import { ANN, BOB, type Payload, slash, typing } from '../support/discord-payloads.ts';
import { keys, posted } from '../support/discord-transports.ts';
import { type Exposition, readExposition } from '../support/exposition.ts';
import {
  openDouble as openSlack,
  SIGNING_SECRET,
  type Double as Slack,
  signedRequest,
} from '../support/slack-double.ts';
import { slash as slackSlash } from '../support/slack-payloads.ts';
import { until } from '../support/until.ts';

const file = (path: string) => fileURLToPath(new URL(`../../adapters/${path}`, import.meta.url));
const TOKEN = 'a-made-up-token-of-a-bot';
const LINE = '2x10 36/22 11-36 29er hardtail 104bcd';
/** A word that no program of ours says by itself. */
const MARKED = 'xylophonist';
const STARTING_MS = 30_000;

const folder = mkdtempSync(join(tmpdir(), 'ringwright-watch-'));
const { publicKey, sign } = keys();
let discord: Discord;
let slack: Slack;
const started: ChildProgram[] = [];

beforeAll(async () => {
  discord = await openDiscord();
  slack = await openSlack();
});
afterAll(async () => {
  for (const each of started) each.kill('SIGKILL');
  await discord.close();
  await slack.close();
  rmSync(folder, { recursive: true, force: true });
});

/** A program that is watched, and how to look at it. */
function watchedProgram(platform: 'discord' | 'slack', env: Readonly<Record<string, string>>) {
  const program = startProgram(file(`${platform}/main.ts`), {
    LOG_LEVEL: 'debug',
    RINGWRIGHT_DATA: join(folder, `${started.length}`),
    WATCH_PORT: '0',
    DISCORD_API: discord.api,
    SLACK_API: slack.api,
    ...env,
  });
  started.push(program);
  const look = (path: string) => {
    const port = /"watchPort":(\d+)/.exec(program.stdout())?.[1];
    return fetch(`http://127.0.0.1:${port}${path}`);
  };
  return {
    ...program,
    look,
    counts: async (): Promise<Exposition> => readExposition(await (await look('/metrics')).text()),
    readiness: async () => {
      const response = await look('/readyz');
      return { status: response.status, ...((await response.json()) as object) };
    },
  };
}

const HTTP = { DISCORD_MODE: 'http', DISCORD_PUBLIC_KEY: publicKey, DISCORD_PORT: '0' };

async function say(program: ChildProgram, payload: Payload): Promise<string> {
  const response = await posted(program.port() ?? 0, sign(JSON.stringify(payload)));
  return `${response.status} ${await response.text()}`;
}

/** Waits until a look at the program gives what is expected. */
async function comes(look: () => Promise<boolean>): Promise<void> {
  for (const endMs = Date.now() + STARTING_MS; !(await look()); ) {
    if (Date.now() > endMs) throw new Error('it never came to hold');
    await new Promise((resolve) => setTimeout(resolve, 25));
  }
}

describe('Discord over HTTP, watched', () => {
  it('counts what it was asked, and neither logs nor shows what anybody typed', async () => {
    const program = watchedProgram('discord', { ...HTTP, DISCORD_TOKEN: TOKEN });
    await program.ready;
    expect(await program.readiness()).toMatchObject({ status: 200, ready: true, answers: 'everything' });
    for (const more of ['', ' clutch', ` ${MARKED}`]) {
      expect(await say(program, slash(ANN, 'convert', { setup: LINE + more }))).toMatch(/^200 /);
    }
    const twice = slash(BOB, 'gears', { setup: LINE });
    await say(program, twice);
    expect(await say(program, twice)).toBe('400 ');
    await say(program, slash(BOB, 'bike', { name: MARKED, setup: LINE }, 'save'));
    await say(program, slash(BOB, MARKED, { setup: MARKED }));
    await say(program, typing(BOB, 'convert', 'wheel', MARKED));
    const counts = await program.counts();
    const answers = (command: string) => counts.sum('ringwright_answers_total', { platform: 'discord', command });
    expect([answers('convert'), answers('gears'), answers('bike')]).toEqual([3, 1, 1]);
    expect(counts.sum('ringwright_answers_total')).toBe(5);
    expect(counts.value('ringwright_answer_seconds_count', { command: 'convert' })).toBe(3);
    const sent = (labels: Readonly<Record<string, string>>) =>
      counts.sum('ringwright_interactions_total', { platform: 'discord', ...labels });
    expect(sent({ kind: 'command', outcome: 'repeated' })).toBe(1);
    expect(sent({ kind: 'command' })).toBe(7);
    expect(sent({ kind: 'typing', outcome: 'answered' })).toBe(1);
    expect(counts.sum('ringwright_store_seconds_count', { operation: 'receipts.keep' })).toBeGreaterThanOrEqual(4);
    expect(counts.sum('ringwright_store_errors_total')).toBe(0);
    expect(counts.value('ringwright_ready')).toBe(1);
    expect(counts.value('process_resident_memory_bytes')).toBeGreaterThan(0);

    const lines = program
      .stdout()
      .trim()
      .split('\n')
      .map((line) => JSON.parse(line) as Record<string, unknown>);
    const questions = lines.filter(({ msg }) => msg === 'a question was answered');
    expect(questions.map(({ command }) => command)).toEqual(['convert', 'convert', 'convert', 'gears', 'bike']);
    expect(new Set(questions.map(({ logId }) => logId)).size).toBe(5);
    const seen = program.stdout() + program.stderr() + (await (await program.look('/metrics')).text());
    expect(seen).not.toMatch(new RegExp(`${MARKED}|${TOKEN}|36/22|100000000000000001|${ANN.id}`, 'i'));
  });

  it('is not ready from the moment its end begins, and answers health until it is over', async () => {
    const program = watchedProgram('discord', HTTP);
    await program.ready;
    // A request whose body is still on its way holds the end up, as a slow answer would.
    const slow = connect(program.port() ?? 0, '127.0.0.1');
    slow.on('error', () => undefined);
    slow.write('POST /interactions HTTP/1.1\r\nHost: here\r\nContent-Length: 100\r\n\r\n{');
    await comes(async () => (await program.counts()).value('ringwright_under_way', { platform: 'discord' }) === 1);
    program.kill('SIGTERM');
    await comes(async () => (await program.readiness()).status === 503);
    expect(await program.readiness()).toMatchObject({ ready: false, ending: true, platform: 'up' });
    expect((await program.look('/healthz')).status).toBe(200);
    slow.destroy();
    expect(await program.ended).toEqual({ code: 0, signal: null });
    expect(program.stdout()).toContain('"ended"');
    expect(program.stderr()).toBe('');
  });

  it('stays ready and answers what is told in the question while storage is away', async () => {
    const taken = join(folder, 'a-file');
    writeFileSync(taken, '');
    const program = watchedProgram('discord', { ...HTTP, RINGWRIGHT_DATA: join(taken, 'data') });
    await program.ready;
    expect(await say(program, slash(ANN, 'convert', { setup: LINE }))).toContain('suits best');
    await say(program, slash(ANN, 'bike', {}, 'list'));
    expect(await program.readiness()).toMatchObject({
      status: 200,
      storage: 'away',
      tables: 'unknown',
      answers: 'what is told in the question',
    });
    const counts = await program.counts();
    expect(counts.value('ringwright_answers_total', { command: 'convert', outcome: 'answered' })).toBe(1);
    expect(counts.value('ringwright_answers_total', { command: 'bike', outcome: 'away' })).toBe(1);
    expect(counts.sum('ringwright_store_errors_total', { code: 'gone' })).toBeGreaterThan(0);
  });

  it('waits for tables that somebody else makes, and then is ready by itself', async () => {
    const env = { RINGWRIGHT_DATA: join(folder, 'waiting') };
    const program = watchedProgram('discord', { ...HTTP, ...env, DATABASE_MIGRATE: 'wait' });
    await program.ready;
    await comes(async () => (await program.readiness()).status === 503);
    expect(await program.readiness()).toMatchObject({ tables: 'waiting', storage: 'here', platform: 'up' });
    expect(await say(program, slash(ANN, 'convert', { setup: LINE }))).toContain('suits best');
    const { status } = spawnSync(process.execPath, [file('storage/migrate.ts')], { env: { ...process.env, ...env } });
    expect(status).toBe(0);
    await comes(async () => (await program.readiness()).status === 200);
  });

  it('opens no port where none is told', async () => {
    const program = watchedProgram('discord', { ...HTTP, WATCH_PORT: '' });
    await program.ready;
    expect(program.stdout()).not.toContain('watchPort');
  });
});

describe('Discord over the gateway, watched', () => {
  it('shows every shard, counts what the platform refuses, and is not ready once a shard is lost', async () => {
    const own = await openDiscord();
    const program = watchedProgram('discord', {
      DISCORD_API: own.api,
      DISCORD_TOKEN: TOKEN,
      DISCORD_SHARD_COUNT: '2',
    });
    await program.ready;
    await comes(async () => (await program.readiness()).status === 200);
    const before = await program.counts();
    expect([0, 1].map((shard) => before.value('ringwright_shard_up', { shard: `${shard}` }))).toEqual([1, 1]);
    own.refuse('/interactions/', 404, 10062);
    own.dispatch(slash(ANN, 'help'));
    const faults = async () => (await program.counts()).value('ringwright_platform_faults_total', { code: '10062' });
    await comes(async () => (await faults()) === 1);
    own.refuse('/interactions/', 500, 0, 1);
    const later = slash(BOB, 'help');
    own.dispatch(later);
    await until(() => own.sentFor(later).length === 1);
    const after = await program.counts();
    expect(after.value('ringwright_platform_faults_total', { platform: 'discord', code: '500' })).toBe(1);
    await own.close();
    await comes(async () => (await program.readiness()).status === 503);
    expect(await program.readiness()).toMatchObject({ platform: 'down', storage: 'here', ending: false });
    expect((await program.counts()).sum('ringwright_shard_up')).toBe(0);
    expect((await program.look('/healthz')).status).toBe(200);
    program.kill('SIGKILL');
  });
});

describe('Slack, watched', () => {
  it('counts over HTTP what it was asked', async () => {
    const program = watchedProgram('slack', {
      SLACK_MODE: 'http',
      SLACK_SIGNING_SECRET: SIGNING_SECRET,
      SLACK_BOT_TOKEN: 'xoxb-secret',
      SLACK_PORT: '0',
    });
    await program.ready;
    const ask = async (text: string) => {
      const request = signedRequest(slackSlash({ user: 'UANN' }, text, slack.newAddress()));
      return (await fetch(`http://127.0.0.1:${program.port()}/slack/events`, request)).text();
    };
    expect(await ask(`convert ${LINE}`)).toContain('suits best');
    await ask(`${MARKED} is no bike`);
    const counts = await program.counts();
    expect(
      counts.value('ringwright_answers_total', { platform: 'slack', command: 'convert', outcome: 'answered' }),
    ).toBe(1);
    expect(counts.sum('ringwright_interactions_total', { platform: 'slack', kind: 'command' })).toBe(2);
    expect(await program.readiness()).toMatchObject({ status: 200, ready: true });
    const seen = program.stdout() + program.stderr() + (await (await program.look('/metrics')).text());
    expect(seen).not.toMatch(new RegExp(`${MARKED}|xoxb-|${SIGNING_SECRET}|36/22|UANN`, 'i'));
    program.kill('SIGTERM');
    expect(await program.ended).toEqual({ code: 0, signal: null });
  });

  it('is ready over a socket as long as it has one', async () => {
    const own = await openSlack();
    const env = { SLACK_API: own.api, SLACK_APP_TOKEN: 'xapp-secret', SLACK_BOT_TOKEN: 'xoxb-secret' };
    const program = watchedProgram('slack', env);
    await program.ready;
    await comes(async () => (await program.readiness()).status === 200);
    await own.close();
    await comes(async () => (await program.readiness()).status === 503);
    expect(await program.readiness()).toMatchObject({ platform: 'down' });
    program.kill('SIGKILL');
  });
});
