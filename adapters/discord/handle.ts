import { apology, tooFast } from '../../src/card/trouble.ts';
import { errorData, logAbout } from '../../src/log.ts';
import { openPaces } from '../../src/pace.ts';
import { within } from '../../src/patience.ts';
import { loggedDesk } from '../../src/question-log.ts';
import { DeliveredBefore } from '../../src/records/delivery.ts';
import { StorageAway } from '../../src/records/storage-away.ts';
import { suggest } from '../../src/suggest.ts';
import { deskFor, openTwice } from '../../src/twice.ts';
import { readCustomId } from './custom-id.ts';
import { label } from './escape.ts';
import { LIMITS, OURS, PACES } from './limits.ts';
import { isNumberOption, suggestedFor } from './options.ts';
import type { Answers, Done, Handled, Ports, Sender, Where, Work } from './ports.ts';
import { commandWork, fillWork, pressWork, tellWork } from './questions.ts';
import { type Incoming, readIncoming, type Scene } from './read.ts';
import { sentence } from './render.ts';
import { messageResponse, privately, said } from './responses.ts';
import { messageCommandWork, pinTextWork, pinWork, replyWork } from './standard-answers.ts';
import { CALLBACK, type Choice, EPHEMERAL, type Post, type Response } from './wire.ts';
import { WORDS } from './words.ts';

type Told = Exclude<Incoming, { readonly kind: 'ping' | 'unknown' }>;

/** The platform counts milliseconds from the first of January 2015 in its ids. */
const FIRST_MS = 1_420_070_400_000n;

const NOBODY: Answers = { first: null, later: null };

/**
 * The whole adapter as one function: an interaction as raw JSON in, the first answer and what is still to be sent out.
 * Both ways an interaction can come, over the gateway and as a request, call it and do nothing else.
 */
export function openHandler(ports: Ports): (payload: unknown) => Promise<Handled> {
  const paces = openPaces(OURS.paced);
  const isSecond = openTwice(OURS.remembered);

  const retryMs = ({ kind, scene }: Told): number => {
    const { who } = scene.visitor ?? {};
    const person = who === undefined ? scene.id : `${who.place} ${who.person}`;
    const typing = kind === 'typing';
    const keys = [
      { key: `${typing ? 'typing' : 'person'} ${person}`, pace: typing ? PACES.typing : PACES.person },
      ...(typing || who === undefined ? [] : [{ key: `place ${who.place}`, pace: PACES.place }]),
    ];
    return paces(keys, ports.nowMs());
  };

  /** `own` are the ports with the log of this one payload. */
  const taken = async (payload: unknown, own: Ports): Promise<Answers> => {
    const { log, notice } = own;
    const incoming = readIncoming(payload);
    if (incoming.kind === 'ping') {
      notice?.({ kind: 'payload', of: 'ping', outcome: 'answered' });
      return { first: { type: CALLBACK.pong }, later: null };
    }
    if (incoming.kind === 'unknown') {
      log.warn({ type: incoming.type }, 'an interaction of a kind that is not known here');
      notice?.({ kind: 'payload', of: 'unknown', outcome: 'failed' });
      return NOBODY;
    }
    const { id } = incoming.scene;
    if (isSecond(id)) {
      log.info({ id }, 'an interaction came a second time');
      notice?.({ kind: 'payload', of: incoming.kind, outcome: 'repeated' });
      return NOBODY;
    }
    const lateMs = own.nowMs() - Number((BigInt(id) >> 22n) + FIRST_MS);
    if (lateMs > LIMITS.firstAnswerMs) log.warn({ id, lateMs }, 'an interaction came late');
    const waitMs = retryMs(incoming);
    if (waitMs > 0) {
      log.info({ id, waitMs }, 'an interaction came too fast');
      notice?.({ kind: 'payload', of: incoming.kind, outcome: 'paced' });
      return { first: incoming.kind === 'typing' ? choices([]) : privately(tooFast(waitMs)), later: null };
    }
    return handled(incoming, { ...own, desk: deskFor({ id, taker: own.logId() }, own.desk) });
  };

  return async (payload) => {
    const logId = ports.logId();
    const log = logAbout(ports.log, { logId });
    const desk = loggedDesk(ports.desk, log, ports.nowMs);
    const { first, later } = await taken(payload, { ...ports, desk, log, logId: () => logId });
    return { first, later, log };
  };
}

/** The one catch: what only we can have caused ends here, in the log and in a plain apology. */
async function handled(incoming: Told, ports: Ports): Promise<Answers> {
  const { scene, kind } = incoming;
  let isCounted = false;
  const count = (outcome: 'failed' | 'repeated') => {
    isCounted = true;
    ports.notice?.({ kind: 'payload', of: kind, outcome });
  };
  const fault = (error: unknown): Post | null => {
    if (error instanceof DeliveredBefore) {
      count('repeated');
      ports.log.info({ id: scene.id }, 'an interaction came to another process first');
      return null;
    }
    count('failed');
    ports.log.error({ id: scene.id, kind, ...errorData(error) }, 'an interaction failed');
    return sentence(apology(ports.logId()));
  };
  const failed = (error: unknown): Response | null => {
    const post = fault(error);
    if (post === null) return null;
    return kind === 'typing' ? choices([]) : messageResponse(post, false);
  };
  const answers = await startedOrFailed(incoming, ports, { fault, failed });
  if (!isCounted) {
    const isDeferred = answers.first !== null && ANNOUNCEMENTS.includes(answers.first.type);
    ports.notice?.({ kind: 'payload', of: kind, outcome: isDeferred ? 'deferred' : 'answered' });
  }
  return answers;
}

