import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterAll, describe, expect, it } from 'vitest';
import { readConfig as readDiscord, readRegisterConfig } from '../../adapters/discord/config.ts';
import { type Env, type ReadSecret, readSecretFile } from '../../adapters/settings/secret-files.ts';
import { Settings } from '../../adapters/settings/settings.ts';
import { readConfig as readSlack } from '../../adapters/slack/config.ts';
import { readWhere } from '../../adapters/storage/config.ts';

const folder = mkdtempSync(join(tmpdir(), 'ringwright-settings-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const TOKEN = 'a-made-up-token-of-a-bot';
const KEY = 'ab'.repeat(32);

/** A disk in memory, under the names of its files. */
const disk =
  (files: Readonly<Record<string, string>>): ReadSecret =>
  (path) => {
    const text = files[path];
    return text === undefined ? { kind: 'not read', why: 'names a file that is not there' } : { kind: 'read', text };
  };

function faultOf(read: () => unknown): string {
  try {
    read();
  } catch (error) {
    if (error instanceof Error && error.name === 'ConfigError') return error.message;
    throw error;
  }
  return '';
}

describe('a secret', () => {
  it.each([
    ['as it is', 'a-made-up-token-of-a-bot'],
    ['with a newline at its end', 'a-made-up-token-of-a-bot\n'],
    ['with the newline of another system', 'a-made-up-token-of-a-bot\r\n'],
  ])('is read from a file, %s', (_, text) => {
    expect(readDiscord({ DISCORD_TOKEN_FILE: '/token' }, disk({ '/token': text }))).toMatchObject({ token: TOKEN });
  });

  it('is the same for every program, from a real file', () => {
    const path = join(folder, 'url');
    writeFileSync(path, 'postgresql://club@db/records\n');
    expect(readWhere({ DATABASE_URL_FILE: path }, readSecretFile)).toEqual({ url: 'postgresql://club@db/records' });
    expect(readDiscord({ DISCORD_TOKEN: TOKEN, DATABASE_URL_FILE: path }, readSecretFile).records).toEqual({
      url: 'postgresql://club@db/records',
    });
  });

  it('that is set twice is refused, whichever is the right one', () => {
    const env = { DISCORD_TOKEN: TOKEN, DISCORD_TOKEN_FILE: '/token' };
    expect(faultOf(() => readDiscord(env, disk({ '/token': TOKEN })))).toContain(
      'DISCORD_TOKEN_FILE and DISCORD_TOKEN are both set',
    );
  });

  it('is not taken from a file that is missing, empty, too long, a folder, or of the wrong shape', () => {
    const [empty, long, inside] = [join(folder, 'empty'), join(folder, 'long'), join(folder, 'inside')];
    writeFileSync(empty, '\n');
    writeFileSync(long, 'x'.repeat(131_073));
    mkdirSync(inside);
    const said = (path: string) => faultOf(() => readDiscord({ DISCORD_TOKEN_FILE: path }, readSecretFile));
    expect(said(join(folder, 'nothing'))).toMatch(/^DISCORD_TOKEN_FILE names a file that is not there\. /);
    expect(said(join(empty, 'nothing'))).toMatch(/^DISCORD_TOKEN_FILE names a file that is not there\. /);
    expect(said(empty)).toMatch(/^DISCORD_TOKEN_FILE names a file with nothing in it\. /);
    expect(said(long)).toMatch(/^DISCORD_TOKEN_FILE names a file of more than 131072 bytes\. /);
    expect(said(inside)).toMatch(/^DISCORD_TOKEN_FILE names something that is not a file\. /);
    writeFileSync(empty, 'short');
    expect(said(empty)).toMatch(/^DISCORD_TOKEN_FILE has at least 20 characters\. /);
  });

  it('is read once, and only by a program that has a use for it', () => {
    const read: string[] = [];
    const counting: ReadSecret = (path) => {
      read.push(path);
      return { kind: 'read', text: TOKEN };
    };
    readDiscord({ DISCORD_TOKEN_FILE: '/token', SLACK_BOT_TOKEN_FILE: '/other' }, counting);
    expect(read).toEqual(['/token']);
  });
});

describe('everything that is wrong', () => {
  it.each([
    [
      'on Discord',
      readDiscord,
      {
        DISCORD_MODE: 'http',
        DISCORD_PORT: '80800',
        DISCORD_TOKEN_FILE: '/nothing',
        LOG_LEVEL: 'loud',
        DATABASE_URL: 'mysql://x',
        DATABASE_MIGRATE: 'never',
        WATCH_PORT: '-1',
        DISCORD_API: 'ftp://x',
      },
      [
        'DISCORD_PUBLIC_KEY is missing',
        'DISCORD_PORT is a whole number from 0 to 65535',
        'DISCORD_TOKEN_FILE names a file that is not there',
        'LOG_LEVEL is debug, info, warn, error or silent',
        'DATABASE_URL is an address that begins with postgres:// or postgresql://',
        'DATABASE_MIGRATE is either start or wait',
        'WATCH_PORT is a whole number from 0 to 65535',
        'DISCORD_API is an address that begins with http',
      ],
    ],
    [
      'with shards told twice',
      readDiscord,
      { DISCORD_SHARDS: '0', DISCORD_ORDINAL: '0', LOG_LEVEL: 'loud' },
      [
        'DISCORD_TOKEN is missing',
        'DISCORD_SHARDS and DISCORD_ORDINAL both say which shards run here',
        'LOG_LEVEL is debug, info, warn, error or silent',
      ],
    ],
    [
      'with shards that count from nothing',
      readDiscord,
      { DISCORD_TOKEN: TOKEN, DISCORD_SHARDS_EACH: '2' },
      ['DISCORD_ORDINAL is missing'],
    ],
    [
      'with no shard left',
      readDiscord,
      { DISCORD_TOKEN: TOKEN, DISCORD_SHARD_COUNT: '4', DISCORD_SHARDS_EACH: '2', DISCORD_ORDINAL: '2' },
      ['DISCORD_ORDINAL leaves no shard below DISCORD_SHARD_COUNT'],
    ],
    [
      'with one port for two things',
      readDiscord,
      { DISCORD_MODE: 'http', DISCORD_PUBLIC_KEY: KEY, DISCORD_PORT: '9000', WATCH_PORT: '9000' },
      ['WATCH_PORT and DISCORD_PORT are the same port'],
    ],
    [
      'on Slack',
      readSlack,
      {
        SLACK_MODE: 'http',
        SLACK_BOT_TOKEN: 'xoxb-1',
        SLACK_CLIENT_SECRET_FILE: '/nothing',
        SLACK_PICTURES: 'address',
        SLACK_PORT: '9000',
        WATCH_PORT: '9000',
        DATABASE_MIGRATE: 'never',
      },
      [
        'SLACK_SIGNING_SECRET is missing',
        'SLACK_CLIENT_SECRET_FILE names a file that is not there',
        'SLACK_BOT_TOKEN is for one workspace, SLACK_CLIENT_ID for many; set either',
        'SLACK_PUBLIC_URL is missing',
        'WATCH_PORT and SLACK_PORT are the same port',
        'DATABASE_MIGRATE is either start or wait',
      ],
    ],
  ] as const)('%s is named at once', (_, read, env, faults) => {
    const said = faultOf(() => read(env, disk({})));
    for (const fault of faults) expect(said).toContain(fault);
    const [list = ''] = said.split('. What each means');
    expect(list.split(/; (?=[A-Z]+_)/).length).toBe(faults.length);
  });

  it('of a mode that is none leaves unsaid what only one mode needs', () => {
    expect(faultOf(() => readDiscord({ DISCORD_MODE: 'pigeon' }, disk({})))).not.toContain('missing');
    expect(faultOf(() => readSlack({ SLACK_MODE: 'pigeon', SLACK_BOT_TOKEN: 'xoxb-1' }, disk({})))).not.toContain(
      'missing',
    );
  });

  it('in the settings of another program is none of its own', () => {
    const env = { DISCORD_TOKEN: TOKEN, SLACK_PORT: 'x', SLACK_BOT_TOKEN: 'x' };
    expect(readDiscord(env, disk({}))).toMatchObject({ kind: 'gateway' });
  });
});

describe('what a program is told', () => {
  it('has its shards counted from its number', () => {
    const shardsOf = (env: Env) => readDiscord({ DISCORD_TOKEN: TOKEN, DISCORD_SHARD_COUNT: '5', ...env }, disk({}));
    expect(shardsOf({ DISCORD_ORDINAL: '1', DISCORD_SHARDS_EACH: '2' })).toMatchObject({ shards: [2, 3] });
    expect(shardsOf({ DISCORD_ORDINAL: '2', DISCORD_SHARDS_EACH: '2' })).toMatchObject({ shards: [4] });
    expect(shardsOf({ DISCORD_ORDINAL: '3' })).toMatchObject({ shards: [3] });
  });

  it('says where it is watched, and who brings the tables up to date', () => {
    const slack = { SLACK_APP_TOKEN: 'xapp-1', SLACK_BOT_TOKEN: 'xoxb-1' };
    expect(readSlack(slack, disk({}))).toMatchObject({ watch: null, migrate: 'start' });
    expect(readSlack({ ...slack, WATCH_PORT: '9464', DATABASE_MIGRATE: 'wait' }, disk({}))).toMatchObject({
      watch: { host: '127.0.0.1', port: 9464 },
      migrate: 'wait',
    });
    expect(readSlack({ ...slack, WATCH_PORT: '0', WATCH_HOST: '::' }, disk({}))).toMatchObject({
      watch: { host: '::', port: 0 },
    });
  });
});

describe('whatever the settings hold', () => {
  /** A mark that no name and no sentence of ours has in it, so that it can only come from a value. */
  const MARK = 'qzx';
  const value = fc
    .tuple(fc.string({ unit: 'binary', maxLength: 30 }), fc.string({ unit: 'binary', maxLength: 30 }))
    .map(([before, after]) => `${before}${MARK}${after}`);
  const startOf = fc.constantFrom('', 'xoxb-', 'xapp-', 'postgres://', 'https://', 'http');
  const text = fc.oneof(
    fc.tuple(startOf, value).map((parts) => parts.join('')),
    fc.constantFrom('http', '', '7'),
  );
  const names = Object.keys(Settings.shape);
  const env = fc.dictionary(fc.constantFrom(...names, ...names.map((name) => `${name}_FILE`)), text, {
    maxKeys: 12,
    noNullPrototype: true,
  });
  const outcome = fc.oneof(
    text.map((read) => ({ kind: 'read', text: read }) as const),
    fc.constant({ kind: 'not read', why: 'names a file that cannot be read' } as const),
  );

  it.each([
    ['Discord', (told: Env, read: ReadSecret) => readDiscord(told, read)],
    ['registering', (told: Env, read: ReadSecret) => readRegisterConfig(told, [], read)],
    ['Slack', (told: Env, read: ReadSecret) => readSlack(told, read)],
    ['the records', (told: Env, read: ReadSecret) => readWhere(told, read)],
  ])('none of it is in what is said of them: %s', (_, read) => {
    let refused = 0;
    fc.assert(
      fc.property(env, outcome, (told, file) => {
        const said = faultOf(() => read(told, () => file));
        if (said !== '') refused += 1;
        expect(said).not.toContain(MARK);
      }),
    );
    expect(refused).toBeGreaterThan(0);
  });
});
