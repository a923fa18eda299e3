import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { deployFiles, manifest, scopesFor } from '../../adapters/slack/register.ts';
import { sourceFiles } from '../support/source-files.ts';

const SOCKET = manifest({ kind: 'socket' });
const HTTP = manifest({ kind: 'http', publicUrl: 'https://ringwright.example.org' });

describe('the files for the platform', () => {
  it.each(Object.keys(deployFiles()))('deploy/%s is current: npm run slack:manifest', (name) => {
    const file = readFileSync(new URL(`../../deploy/${name}`, import.meta.url), 'utf8');
    expect(file).toBe(deployFiles()[name]);
  });
});

/** The rules of the platform's manifest schema (version 1) for the parts that are used here. */
describe.each([
  ['over a socket', SOCKET],
  ['at an address', HTTP],
])('the manifest %s', (_, made) => {
  const { display_information, features, oauth_config, settings } = made;

  it('has names and words within their limits', () => {
    expect(display_information.name.length).toBeLessThanOrEqual(35);
    expect(display_information.description.length).toBeLessThanOrEqual(140);
    expect(display_information.long_description.length).toBeGreaterThanOrEqual(175);
    expect(display_information.long_description.length).toBeLessThanOrEqual(4000);
    expect(display_information.background_color).toMatch(/^#[0-9a-f]{6}$/);
    expect(features.bot_user.display_name).toMatch(/^[a-z0-9._-]{1,80}$/);
  });

  it('has shortcuts and a command that the platform takes', () => {
    expect(features.shortcuts.length).toBeLessThanOrEqual(10);
    for (const { name, type, callback_id, description } of features.shortcuts) {
      expect(name.length).toBeLessThanOrEqual(24);
      expect(type).toBe('message');
      expect(callback_id.length).toBeLessThanOrEqual(255);
      expect(description.length).toBeLessThanOrEqual(150);
    }
    expect(features.slash_commands).toHaveLength(1);
    for (const { command, description, usage_hint } of features.slash_commands) {
      expect(command).toMatch(/^\/[a-z]{1,31}$/);
      expect(description.length).toBeLessThanOrEqual(2000);
      expect(usage_hint.length).toBeLessThanOrEqual(1000);
    }
  });

  it('asks for no more than it says a reason for', () => {
    expect(
      oauth_config.scopes.bot.every((scope) => deployFiles()['slack-scopes.md']?.includes(`| \`${scope}\` | `)),
    ).toBe(true);
    expect(Object.keys(made).sort()).toEqual([
      '_metadata',
      'display_information',
      'features',
      'oauth_config',
      'settings',
    ]);
    expect(settings.event_subscriptions.bot_events).toContain('app_mention');
  });
});

describe('where payloads come in', () => {
  it('is one address, for commands, presses, suggestions and events', () => {
    const [command] = HTTP.features.slash_commands;
    const { event_subscriptions, interactivity } = HTTP.settings;
    const addresses = [command, event_subscriptions, interactivity].flatMap((each) => Object.entries(each ?? {}));
    const told = addresses.filter(([name]) => name.endsWith('url')).map(([, address]) => address);
    expect(told).toHaveLength(4);
    expect(new Set(told)).toEqual(new Set(['https://ringwright.example.org/slack/events']));
    expect(HTTP.settings.socket_mode_enabled).toBe(false);
    expect(HTTP.oauth_config).toMatchObject({ redirect_urls: ['https://ringwright.example.org/slack/oauth_redirect'] });
  });

  it('is no address at all over a socket', () => {
    expect(JSON.stringify(SOCKET)).not.toContain('http');
    expect(SOCKET.settings.socket_mode_enabled).toBe(true);
  });
});

/** Which scope each method of the Web API needs, by its page in the platform's reference. */
const NEEDS: Readonly<Record<string, string | null>> = {
  'auth.test': null,
  'chat.postMessage': 'chat:write',
  'chat.postEphemeral': 'chat:write',
  'files.completeUploadExternal': 'files:write',
  'files.getUploadURLExternal': 'files:write',
  'files.info': 'files:read',
  'pins.add': 'pins:write',
  'usergroups.list': 'usergroups:read',
  'usergroups.users.list': 'usergroups:read',
  'users.info': 'users:read',
  'views.open': null,
  'views.publish': null,
  'views.push': null,
  'views.update': null,
};

describe('the scopes', () => {
  it('are exactly those that the methods called here need', () => {
    const source = sourceFiles('adapters/slack')
      .map(({ text }) => text)
      .join('\n');
    const called = new Set(
      [...source.matchAll(/'((?:auth|chat|files|pins|usergroups|users|views)\.[A-Za-z.]+)'/g)].map((m) => m[1] ?? ''),
    );
    const methods = [...called].filter((name) => /^[a-z]+\.[a-zA-Z]+(\.[a-z]+)?$/.test(name));
    expect(methods.filter((name) => !(name in NEEDS))).toEqual([]);
    const needed = methods.map((name) => NEEDS[name]).filter((scope) => scope !== null && scope !== undefined);
    // Two come with being asked at all: the command, and the event of a mention.
    const asked = new Set([...needed, 'commands', 'app_mentions:read']);
    expect([...asked].sort()).toEqual(scopesFor(true).sort());
  });

  it('for files are left out where pictures have an address', () => {
    expect(scopesFor(false)).toEqual(scopesFor(true).filter((scope) => !scope.startsWith('files:')));
  });
});