const ANNOUNCEMENTS: readonly number[] = [CALLBACK.deferMessage, CALLBACK.deferUpdate];

async function startedOrFailed(incoming: Told, ports: Ports, failing: Failing): Promise<Answers> {
  try {
    return await started(workOf(incoming, ports), ports, failing);
  } catch (error) {
    return { first: failing.failed(error), later: null };
  }
}

/** What to say of an error; null where nothing is, because another process does the work and says what came of it. */
type Failing = {
  readonly fault: (error: unknown) => Post | null;
  readonly failed: (error: unknown) => Response | null;
};

function workOf(incoming: Told, ports: Ports): Work {
  const { scene } = incoming;
  switch (incoming.kind) {
    case 'command':
      return commandWork(incoming, scene, ports);
    case 'message-command':
      return messageCommandWork(incoming.name, incoming.target, scene, ports);
    case 'typing':
      return typingWork(incoming, scene, ports);
    case 'press': {
      const press = readCustomId(incoming.customId);
      if (press === null) return said(WORDS.unknownButton);
      if (press.kind === 'pin-message' || press.kind === 'pin-topic') return pinWork(press, scene, ports);
      return pressWork(press, incoming.values, scene, ports);
    }
    case 'submit': {
      const press = readCustomId(incoming.customId);
      switch (press?.kind) {
        case 'tell':
          return tellWork(press.command, incoming.fields, scene, ports);
        case 'fill':
          return fillWork(press, incoming.fields, scene, ports);
        case 'pin-text':
          return pinTextWork(press.message, incoming.fields, scene, ports);
        case 'reply':
          return replyWork(press, incoming.fields, scene, ports);
        default:
          return said(WORDS.unknownButton);
      }
    }
  }
}

/** Suggestions while somebody types; where they cannot be had in time, none. */
function typingWork(
  { command, action, option, typed }: Extract<Told, { readonly kind: 'typing' }>,
  { visitor }: Scene,
  ports: Ports,
): Work {
  return {
    kind: 'now',
    instead: choices([]),
    respond: async () => {
      const what = suggestedFor(command, action, option);
      if (what === null || visitor === null) return choices([]);
      try {
        const found = await suggest(what, typed, visitor.who, ports.records);
        const number = isNumberOption(command, action, option);
        return choices(
          found
            .filter(({ value }) => value.length <= LIMITS.choiceValue)
            .map((each) => ({
              name: label(each.label, LIMITS.choiceName),
              value: number ? Number(each.value) : each.value,
            })),
        );
      } catch (error) {
        if (!(error instanceof StorageAway)) throw error;
        return choices([]);
      }
    },
  };
}

function choices(found: readonly Choice[]): Response {
  return { type: CALLBACK.choices, data: { choices: found } };
}

/** The work is done by another process, which says what came of it. */
const ELSEWHERE = 'elsewhere';

/** Does the work, and announces it first where it takes longer than the platform waits. */
async function started(work: Work, ports: Ports, { fault, failed }: Failing): Promise<Answers> {
  switch (work.kind) {
    case 'now':
      return {
        first: (await within(work.respond().catch(failed), OURS.patienceMs, ports.timer)) ?? work.instead,
        later: null,
      };
    case 'later': {
      const run = async (send: Sender) => {
        try {
          await work.run(send);
        } catch (error) {
          const post = fault(error);
          if (post !== null) await send.edit(post);
        }
      };
      return { first: announced(work.everybody ? 'public' : 'private'), later: run };
    }
    case 'answer': {
      const running = work.run().catch((error: unknown): Done | typeof ELSEWHERE => {
        const post = fault(error);
        return post === null ? ELSEWHERE : { where: 'private', posts: [post] };
      });
      const done = await within(running, OURS.patienceMs, ports.timer);
      if (done === ELSEWHERE) return NOBODY;
      if (done !== null) return atOnce(done);
      return {
        first: announced(work.defer),
        later: async (send) => {
          const late = await running;
          if (late !== ELSEWHERE) await afterAnnouncing(late, work.defer, send);
        },
      };
    }
  }
}

function announced(where: Where): Response {
  if (where === 'update') return { type: CALLBACK.deferUpdate };
  return { type: CALLBACK.deferMessage, data: { flags: where === 'public' ? 0 : EPHEMERAL } };
}

function atOnce({ where, posts, after }: Done): Answers {
  const [post = sentence(WORDS.slow), ...rest] = posts;
  const first: Response =
    where === 'update'
      ? { type: CALLBACK.update, data: post.body, files: post.files }
      : messageResponse(post, where === 'public');
  if (rest.length === 0 && after === undefined) return { first, later: null };
  return {
    first,
    later: async (send) => {
      for (const each of rest) await send.follow(each, where === 'public');
      await after?.(send);
    },
  };
}

/** The answer goes where it was announced; one that is for the asker alone does not go out where all could see it. */
async function afterAnnouncing({ where, posts, after }: Done, announcedTo: Where, send: Sender): Promise<void> {
  const [post = sentence(WORDS.slow), ...rest] = posts;
  const everybody = where === 'public';
  if (where === announcedTo) {
    await send.edit(post);
  } else {
    if (announcedTo !== 'update') await send.remove();
    await send.follow(post, everybody);
  }
  for (const each of rest) await send.follow(each, everybody);
  await after?.(send);
}
