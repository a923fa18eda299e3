import { messageFaults, viewFaults } from '../../adapters/slack/limits.ts';
import type { WebReply } from '../../adapters/slack/ports.ts';
import type { Home, Message, Modal } from '../../adapters/slack/wire.ts';
import { type Json, stamp } from './slack-payloads.ts';

/** A message that arrived: by whom it is seen, and where it stands. */
export type Arrived = {
  readonly by: 'first answer' | 'address' | 'chat.postMessage' | 'chat.postEphemeral';
  readonly channel: string | null;
  readonly thread: string | null;
  readonly everybody: boolean;
  readonly replaces: boolean;
  readonly ts: string;
  readonly message: Message;
};

/** A file that was posted in a conversation. */
export type Posted = {
  readonly channel: string;
  readonly thread: string | null;
  readonly comment: string;
  readonly title: string;
  readonly bytes: Uint8Array | undefined;
};

export type Opened = { readonly id: string; readonly method: string; readonly view: Modal };

/** How often an address for answers works ("Handling user interaction"). */
const RESPONSES = 5;
/** How often a new file is looked at before the platform has taken it in. */
const LOOKS_UNTIL_READY = 2;

/**
 * Slack in memory, as far as an app like ours sees it. It keeps what arrives, refuses what the platform refuses (a sixth
 * answer, a file that is not taken in, a channel the app is not in), and notes every payload that breaks a limit.
 */
