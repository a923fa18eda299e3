import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { openRecords } from '../../adapters/storage/open.ts';

const PROGRAM = join(import.meta.dirname, '../../adapters/start/main.ts');
const folder = mkdtempSync(join(tmpdir(), 'ringwright-doctor-'));
const tokenFile = join(folder, 'token');
writeFileSync(tokenFile, 'xoxb-made-up\n');
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Two platforms that are set up, each complete in itself. */
const BOTH = {
  DISCORD_TOKEN: 'a-made-up-token-of-a-bot',
  SLACK_APP_TOKEN: 'xapp-made-up',
  SLACK_BOT_TOKEN_FILE: tokenFile,
};

function ran(args: readonly string[], env: Readonly<Record<string, string>>) {
  const { status, stdout, stderr } = spawnSync(process.execPath, [PROGRAM, ...args], {
    encoding: 'utf8',
    env: { PATH: process.env.PATH, RINGWRIGHT_DATA: folder, ...env },
  });
  return { status, said: `${stdout}${stderr}` };
}

describe('the doctor', () => {
  it('counts a secret in a file as told, and tells where to get what is missing', () => {
    const { status, said } = ran(['doctor'], BOTH);
    expect(status).toBe(0);
    expect(said).toContain('good      Slack: its settings are complete');
    expect(said).toContain('good      SLACK_BOT_TOKEN: is set, in a file');
    expect(said).toMatch(/optional {2}SLACK_SIGNING_SECRET: missing: .*; from: .*"Signing Secret"/);
    expect(said).not.toContain('made-up');
  });

  it('asks about a name that is nearly a setting, and holds it for no fault', () => {
    const { status, said } = ran(['doctor'], { DISCORD_TOKN: 'made-up' });
    expect(status).toBe(0);
    expect(said).toContain('doubtful  DISCORD_TOKN: is not a setting; did you mean DISCORD_TOKEN?');
    expect(said).not.toContain('made-up');
  });

  it('leaves tables to the programs, and sees them once they are there', async () => {
    const where = { path: join(folder, 'apart', 'records.db') };
    const apart = { RINGWRIGHT_DATA: join(folder, 'apart') };
    for (const looks of [1, 2]) {
      const { status, said } = ran(['doctor'], apart);
      expect(status, String(looks)).toBe(0);
      expect(said).toMatch(/good {6}Storage: .*records\.db can be opened and written; its tables are still to be made/);
    }
    await (await openRecords(where)).close();
    expect(ran(['doctor'], apart).said).toMatch(/good {6}Storage: .*records\.db can be opened and written$/m);
  });

  it('says why a file with a secret cannot be had, wherever it is missed', () => {
    const { status, said } = ran(['doctor'], { ...BOTH, DATABASE_URL_FILE: join(folder, 'nothing') });
    expect(status).toBe(1);
    expect(said).toContain('WRONG     Storage: DATABASE_URL_FILE names a file that is not there');
    expect(said).toContain('WRONG     Discord: DATABASE_URL_FILE names a file that is not there');
    expect(said).not.toContain(folder);
  });
});

describe('two platforms started beside each other', () => {
  it.each([['doctor'], []])('are not watched at one port: %s', (...args) => {
    const { status, said } = ran(args, { ...BOTH, WATCH_PORT: '9464' });
    expect(status).toBe(1);
    expect(said).toContain('WATCH_PORT is one port and several programs would be watched at it');
  });

  it('may each be watched at a port that is free, and one alone at any', () => {
    expect(ran(['doctor'], { ...BOTH, WATCH_PORT: '0' }).status).toBe(0);
    expect(ran(['doctor'], { DISCORD_TOKEN: BOTH.DISCORD_TOKEN, WATCH_PORT: '9464' }).status).toBe(0);
  });
});
