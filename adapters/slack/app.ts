import type { Server, ServerResponse } from 'node:http';
import {
  App,
  type CustomRoute,
  HTTPReceiver,
  type InstallationStore,
  type Logger,
  LogLevel,
  SocketModeReceiver,
  webApi,
} from '@slack/bolt';
import { errorData, type Log } from '../../src/log.ts';
import type { Notice } from '../../src/notice.ts';
import type { Config } from './config.ts';
import { failurePage, installPage, successPage } from './install-pages.ts';
import { OURS } from './limits.ts';
import { PICTURE_PATH, type Served } from './picture-address.ts';
import type { Handled, Web } from './ports.ts';
import { EVENTS_PATH, INSTALL_PATH, REDIRECT_PATH, scopesFor } from './register.ts';
import { clientOptions, openClient, openWeb } from './web.ts';

/** What the transports carry: payloads to the handler, requests for pictures to whoever draws them. */
export type Inside = {
  readonly handle: (payload: unknown, web: Web | null) => Promise<Handled>;
  /** Null where pictures have no address. */
  readonly servePicture: ((name: string) => Promise<Served>) | null;
  /** Null where one workspace is served with its own token. */
  readonly installations: InstallationStore | null;
  readonly log: Log;
  /** Missing where nobody counts. */
  readonly notice?: Notice | undefined;
  readonly wait: (ms: number) => Promise<void>;
};

/** The framework with its handler, as it stands open for payloads. */
export type OpenApp = {
  /** Where payloads are listened for; null over a socket, whose server, if there is one, the framework keeps to itself. */
  readonly port: number | null;
  /** Whether payloads can come in: the socket has its connection, or requests are listened for. */
  readonly isUp: () => boolean;
  /** How many payloads are being answered. */
  readonly underWay: () => number;
  /** Takes no more payloads, and finishes what has begun. */
  readonly close: () => Promise<void>;
};

/**
 * Starts the platform's own framework around the handler: over a socket that we open, or as a server that the platform
 * calls. Everything that comes in goes through one dispatcher, so that nothing is left without an answer.
 */
export async function openApp(config: Config, inside: Inside): Promise<OpenApp> {
  const { log, notice, wait } = inside;
  const { host, port } = config;
  const logger = quiet(log);
  const installing = installingOf(config, inside);
  const customRoutes = routesOf(inside);
  const receiver =
    config.receiving.kind === 'socket'
      ? new SocketModeReceiver({
          appToken: config.receiving.appToken,
          logger,
          customRoutes,
          ...installing,
          // A lost connection is opened again as often as the framework likes; only answers must not wait.
          installerOptions: {
            ...installing.installerOptions,
            clientOptions: { slackApiUrl: config.api },
            port,
          },
        })
      : new HTTPReceiver({
          signingSecret: config.receiving.signingSecret,
          logger,
          customRoutes,
          endpoints: EVENTS_PATH,
          bodyLimit: OURS.bodyBytes,
          ...installing,
          installerOptions: { ...installing.installerOptions, clientOptions: clientOptions(config.api) },
        });
  const workspace = config.tenancy.kind === 'one' ? oneWorkspace(config, config.tenancy.botToken, log) : null;
  const { installer } = receiver;
  const app = new App({
    // As one that installs nothing: then who serves which workspace is asked here.
    receiver: {
      init: (framework) => receiver.init(framework),
      start: () => (receiver instanceof HTTPReceiver ? receiver.start({ host, port }) : receiver.start()),
      stop: () => receiver.stop(),
    },
    logger,
    // Nothing is remembered between two payloads.
    convoStore: false,
    authorize: async (source) => {
      const { botToken, ...found } = (await (workspace?.authorize() ?? installer?.authorize(source))) ?? {};
      // The framework keeps a client, some 25 KB, for each workspace it was ever given a token of, and forgets none.
      return { ...found, passedBy: botToken };
    },
  });

  const underWay = new Set<Promise<unknown>>();
  const begun = (work: Promise<unknown>) => {
    const done: Promise<unknown> = work.finally(() => underWay.delete(done));
    underWay.add(done);
    return done;
  };

  app.use(async (args) => {
    const { ack } = args as { readonly ack?: (body?: unknown) => Promise<void> };
    const { passedBy: token, teamId } = args.context as { readonly passedBy?: string; readonly teamId?: string };
    const web = token === undefined ? null : openWeb(openClient(config.api, token, teamId, logger), log, wait, notice);
    const work = async () => {
      const { ack: first, later, unsent = later } = await inside.handle(args.body, web);
      const isSent = await acknowledged(async () => ack?.(first), log);
      await (isSent ? later : unsent)?.();
    };
    await begun(work());
  });
  app.error(async (error) => {
    log.error(errorData(error), 'a payload failed before or after it was handled');
  });

  const isUp = receiver instanceof SocketModeReceiver ? followed(receiver, log) : () => true;
  const server = await app.start();
  void workspace?.ask();
  return {
    port: portOf(server),
    isUp,
    underWay: () => underWay.size,
    close: async () => {
      const stopped = app.stop();
      await Promise.race([Promise.all([stopped, ...underWay]), wait(OURS.farewellMs)]);
    },
  };
}