export function openPlatform() {
  const arrived: Arrived[] = [];
  const opened: Opened[] = [];
  const homes = new Map<string, Home>();
  const pins: { channel: string; timestamp: string }[] = [];
  const calls: { method: string; args: Json; token: string | null }[] = [];
  const faults: string[] = [];
  const channels = new Set(['C01SHOP']);
  const users = new Map<string, Json>();
  const groups = new Map<string, { handle: string; users: readonly string[] }>();
  const refusals = new Map<string, string[]>();
  const addresses = new Map<string, number>();
  const files = new Map<string, { sent: boolean; done: boolean; looks: number }>();
  const bodies = new Map<string, Uint8Array>();
  const pages: Posted[] = [];
  const usedTriggers = new Set<string>();
  let looksUntilReady = LOOKS_UNTIL_READY;
  let filesByAddress = true;
  let count = 0;

  const noteMessage = (message: Message) => {
    faults.push(...messageFaults(message).map((fault) => `message: ${fault}`));
    if (message.unfurl_links !== false || message.unfurl_media !== false) faults.push('a message that unfolds links');
  };
  const noteView = (view: Modal | Home) => faults.push(...viewFaults(view).map((fault) => `view: ${fault}`));

  const isReady = (id: string) => {
    const file = files.get(id);
    return file?.done === true && file.looks >= looksUntilReady;
  };
  const hasUnreadyFile = (message: Message) =>
    message.blocks.some((block) => block.type === 'image' && 'slack_file' in block && !isReady(block.slack_file.id));
  const hasFile = (message: Message) => message.blocks.some((block) => block.type === 'image' && 'slack_file' in block);

  const ok = (data: Json = {}): WebReply => ({ ok: true, data });
  const no = (error: string): WebReply => ({ ok: false, error });

  const post = (args: Json, everybody: boolean): WebReply => {
    const { channel, thread_ts: thread = null } = args as { channel: string; thread_ts?: string };
    if (!channels.has(channel)) return no('not_in_channel');
    const message = { unfurl_links: false, unfurl_media: false, ...args } as unknown as Message;
    if (everybody && args.unfurl_links !== false) faults.push('a message that unfolds links');
    noteMessage(message);
    if (hasUnreadyFile(message)) return no('invalid_blocks');
    const ts = stamp();
    const by = everybody ? 'chat.postMessage' : 'chat.postEphemeral';
    arrived.push({ by, channel, thread, everybody, replaces: false, ts, message });
    return ok({ ts, channel });
  };

  const open = (method: string, args: Json): WebReply => {
    const { trigger_id, view } = args as { trigger_id?: string; view: Modal };
    if (trigger_id !== undefined) {
      if (usedTriggers.has(trigger_id)) return no('exchanged_trigger_id');
      usedTriggers.add(trigger_id);
    }
    noteView(view);
    count += 1;
    const id = (args.view_id as string | undefined) ?? `V${count}`;
    opened.push({ id, method, view });
    return ok({ view: { id } });
  };

  const METHODS: Readonly<Record<string, (args: Json, token: string | null) => WebReply>> = {
    'auth.test': () => ok({ user_id: 'UBOT', bot_id: 'B01', team_id: 'T01TEAM' }),
    'chat.postMessage': (args) => post(args, true),
    'chat.postEphemeral': (args) => post(args, false),
    'views.open': (args) => open('views.open', args),
    'views.push': (args) => open('views.push', args),
    'views.update': (args) => open('views.update', args),
    'views.publish': ({ user_id, view }) => {
      noteView(view as Home);
      homes.set(String(user_id), view as Home);
      return ok();
    },
    'users.info': ({ user }) => {
      const found = users.get(String(user));
      return found === undefined ? no('user_not_found') : ok({ user: { id: user, team_id: 'T01TEAM', ...found } });
    },
    'usergroups.users.list': ({ usergroup }) => {
      const found = groups.get(String(usergroup));
      return found === undefined ? no('no_such_subteam') : ok({ users: found.users });
    },
    'usergroups.list': () => ok({ usergroups: [...groups].map(([id, { handle }]) => ({ id, handle })) }),
    'pins.add': ({ channel, timestamp }) => {
      if (!channels.has(String(channel))) return no('not_in_channel');
      pins.push({ channel: String(channel), timestamp: String(timestamp) });
      return ok();
    },
    'files.getUploadURLExternal': ({ length }) => {
      if (Number(length) <= 0) return no('invalid_arguments');
      count += 1;
      files.set(`F${count}`, { sent: false, done: false, looks: 0 });
      return ok({ file_id: `F${count}`, upload_url: `/upload/F${count}` });
    },
    'files.completeUploadExternal': ({ files: told, channel_id: channel, thread_ts: thread, initial_comment }) => {
      const list = (typeof told === 'string' ? JSON.parse(told) : told) as { id: string; title: string }[];
      if (channel === undefined && thread !== undefined) faults.push('a file in a thread of no channel');
      if (channel !== undefined && !channels.has(String(channel))) return no('not_in_channel');
      if (/<|>|&(?!(?:amp|lt|gt);)/.test(String(initial_comment ?? ''))) faults.push('markup above a file');
      for (const { id } of list) {
        const file = files.get(id);
        if (file?.sent !== true) return no('file_not_found');
        file.done = true;
      }
      if (channel !== undefined) {
        const at = { channel: String(channel), thread: thread === undefined ? null : String(thread) };
        const comment = String(initial_comment ?? '');
        pages.push(...list.map(({ id, title }) => ({ ...at, comment, title, bytes: bodies.get(id) })));
      }
      return ok({ files: list });
    },
    'files.info': ({ file: id }) => {
      const file = files.get(String(id));
      if (file === undefined) return no('file_not_found');
      file.looks += 1;
      return ok({ file: { id, mimetype: file.looks >= looksUntilReady ? 'image/png' : '' } });
    },
  };

  return {
    arrived,
    opened,
    homes,
    pins,
    calls,
    faults,
    channels,
    users,
    groups,
    addresses,
    files,
    pages,
    /** The next calls of a method are refused with these errors, one after the other. */
    refuse: (method: string, ...errors: string[]) => {
      refusals.set(method, [...(refusals.get(method) ?? []), ...errors]);
    },
    takeFilesAfter: (looks: number) => {
      looksUntilReady = looks;
    },
    /** Whether an address for answers takes messages with files at all; it was reported not to. */
    takeFilesByAddress: (takes: boolean) => {
      filesByAddress = takes;
    },
    newAddress: (): string => {
      count += 1;
      addresses.set(`/actions/${count}`, 0);
      return `/actions/${count}`;
    },
    call: (method: string, args: Json, token: string | null = null): WebReply => {
      calls.push({ method, args, token });
      const refused = refusals.get(method)?.shift();
      if (refused !== undefined) return no(refused);
      return METHODS[method]?.(args, token) ?? no('unknown_method');
    },
    respond: (address: string, body: Json): boolean => {
      const used = addresses.get(address);
      if (used === undefined || used >= RESPONSES) return false;
      const message = body as unknown as Message;
      noteMessage(message);
      if (hasUnreadyFile(message) || (hasFile(message) && !filesByAddress)) return false;
      addresses.set(address, used + 1);
      const { response_type, replace_original, thread_ts = null } = body as Record<string, string | boolean>;
      arrived.push({
        by: 'address',
        channel: null,
        thread: thread_ts as string | null,
        everybody: response_type === 'in_channel',
        replaces: replace_original === true,
        ts: stamp(),
        message,
      });
      return true;
    },
    upload: (id: string, bytes: Uint8Array): boolean => {
      const file = files.get(id);
      if (file === undefined || bytes.length === 0) return false;
      bodies.set(id, bytes);
      file.sent = true;
      return true;
    },
    noteMessage,
    noteView,
  };
}

export type Platform = ReturnType<typeof openPlatform>;
