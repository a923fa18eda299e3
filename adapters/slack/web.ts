import { type Logger, webApi } from '@slack/bolt';
import { errorData, type Log } from '../../src/log.ts';
import type { Notice } from '../../src/notice.ts';
import { OURS } from './limits.ts';
import type { Web, WebReply } from './ports.ts';

/** A rate limit that is over this soon is waited for; a person does not wait for a longer one. */
const SHORT_LIMIT_S = 2;

/**
 * The codes that are counted by name: those that say what to do about them. A method's page lists its own, dozens in all;
 * the log has every one.
 */
const KNOWN_CODES: ReadonlySet<string> = new Set([
  'ratelimited',
  'unreachable',
  'internal_error',
  'service_unavailable',
  'invalid_auth',
  'token_revoked',
  'account_inactive',
  'missing_scope',
  'not_in_channel',
  'channel_not_found',
  'is_archived',
  'expired_trigger_id',
  'invalid_blocks',
  'msg_blocks_too_long',
]);

/** As much of the platform's own client as is used here: it knows the token. */
export type Client = {
  readonly apiCall: (method: string, args: Record<string, unknown>) => Promise<object>;
};

/** How the platform's own client is set, so that nobody waits for it longer than people wait. */
export function clientOptions(api: string): webApi.WebClientOptions {
  return {
    slackApiUrl: api,
    timeout: OURS.webTimeoutMs,
    retryConfig: { retries: OURS.webRetries, minTimeout: 200, maxTimeout: 1000 },
    rejectRateLimitedCalls: true,
    // A method is one of ours and never an address.
    allowAbsoluteUrls: false,
  };
}

/**
 * The platform's own client for one payload, made when something is first asked of it: most payloads ask nothing, and it
 * is large.
 */
export function openClient(api: string, token: string, teamId: string | undefined, logger: Logger): Client {
  const options = { ...clientOptions(api), logger, ...(teamId === undefined ? {} : { teamId }) };
  let made: webApi.WebClient | undefined;
  return {
    apiCall: (method, args) => {
      made ??= new webApi.WebClient(token, options);
      return made.apiCall(method, args);
    },
  };
}

/** The ways to the platform with the token of one workspace. None of them throws: what went wrong comes back. */
export function openWeb(client: Client, log: Log, wait: (ms: number) => Promise<void>, notice?: Notice): Web {
  const call = async (method: string, args: Readonly<Record<string, unknown>>, tries: number): Promise<WebReply> => {
    try {
      return { ok: true, data: { ...(await client.apiCall(method, { ...args })) } };
    } catch (error) {
      const code = codeOf(error);
      notice?.({ kind: 'fault', code: KNOWN_CODES.has(code) ? code : 'other' });
      if (error instanceof webApi.WebAPIRateLimitedError && error.retryAfter <= SHORT_LIMIT_S && tries > 1) {
        await wait(error.retryAfter * 1000);
        return call(method, args, tries - 1);
      }
      log.warn(
        { method, error: code, ...(code === 'unreachable' ? errorData(error) : {}) },
        'a call of the Web API failed',
      );
      return { ok: false, error: code };
    }
  };

  const posted = async (what: string, url: string, init: RequestInit): Promise<boolean> => {
    try {
      const reply = await fetch(url, { method: 'POST', ...init, signal: AbortSignal.timeout(OURS.webTimeoutMs) });
      await reply.body?.cancel();
      if (!reply.ok) {
        notice?.({ kind: 'fault', code: String(reply.status) });
        log.warn({ what, status: reply.status }, 'the platform did not take a message or a file');
      }
      return reply.ok;
    } catch (error) {
      notice?.({ kind: 'fault', code: 'unreachable' });
      log.warn({ what, ...errorData(error) }, 'the platform could not be reached');
      return false;
    }
  };

  return {
    call: (method, args) => call(method, args, 2),
    respond: (url, message) =>
      posted('message', url, { headers: { 'content-type': 'application/json' }, body: JSON.stringify(message) }),
    send: (url, bytes) => posted('file', url, { body: Buffer.from(bytes) }),
  };
}

function codeOf(error: unknown): string {
  if (error instanceof webApi.WebAPIPlatformError) return error.data.error;
  if (error instanceof webApi.WebAPIRateLimitedError) return 'ratelimited';
  return 'unreachable';
}