/** A socket that is replaced, or closed at the end, takes no first answer; other ways to the person are still there. */
async function acknowledged(send: () => Promise<void>, log: Log): Promise<boolean> {
  try {
    await send();
    return true;
  } catch (error) {
    log.warn(errorData(error), 'a first answer could not be sent; it goes another way');
    return false;
  }
}

/** Whether a socket has its connection, by what its client says of itself: it has one at a time. */
function followed({ client }: SocketModeReceiver, log: Log): () => boolean {
  let isUp = false;
  const turned = (up: boolean, text: string) => {
    if (isUp !== up) log.info({}, text);
    isUp = up;
  };
  client.on('connected', () => turned(true, 'the socket is connected'));
  client.on('close', () => turned(false, 'the socket lost its connection'));
  return () => isUp;
}

function portOf(server: unknown): number | null {
  const address =
    typeof server === 'object' && server !== null && 'address' in server ? (server as Server).address() : null;
  return typeof address === 'object' && address !== null ? address.port : null;
}

/**
 * The token of one workspace, and who we are in it as soon as the platform has said so. That is asked once we answer, and
 * nobody waits for it: that the token is not valid is said in the log before the first question.
 */
function oneWorkspace({ api }: Config, botToken: string, log: Log) {
  let ids: { readonly botId?: string; readonly botUserId?: string } = {};
  return {
    authorize: () => Promise.resolve({ botToken, ...ids }),
    ask: async () => {
      try {
        const client = new webApi.WebClient(botToken, { ...clientOptions(api), logger: quiet(log) });
        const self = await client.auth.test();
        ids = {
          ...(self.bot_id ? { botId: self.bot_id } : {}),
          ...(self.user_id ? { botUserId: self.user_id } : {}),
        };
      } catch (error) {
        if (error instanceof webApi.WebAPIPlatformError) {
          log.error({ error: error.data.error }, 'the platform does not know the token of the bot');
        } else {
          log.warn(errorData(error), 'the platform could not be asked who we are');
        }
      }
    },
  };
}

function installingOf({ tenancy, publicUrl, pictures }: Config, { installations }: Inside) {
  if (tenancy.kind === 'one' || installations === null) return { installerOptions: {} };
  return {
    clientId: tenancy.clientId,
    clientSecret: tenancy.clientSecret,
    stateSecret: tenancy.stateSecret,
    installationStore: installations,
    scopes: scopesFor(pictures.kind === 'upload'),
    ...(publicUrl === null ? {} : { redirectUri: `${publicUrl}${REDIRECT_PATH}` }),
    installerOptions: {
      installPath: INSTALL_PATH,
      redirectUriPath: REDIRECT_PATH,
      renderHtmlForInstallPath: installPage,
      callbackOptions: {
        success: (_: unknown, __: unknown, ___: unknown, response: ServerResponse) =>
          page(response, 200, successPage()),
        failure: (_: unknown, __: unknown, ___: unknown, response: ServerResponse) =>
          page(response, 400, failurePage()),
      },
    },
  };
}

function page(response: ServerResponse, status: number, body: string): void {
  response.writeHead(status, {
    'content-type': 'text/html; charset=utf-8',
    'content-security-policy': "default-src 'none'; style-src 'unsafe-inline'",
    'x-content-type-options': 'nosniff',
  });
  response.end(body);
}

function routesOf({ servePicture, log }: Inside): CustomRoute[] {
  if (servePicture === null) return [];
  const handler: CustomRoute['handler'] = (request, response) => {
    const { pathname } = new URL(request.url ?? '/', 'http://localhost');
    servePicture(pathname.slice(PICTURE_PATH.length)).then(
      ({ status, headers, body }) => {
        response.writeHead(status, headers);
        response.end(body);
      },
      (error: unknown) => {
        log.error(errorData(error), 'a picture could not be drawn');
        response.writeHead(500, {});
        response.end();
      },
    );
  };
  return [{ path: `${PICTURE_PATH}:name`, method: ['GET'], handler }];
}

/** The framework's own words go to our log only as far as they are constant: what follows a colon may be anybody's. */
function quiet(log: Log): Logger {
  const said = (words: readonly unknown[]) => ({ said: String(words[0]).split(/[:({]/, 1)[0]?.slice(0, 120) ?? '' });
  return {
    debug: () => undefined,
    info: () => undefined,
    warn: (...words) => log.warn(said(words), 'the framework warns'),
    error: (...words) => log.error(said(words), 'the framework fails'),
    setLevel: () => undefined,
    getLevel: () => LogLevel.WARN,
    setName: () => undefined,
  };
}
