import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { wantedCommands } from '../../adapters/discord/commands.ts';
import { type Double, openDouble } from '../support/discord-double.ts';
import { ANN, slash } from '../support/discord-payloads.ts';
import { until } from '../support/until.ts';

const PROGRAM = fileURLToPath(new URL('../../adapters/discord/main.ts', import.meta.url));
const TOKEN = 'a-made-up-token-of-a-bot';

let double: Double;
const folder = mkdtempSync(join(tmpdir(), 'ringwright-discord-'));
beforeAll(async () => {
  double = await openDouble();
});
afterAll(async () => {
  await double.close();
  rmSync(folder, { recursive: true, force: true });
});

function start(args: readonly string[], env: Readonly<Record<string, string>>) {
  const child = spawn(process.execPath, [PROGRAM, ...args], {
    env: { PATH: process.env.PATH ?? '', DISCORD_API: double.api, ...env },
  });
  let output = '';
  child.stdout.setEncoding('utf8').on('data', (text: string) => {
    output += text;
  });
  child.stderr.setEncoding('utf8').on('data', (text: string) => {
    output += text;
  });
  const ended = new Promise<number | null>((resolve) => child.on('close', resolve));
  return { child, ended, output: () => output };
}

async function registered(...args: readonly string[]) {
  const { ended, output } = start(['register', ...args], {
    DISCORD_TOKEN: TOKEN,
    DISCORD_APPLICATION_ID: '900000000000000001',
  });
  return { code: await ended, output: output() };
}

describe('the program', () => {
  it('registers once, shows first what it would do, and then finds nothing more to do', async () => {
    const dry = await registered('--dry-run');
    expect(dry.code).toBe(0);
    expect(dry.output).toContain('add      /convert');
    expect(dry.output).toContain('Nothing was changed');
    expect(double.commands()).toEqual([]);
    const first = await registered();
    expect(first.output).toContain('Registered. (everywhere)');
    expect(double.commands().length).toBe(wantedCommands().length);
    const again = await registered('--server=100000000000000001');
    expect(again.output).toContain('Nothing to do. (in one server)');
    expect(double.byBot.filter(({ method }) => method === 'PUT').length).toBe(1);
  });

  it('answers until it is told to end, and ends with nothing left open', async () => {
    const { child, ended, output } = start([], { DISCORD_TOKEN: TOKEN, RINGWRIGHT_DATA: folder });
    const payload = slash(ANN, 'convert', { setup: '36/22 11-36 104bcd my-secret-words' });
    await until(() => output().includes('"answering"'));
    double.dispatch(payload);
    await until(() => double.sentFor(payload).length > 0);
    expect(double.sentFor(payload)[0]?.body).toMatchObject({ type: 4 });
    child.kill('SIGTERM');
    expect(await ended).toBe(0);
    expect(output()).toContain('"ended"');
    expect(output()).not.toContain(TOKEN);
    expect(output()).not.toContain('my-secret-words');
  });

  it('says in one line what is missing, and nothing of what is there', async () => {
    const { ended, output } = start([], { DISCORD_MODE: 'http', DISCORD_TOKEN: 'my-secret-token-of-a-bot' });
    expect(await ended).toBe(1);
    expect(output()).toMatch(/^Ringwright on Discord: DISCORD_PUBLIC_KEY is missing/);
    expect(output().trim().split('\n').length).toBe(1);
    expect(output()).not.toContain('my-secret');
  });
});
