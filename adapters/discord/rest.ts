import { setTimeout as wait } from 'node:timers/promises';
import { DiscordAPIError, HTTPError, REST, RESTEvents } from '@discordjs/rest';
import { Routes } from 'discord-api-types/v10';
import type { Notice } from '../../src/notice.ts';
import type { Sender } from './ports.ts';
import { EPHEMERAL, FAULT, type Post, type Response } from './wire.ts';
import type { NotPinned } from './words.ts';

/** What is sent for one interaction; no token of the bot is needed, the interaction brings its own. */
export type Interactions = {
  readonly callback: (interaction: Ids, response: Response) => Promise<void>;
  readonly sender: (interaction: Ids) => Sender;
};

/**
 * The library keeps a queue, about a kilobyte with its token, for every interaction that more was sent for, and by itself
 * forgets those at rest once an hour: at fifty pictures a second these were 150 MB.
 */
const FORGOTTEN_AFTER_MS = 60_000;

/** By what an interaction is answered. */
export type Ids = { readonly id: string; readonly application: string; readonly token: string };

/**
 * The platform's REST interface. Answers to interactions do not count towards its 50 requests a second, and the library
 * would hold them back as if they did: they have a client of their own. What a bot does by its own token keeps that limit.
 */
export function openRest(
  { api, token }: { readonly api: string; readonly token: string | null },
  notice?: Notice,
): Interactions {
  const answers = new REST({
    api,
    globalRequestsPerSecond: Number.POSITIVE_INFINITY,
    retries: 2,
    timeout: 10_000,
    handlerSweepInterval: FORGOTTEN_AFTER_MS,
  });
  // Whether a first answer was tried before must be known here, so the library does not try those again by itself.
  const firsts = new REST({ api, globalRequestsPerSecond: Number.POSITIVE_INFINITY, retries: 0, timeout: 10_000 });
  const own = token === null ? null : new REST({ api, timeout: 10_000 }).setToken(token);
  if (notice !== undefined)
    for (const each of [firsts, answers, own]) each?.on(RESTEvents.Response, busyOrDown(notice));
  return {
    callback: async ({ id, token: key }, response) => {
      const { body, files } = apart(response);
      await onceArrived(() => firsts.post(Routes.interactionCallback(id, key), { auth: false, body, files }));
    },
    sender: ({ application, token: key }) => ({
      edit: async ({ body, files }) => {
        const route = Routes.webhookMessage(application, key);
        return messageId(await settled(() => answers.patch(route, { auth: false, body, files: rawFiles(files) })));
      },
      follow: async ({ body, files }, everybody) =>
        messageId(
          await answers.post(Routes.webhook(application, key), {
            auth: false,
            query: new URLSearchParams({ wait: 'true' }),
            body: { ...body, flags: everybody ? 0 : EPHEMERAL },
            files: rawFiles(files),
          }),
        ),
      remove: async () => {
        await settled(() => answers.delete(Routes.webhookMessage(application, key), { auth: false }));
      },
      pin: (channel, message) => pinned(own, channel, message),
      reply: (channel, message, post) => replied(own, channel, message, post),
    }),
  };
}

export function isBusyOrDown(status: number): boolean {
  return status === 429 || status >= 500;
}

/** The library waits and tries again by itself where the platform is busy or down; each time is counted all the same. */
function busyOrDown(notice: Notice) {
  return (_: unknown, { status }: { readonly status: number }) => {
    if (isBusyOrDown(status)) notice({ kind: 'fault', code: String(status) });
  };
}

/** As often as the library itself would try in all, what comes after a first answer included. */
const FIRST_TRIES = 3;

/**
 * Tries a first answer again where it is not known whether it came, or the platform was down. That it was answered before
 * then means, after a try of our own: it did come, and only the word of it was lost.
 */
async function onceArrived(send: () => Promise<unknown>): Promise<void> {
  for (let tries = 1; ; tries += 1) {
    try {
      await send();
      return;
    } catch (error) {
      const isRefused = error instanceof DiscordAPIError;
      if (tries > 1 && isRefused && error.code === FAULT.alreadyAcknowledged) return;
      if (isRefused || tries === FIRST_TRIES || (error instanceof HTTPError && error.status < 500)) throw error;
    }
  }
}

/** A first answer in the body of a response may not be there yet when it is to be changed. */
const SETTLING_MS = [150, 500, 1500] as const;

async function settled<Result>(send: () => Promise<Result>): Promise<Result> {
  for (const ms of SETTLING_MS) {
    try {
      return await send();
    } catch (error) {
      const early = error instanceof DiscordAPIError && error.code === FAULT.unknownWebhook;
      if (!early) throw error;
      await wait(ms);
    }
  }
  return send();
}

/** The body of a first answer, apart from the files that go beside it. */
export function apart(response: Response) {
  if (!('files' in response)) return { body: response, files: [] };
  const { files, ...body } = response;
  return { body, files: rawFiles(files) };
}

function rawFiles(files: Post['files']) {
  return files.map(({ name, data, type }) => ({ name, data: Buffer.from(data), contentType: type }));
}

function messageId(message: unknown): string {
  const { id } = (message ?? {}) as { readonly id?: unknown };
  return typeof id === 'string' ? id : '';
}

const NOT_PINNED: Readonly<Record<number, NotPinned>> = {
  [FAULT.missingPermissions]: 'permission',
  [FAULT.missingAccess]: 'gone',
  [FAULT.unknownMessage]: 'gone',
  [FAULT.mostPins]: 'full',
};

async function pinned(own: REST | null, channel: string, message: string): Promise<NotPinned | null> {
  if (own === null) return 'withoutBot';
  try {
    await own.put(`/channels/${channel}/messages/pins/${message}`);
    return null;
  } catch (error) {
    if (!(error instanceof DiscordAPIError)) throw error;
    return NOT_PINNED[Number(error.code)] ?? 'other';
  }
}

async function replied(own: REST | null, channel: string, message: string, { body, files }: Post): Promise<boolean> {
  if (own === null) return false;
  // Whoever wrote the message is not notified either: a moderator answers, not the program.
  const reply = {
    ...body,
    message_reference: { message_id: message, fail_if_not_exists: false },
    allowed_mentions: { ...body.allowed_mentions, replied_user: false },
  };
  try {
    await own.post(Routes.channelMessages(channel), { body: reply, files: rawFiles(files) });
    return true;
  } catch (error) {
    if (error instanceof DiscordAPIError) return false;
    throw error;
  }
}

/** Where the commands of an application are registered: everywhere, or in one server. */
export function openCommands({
  api,
  token,
  application,
  server,
}: {
  readonly api: string;
  readonly token: string;
  readonly application: string;
  readonly server: string | null;
}) {
  const rest = new REST({ api, timeout: 15_000 }).setToken(token);
  const route =
    server === null ? Routes.applicationCommands(application) : Routes.applicationGuildCommands(application, server);
  return {
    read: async (): Promise<readonly unknown[]> => {
      const found = await rest.get(route, { query: new URLSearchParams({ with_localizations: 'true' }) });
      return Array.isArray(found) ? found : [];
    },
    write: async (commands: readonly object[]): Promise<void> => {
      await rest.put(route, { body: commands });
    },
  };
}
