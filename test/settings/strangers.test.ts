import { describe, expect, it } from 'vitest';
import { strangers } from '../../adapters/settings/strangers.ts';

describe('names in the environment that are no settings', () => {
  it.each([
    ['DISCORD_TOKN', 'DISCORD_TOKEN'],
    ['DISCORD_TOKEN_FIL', null],
    ['SLACK_SIGNING_SECRETS', 'SLACK_SIGNING_SECRET'],
    ['DATABSE_URL', 'DATABASE_URL'],
    ['DATABSE_URL_FILE', 'DATABASE_URL_FILE'],
    ['discord_token', 'DISCORD_TOKEN'],
    ['LOGLEVEL', 'LOG_LEVEL'],
    ['RINGWRIGHT_FOLDER', null],
    ['DISCORD_PUBLIC_KEY_FILE', null],
  ])('%s is pointed out, and %s named', (name, meant) => {
    expect(strangers({ [name]: 'x' })).toEqual([{ name, meant }]);
  });

  it.each(['DISCORD_TOKEN', 'DISCORD_TOKEN_FILE', 'WATCH_PORT', 'PATH', 'HOME', 'DATABASE_POOL_SIZE', 'TERM', 'LANG'])(
    '%s is left in peace',
    (name) => {
      expect(strangers({ [name]: 'x' })).toEqual([]);
    },
  );

  it('are not looked for where nothing is set', () => {
    expect(strangers({ DISCORD_TOKN: ' ' })).toEqual([]);
  });
});
