import { describe, expect, it } from 'vitest';
import { type Env, readSecretFile } from '../../adapters/settings/secret-files.ts';
import { readConfig } from '../../adapters/slack/config.ts';

const SOCKET = { SLACK_APP_TOKEN: 'xapp-1-secret', SLACK_BOT_TOKEN: 'xoxb-secret' };
const HTTP = { SLACK_MODE: 'http', SLACK_SIGNING_SECRET: 'signing-secret-16', SLACK_BOT_TOKEN: 'xoxb-secret' };
const MANY = {
  SLACK_MODE: 'http',
  SLACK_SIGNING_SECRET: 'signing-secret-16',
  SLACK_CLIENT_ID: '1.2',
  SLACK_CLIENT_SECRET: 'client-secret-16',
  SLACK_STATE_SECRET: 's'.repeat(32),
  SLACK_PUBLIC_URL: 'https://ringwright.example.org/',
};

const read = (env: Env) => readConfig(env, readSecretFile);

/** What is said of settings that are wrong. */
function faultOf(env: Readonly<Record<string, string>>): string {
  try {
    read(env);
  } catch (error) {
    return error instanceof Error ? `${error.name}: ${error.message}` : '';
  }
  return 'nothing is wrong';
}

describe('the settings', () => {
  it('of one workspace over a socket are two tokens', () => {
    expect(read(SOCKET)).toMatchObject({
      api: 'https://slack.com/api/',
      receiving: { kind: 'socket', appToken: 'xapp-1-secret' },
      tenancy: { kind: 'one', botToken: 'xoxb-secret' },
      pictures: { kind: 'upload' },
      records: { path: 'data/records.db' },
    });
  });

  it('of a server have an address for pictures where there is a public one', () => {
    expect(read(HTTP)).toMatchObject({ receiving: { kind: 'http' }, pictures: { kind: 'upload' }, port: 3000 });
    const told = read({ ...HTTP, SLACK_PUBLIC_URL: 'https://ringwright.example.org/' });
    expect(told.pictures).toEqual({
      kind: 'address',
      base: 'https://ringwright.example.org',
      secret: 'signing-secret-16',
    });
    expect(read({ ...HTTP, SLACK_PICTURES: 'off' }).pictures).toEqual({ kind: 'none' });
  });

  it('of many workspaces are those of its registration', () => {
    expect(read(MANY)).toMatchObject({ tenancy: { kind: 'many', clientId: '1.2' } });
  });

  it.each([
    [{}, ['SLACK_APP_TOKEN is missing', 'SLACK_BOT_TOKEN is missing']],
    [{ SLACK_MODE: 'http' }, ['SLACK_SIGNING_SECRET is missing', 'SLACK_BOT_TOKEN is missing']],
    [{ SLACK_MODE: 'both' }, ['SLACK_MODE is either socket or http']],
    [{ ...SOCKET, SLACK_BOT_TOKEN: 'xoxp-secret' }, ['SLACK_BOT_TOKEN begins with xoxb-']],
    [{ ...SOCKET, SLACK_PORT: '99999' }, ['SLACK_PORT is a whole number from 0 to 65535']],
    [{ ...SOCKET, SLACK_PICTURES: 'address' }, ['SLACK_PUBLIC_URL is missing']],
    [{ ...MANY, SLACK_BOT_TOKEN: 'xoxb-secret' }, ['set either']],
    [{ ...MANY, SLACK_STATE_SECRET: 'short' }, ['SLACK_STATE_SECRET has at least 32 characters']],
    [
      { ...MANY, SLACK_STATE_SECRET: '', SLACK_PUBLIC_URL: '' },
      ['SLACK_STATE_SECRET is missing', 'SLACK_PUBLIC_URL is missing'],
    ],
    [
      { ...MANY, SLACK_PUBLIC_URL: 'http://ringwright.example.org' },
      ['SLACK_PUBLIC_URL is an address that begins with https'],
    ],
  ])('that are wrong are named, all at once, and never shown: %#', (env, words) => {
    const message = faultOf(env);
    for (const each of words) expect(message).toContain(each);
    expect(message).not.toMatch(/xoxp-secret|client-secret-16|signing-secret-16|short/);
  });

  const SAME_PORT = { WATCH_PORT: '3000', SLACK_PORT: '3000' };
  const SERVED = { SLACK_PUBLIC_URL: 'https://ringwright.example.org' };

  it.each([
    ['over HTTP', HTTP],
    ['over a socket, with pages to install from', { ...MANY, ...SOCKET, SLACK_MODE: 'socket', SLACK_BOT_TOKEN: '' }],
    ['over a socket, with pictures by their address', { ...SOCKET, ...SERVED }],
  ])('have a port for watching that is another than the one listened at %s', (_, env) => {
    expect(faultOf({ ...env, ...SAME_PORT })).toContain('WATCH_PORT and SLACK_PORT are the same port');
    expect(faultOf({ ...env, ...SAME_PORT, WATCH_PORT: '3001' })).toBe('nothing is wrong');
  });

  it.each([
    ['uploaded', SOCKET],
    ['uploaded, though there is an address', { ...SOCKET, ...SERVED, SLACK_PICTURES: 'upload' }],
    ['not shown', { ...SOCKET, ...SERVED, SLACK_PICTURES: 'off' }],
  ])('may have any port for watching over a socket of one workspace with pictures %s', (_, env) => {
    expect(faultOf({ ...env, ...SAME_PORT })).toBe('nothing is wrong');
  });
});
