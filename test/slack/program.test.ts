import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Double, openDouble, SIGNING_SECRET, signedRequest } from '../support/slack-double.ts';
import { slash } from '../support/slack-payloads.ts';
import { until } from '../support/until.ts';

const MAIN = join(import.meta.dirname, '../../adapters/slack/main.ts');
const folder = mkdtempSync(join(tmpdir(), 'ringwright-slack-'));
let double: Double;
beforeAll(async () => {
  double = await openDouble();
});
afterAll(async () => {
  await double.close();
  rmSync(folder, { recursive: true, force: true });
});

/** The program as `npm run slack` starts it, with these settings and no others. */
function started(env: Readonly<Record<string, string>>, args: readonly string[] = []) {
  const child = spawn(process.execPath, [MAIN, ...args], {
    env: { PATH: process.env.PATH, RINGWRIGHT_DATA: folder, ...env },
  });
  let said = '';
  child.stdout.on('data', (data) => {
    said += String(data);
  });
  child.stderr.on('data', (data) => {
    said += String(data);
  });
  const ended = new Promise<number | null>((done) => child.on('exit', done));
  return { said: () => said, ended, end: () => child.kill('SIGTERM') };
}

describe('the program', () => {
  it('answers over a socket and ends when it is told to', async () => {
    const program = started({ SLACK_API: double.api, SLACK_APP_TOKEN: 'xapp-secret', SLACK_BOT_TOKEN: 'xoxb-secret' });
    await until(() => double.connections() === 1, 20_000);
    const reply = await double.send(
      'slash_commands',
      slash({ user: 'UANN' }, 'convert 36/22 11-36 my words', double.newAddress()),
    );
    expect(reply).toMatchObject({ text: expect.any(String) });
    program.end();
    expect(await program.ended).toBe(0);
    expect(program.said()).toContain('"msg":"answering"');
    expect(program.said()).not.toMatch(/secret|my words|36\/22/);
  });

  it('answers over HTTP', async () => {
    const port = 20_000 + (process.pid % 20_000);
    const program = started({
      SLACK_MODE: 'http',
      SLACK_API: double.api,
      SLACK_SIGNING_SECRET: SIGNING_SECRET,
      SLACK_BOT_TOKEN: 'xoxb-secret',
      SLACK_PORT: String(port),
    });
    await until(() => program.said().includes('answering'), 20_000);
    const request = signedRequest(slash({ user: 'UANN' }, 'help', double.newAddress()));
    const response = await fetch(`http://127.0.0.1:${port}/slack/events`, request);
    expect(await response.json()).toMatchObject({ response_type: 'ephemeral' });
    program.end();
    expect(await program.ended).toBe(0);
  });

  it('says what is missing, and shows no secret', async () => {
    const program = started({ SLACK_BOT_TOKEN: 'xoxp-secret' });
    expect(await program.ended).toBe(1);
    expect(program.said()).toContain('SLACK_BOT_TOKEN begins with xoxb-');
    expect(program.said()).not.toContain('xoxp-secret');
  });

  it('prints a manifest for the address it is given, and nothing else', async () => {
    const program = started({}, ['manifest', 'https://shop.example.org']);
    expect(await program.ended).toBe(0);
    expect(JSON.parse(program.said())).toMatchObject({
      settings: { interactivity: { request_url: 'https://shop.example.org/slack/events' } },
    });
    const wrong = started({}, ['manifest', 'http://shop.example.org/x']);
    expect(await wrong.ended).toBe(1);
  });
});
