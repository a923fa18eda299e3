import { describe, expect, it } from 'vitest';
import { readConfig, readRegisterConfig } from '../../adapters/discord/config.ts';
import { type Env, readSecretFile } from '../../adapters/settings/secret-files.ts';

const TOKEN = 'a-made-up-token-of-a-bot';
const KEY = 'd75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a';

const read = (env: Env) => readConfig(env, readSecretFile);
const readRegister = (env: Env, args: readonly string[]) => readRegisterConfig(env, args, readSecretFile);

const message = (reading: () => unknown): string => {
  try {
    reading();
  } catch (error) {
    return error instanceof Error ? `${error.name}: ${error.message}` : '';
  }
  return 'nothing was wrong';
};

describe('settings', () => {
  it('need only a token for the gateway, and keep one file', () => {
    expect(read({ DISCORD_TOKEN: TOKEN })).toEqual({
      kind: 'gateway',
      api: 'https://discord.com/api',
      logLevel: 'info',
      records: { path: 'data/records.db' },
      migrate: 'start',
      watch: null,
      token: TOKEN,
      shards: [0],
      shardCount: 1,
    });
  });

  it('need only a public key for requests', () => {
    const config = read({ DISCORD_MODE: 'http', DISCORD_PUBLIC_KEY: KEY, DATABASE_URL: 'postgres://x/y' });
    expect(config).toMatchObject({
      kind: 'http',
      publicKey: KEY,
      token: null,
      port: 8080,
      records: { url: 'postgres://x/y' },
    });
  });

  it('share shards out to several machines', () => {
    const env = { DISCORD_TOKEN: TOKEN, DISCORD_SHARD_COUNT: '8', DISCORD_SHARDS: '0,2,5-7' };
    expect(read(env)).toMatchObject({ shards: [0, 2, 5, 6, 7], shardCount: 8 });
    expect(read({ DISCORD_TOKEN: TOKEN, DISCORD_SHARD_COUNT: '3' })).toMatchObject({ shards: [0, 1, 2] });
  });

  it.each([
    ['no token', {}, /DISCORD_TOKEN is missing/],
    ['an empty token', { DISCORD_TOKEN: ' ' }, /DISCORD_TOKEN is missing/],
    ['no key', { DISCORD_MODE: 'http' }, /DISCORD_PUBLIC_KEY is missing/],
    ['a key that is none', { DISCORD_MODE: 'http', DISCORD_PUBLIC_KEY: `${KEY}00` }, /64 hexadecimal digits/],
    ['another mode', { DISCORD_MODE: 'carrier-pigeon', DISCORD_TOKEN: TOKEN }, /either gateway or http/],
    ['a shard beyond the count', { DISCORD_TOKEN: TOKEN, DISCORD_SHARDS: '1' }, /one less than DISCORD_SHARD_COUNT/],
    ['shards backwards', { DISCORD_TOKEN: TOKEN, DISCORD_SHARD_COUNT: '9', DISCORD_SHARDS: '5-2' }, /DISCORD_SHARDS/],
    [
      'two faults at once',
      { DISCORD_SHARD_COUNT: '0' },
      /DISCORD_SHARD_COUNT is a whole number .*; DISCORD_TOKEN is missing/,
    ],
  ] as readonly (readonly [string, Env, RegExp])[])('with %s say in words what is wrong', (_, env, words) => {
    expect(message(() => read(env))).toMatch(words);
    expect(message(() => read(env))).toMatch(/^ConfigError/);
  });

  it('never repeat a value that is wrong', () => {
    const env = {
      DISCORD_MODE: 'http',
      DISCORD_PUBLIC_KEY: 'my-secret',
      DISCORD_TOKEN: 'my-secret',
      DISCORD_PORT: 'my-secret',
    };
    expect(message(() => read(env))).not.toContain('my-secret');
  });

  it('for registering need the application, and one server where it is named', () => {
    const env = { DISCORD_TOKEN: TOKEN, DISCORD_APPLICATION_ID: '900000000000000001' };
    expect(readRegister(env, [])).toMatchObject({ server: null, dryRun: false });
    expect(readRegister(env, ['--dry-run', '--server=100000000000000001'])).toMatchObject({
      server: '100000000000000001',
      dryRun: true,
    });
    expect(message(() => readRegister(env, ['--dry']))).toMatch(/only --dry-run and --server=ID/);
    expect(message(() => readRegister(env, ['--server=x']))).toMatch(/DISCORD_SERVER is an id/);
  });
});
