import { KEPT_COMMANDS } from '../../src/commands/kept-list.ts';
import { COMMANDS, TOPIC_COMMANDS } from '../../src/commands/list.ts';
import { SHORTCUTS } from './standard-answers.ts';

/** What the program may do, each with the reason; nothing is asked for that no part of it uses. */
const SCOPES = {
  commands: 'the slash command and the two shortcuts on messages',
  'chat:write': 'answers in threads, private answers after a while, and what a button posts for everybody',
  'app_mentions:read': 'to be asked in a thread, where the slash command does not work',
  'pins:write': 'to pin a standard answer in its channel, when a moderator presses the button',
  'users:read': 'to know whether somebody is an admin, and to show a name without calling anybody',
  'usergroups:read': 'to know who is in a group that the settings let pin',
  'files:write':
    'to upload a picture where pictures have no public address, and to post a page to print when a button asks for it',
  'files:read': 'to see when an uploaded picture is ready, only where pictures have no public address',
} as const;

/** The scopes to ask for; those for files only where pictures are uploaded. */
export function scopesFor(uploads: boolean): string[] {
  return Object.keys(SCOPES).filter((scope) => uploads || !scope.startsWith('files:'));
}

const SLASH_COMMAND = '/ringwright';

/** Where payloads come in, and where a workspace installs the program. */
export const EVENTS_PATH = '/slack/events';
export const INSTALL_PATH = '/slack/install';
export const REDIRECT_PATH = '/slack/oauth_redirect';

/** How payloads reach the program: over a socket that it opens, or at a public address. */
export type Reached = { readonly kind: 'socket' } | { readonly kind: 'http'; readonly publicUrl: string };

/** The program as its manifest describes it to the platform, made from the commands. */
export function manifest(reached: Reached) {
  const socket = reached.kind === 'socket';
  const address = socket ? {} : { url: `${reached.publicUrl}${EVENTS_PATH}` };
  const request = socket ? {} : { request_url: `${reached.publicUrl}${EVENTS_PATH}` };
  const options = socket ? {} : { message_menu_options_url: `${reached.publicUrl}${EVENTS_PATH}` };
  const names = [...COMMANDS, ...KEPT_COMMANDS].map(({ name }) => name);
  const [first] = COMMANDS;
  return {
    _metadata: { major_version: 1, minor_version: 1 },
    display_information: {
      name: 'Ringwright',
      description: 'A workshop assistant for converting a bicycle to a single ring',
      long_description: [
        'Describe a bicycle with two or three rings, in your own words: Ringwright answers with one card. It says which single ring fits and what it costs in gears, how much chain to take out, which bolts and spacers, a torque checklist with cautions, and the weight saved.',
        'Answers are private until somebody shares them. Moderators keep standard answers; a shop signs off torques row by row, by two people where it matters.',
        `Commands: ${[...names, ...TOPIC_COMMANDS].join(', ')}.`,
      ].join('\n\n'),
      background_color: '#7a2a0b',
    },
    features: {
      app_home: { home_tab_enabled: true, messages_tab_enabled: true, messages_tab_read_only_enabled: true },
      bot_user: { display_name: 'ringwright', always_online: true },
      shortcuts: [
        {
          name: 'Pin as standard answer',
          type: 'message',
          callback_id: SHORTCUTS.pin,
          description: 'Keep this message as a standard answer, for moderators',
        },
        {
          name: 'From standard answers',
          type: 'message',
          callback_id: SHORTCUTS.reply,
          description: 'Answer this message in its thread with a standard answer',
        },
      ],
      slash_commands: [
        {
          command: SLASH_COMMAND,
          ...address,
          description: 'Plan a single ring, or use what is kept here; alone it opens a window',
          usage_hint: `${first?.name ?? ''} ${first?.examples[0] ?? ''} | help | measure bcd`,
          // Mentions then come as ids, so that they can be told apart from what looks like one.
          should_escape: true,
        },
      ],
    },
    oauth_config: {
      ...(socket ? {} : { redirect_urls: [`${reached.publicUrl}${REDIRECT_PATH}`] }),
      scopes: { bot: scopesFor(socket) },
    },
    settings: {
      event_subscriptions: {
        ...request,
        bot_events: ['app_home_opened', 'app_mention', ...(socket ? [] : ['app_uninstalled', 'tokens_revoked'])],
      },
      interactivity: { is_enabled: true, ...request, ...options },
      org_deploy_enabled: false,
      socket_mode_enabled: socket,
      token_rotation_enabled: false,
    },
  };
}

/** The files that describe the program to the platform, and to who installs it, by name. */
export function deployFiles(): Readonly<Record<string, string>> {
  const json = (reached: Reached) => `${JSON.stringify(manifest(reached), null, 2)}\n`;
  return {
    'slack-manifest.json': json({ kind: 'socket' }),
    'slack-manifest-http.json': json({ kind: 'http', publicUrl: 'https://ringwright.example.org' }),
    'slack-scopes.md': scopesPage(),
  };
}

function scopesPage(): string {
  const rows = Object.entries(SCOPES).map(([scope, reason]) => `| \`${scope}\` | ${reason} |`);
  return [
    '# What Ringwright may do in a Slack workspace, and why',
    '',
    'Made by `npm run slack:manifest`; a test holds it to the program.',
    '',
    '| scope | needed for |',
    '|---|---|',
    ...rows,
    '',
    'Reading messages is not among them: the program sees what is typed behind its command, what mentions it, and the one',
    'message that somebody uses a shortcut on.',
    '',
  ].join('\n');
}
