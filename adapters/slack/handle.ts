import { apology, tooFast } from '../../src/card/trouble.ts';
import { errorData, logAbout } from '../../src/log.ts';
import type { Outcome as Became } from '../../src/notice.ts';
import { openPaces } from '../../src/pace.ts';
import { within } from '../../src/patience.ts';
import { loggedDesk } from '../../src/question-log.ts';
import { DeliveredBefore } from '../../src/records/delivery.ts';
import { StorageAway } from '../../src/records/storage-away.ts';
import { deskFor, openTwice } from '../../src/twice.ts';
import { answer, type Talk } from './answer.ts';
import { asModal, deliver, openSend, responded } from './delivery.ts';
import { NO_NAMES, shown } from './escape.ts';
import { homeOf } from './home.ts';
import { OURS, PACES } from './limits.ts';
import type { Done, Handled, Outcome, Ports, Web } from './ports.ts';
import { readPress } from './press.ts';
import { pageOutcome } from './printed-page.ts';
import { commandOf, commandOutcome, done, fillOutcome, pressOutcome, said, tellOutcome } from './questions.ts';
import { type Incoming, readIncoming } from './read.ts';
import { sentence } from './render.ts';
import { pinOutcome, pinTextOutcome, replyOutcome, shortcutOutcome } from './standard-answers.ts';
import { optionsFor } from './suggestions.ts';
import type { Ack } from './wire.ts';
import { WORDS } from './words.ts';

type Told = Exclude<Incoming, { readonly kind: 'unknown' }>;

const RECEIVED: Handled = { ack: undefined, later: null };

/** What only the installation knows: what to do when the program is taken out of a workspace. */
export type Gone = (team: string) => Promise<void>;

/**
 * The whole adapter as one function: a payload as raw JSON in, the first answer and what is still to be sent out. Both
 * ways a payload can come, over a socket and as a request, call it and do nothing else. Without `web` there is no token
 * for the workspace: then the first answer is the only way to say anything.
 */
export function openHandler(ports: Ports, gone: Gone): (payload: unknown, web: Web | null) => Promise<Handled> {
  const paces = openPaces(OURS.paced);
  const isSecond = openTwice(OURS.remembered);

  const retryMs = ({ kind, scene }: Told): number => {
    const person = `${scene.team} ${scene.user}`;
    const typing = kind === 'typing';
    const keys = [
      { key: `${typing ? 'typing' : 'person'} ${person}`, pace: typing ? PACES.typing : PACES.person },
      ...(typing ? [] : [{ key: `place ${scene.team}`, pace: PACES.place }]),
    ];
    return paces(keys, ports.nowMs());
  };

  const taken = async (payload: unknown, web: Web | null, ports: Ports): Promise<Handled> => {
    const { log } = ports;
    const incoming = readIncoming(payload, ports.nowMs());
    const became = (outcome: Became) => ports.notice?.({ kind: 'payload', of: incoming.kind, outcome });
    if (incoming.kind === 'unknown') {
      log.warn({ type: incoming.type }, 'a payload of a kind that is not known here');
      became('answered');
      return RECEIVED;
    }
    const { scene, kind } = incoming;
    if (kind === 'gone') {
      await gone(scene.team);
      log.info({ team: scene.team }, 'the program was taken out of a workspace');
      became('answered');
      return RECEIVED;
    }
    if (scene.id !== '' && kind !== 'typing' && isSecond(ownText(`${kind} ${scene.id}`))) {
      log.info({ kind }, 'a payload came a second time');
      became('repeated');
      return RECEIVED;
    }
    const talk = { scene, web };
    if (web === null && kind !== 'command') {
      log.warn({ team: scene.team, kind }, 'a payload from a workspace without an installation');
      became('failed');
      return kind === 'typing' ? { ack: { options: [] }, later: null } : RECEIVED;
    }
    if (web === null) {
      became('answered');
      return firstAnswer(said(WORDS.notInstalled), talk, ports, null);
    }
    const waitMs = retryMs(incoming);
    if (waitMs > 0) {
      log.info({ kind, waitMs }, 'a payload came too fast');
      became('paced');
      if (kind === 'typing') return { ack: { options: [] }, later: null };
      if (kind === 'home') return RECEIVED;
      return answeredBy(incoming, Promise.resolve(trouble(tooFast(waitMs))), talk, ports);
    }
    if (scene.id === '') return handled(incoming, talk, ports);
    const delivery = { id: `${kind} ${scene.id}`, taker: ports.logId() };
    return handled(incoming, talk, { ...ports, desk: deskFor(delivery, ports.desk) });
  };

  return (payload, web) => {
    const logId = ports.logId();
    const log = logAbout(ports.log, { logId });
    const desk = loggedDesk(ports.desk, log, ports.nowMs);
    return taken(payload, web, { ...ports, desk, log, logId: () => logId });
  };
}

/** A text for itself: what was cut out of a payload keeps the whole payload in memory, and with it what was typed. */
function ownText(text: string): string {
  return Buffer.from(text).toString();
}

/** What only we can have caused ends here, in the log, the count and a plain apology. */
async function handled(incoming: Told, talk: Talk, ports: Ports): Promise<Handled> {
  const { kind } = incoming;
  const count = (outcome: Became) => ports.notice?.({ kind: 'payload', of: kind, outcome });
  let isCounted = false;
  const fault = (error: unknown): string | null => {
    isCounted = true;
    if (error instanceof DeliveredBefore) {
      count('repeated');
      ports.log.info({ kind }, 'a payload came to another process first');
      return null;
    }
    count('failed');
    ports.log.error({ kind, ...errorData(error) }, 'a payload failed');
    return apology(ports.logId());
  };
  const given = await started(incoming, talk, ports, fault);
  if (!isCounted) count(given.ack === undefined && given.later !== null ? 'deferred' : 'answered');
  return given;
}

/**
 * Tells the log of a fault, and gives the apology for it; null where there is none to give, because another process does
 * the work and says what came of it.
 */
type Fault = (error: unknown) => string | null;

async function started(incoming: Told, talk: Talk, ports: Ports, fault: Fault): Promise<Handled> {
  switch (incoming.kind) {
    case 'typing': {
      const { field, typed, scene } = incoming;
      const options = await optionsFor(field, typed, scene.who, ports.records).catch((error: unknown) => {
        fault(error);
        return [];
      });
      return { ack: { options }, later: null };
    }
    case 'home':
      return { ack: undefined, later: () => publishHome(talk, ports).catch((error: unknown) => void fault(error)) };
    default:
      return answeredBy(incoming, outcomeOf(incoming, talk, ports, fault), talk, ports);
  }
}

/** A command and a window are answered in the first answer itself where that is ready in time, all else afterwards. */
async function answeredBy(incoming: Told, running: Promise<Outcome>, talk: Talk, ports: Ports): Promise<Handled> {
  if (incoming.kind !== 'command' && incoming.kind !== 'submit') return afterwards(running, talk, ports);
  const outcome = await within(running, OURS.patienceMs, ports.timer);
  if (outcome === null) return afterwards(running, talk, ports);
  return firstAnswer(outcome, talk, ports, incoming.kind === 'submit' ? incoming.inputs : null);
}

/** Words of our own, also for a window: it stays open then, and nothing typed in it is lost. */
function trouble(words: string): Outcome {
  return { kind: 'done', where: 'private', posts: [sentence(words)], wrong: { field: '', message: words } };
}

async function outcomeOf(incoming: Told, talk: Talk, ports: Ports, fault: Fault): Promise<Outcome> {
  try {
    return await outcome(incoming, talk, ports);
  } catch (error) {
    if (error instanceof StorageAway) return trouble(WORDS.slow);
    const words = fault(error);
    return words === null ? { kind: 'nothing' } : trouble(words);
  }
}

async function outcome(incoming: Told, talk: Talk, ports: Ports): Promise<Outcome> {
  switch (incoming.kind) {
    case 'command':
      return commandOutcome(incoming.text, talk, ports);
    case 'shortcut':
      return shortcutOutcome(incoming.name, incoming.target, talk, ports);
    case 'press': {
      const press = readPress(incoming.press);
      if (press === null) return said(WORDS.unknownButton);
      if (press.kind === 'pin-message' || press.kind === 'pin-topic') return pinOutcome(press, talk, ports);
      if (press.kind === 'post-page') return pageOutcome(press, talk, ports);
      return pressOutcome(press, incoming.value, talk, ports);
    }
    case 'submit': {
      const press = readPress(incoming.press);
      switch (press?.kind) {
        case 'tell':
          return tellOutcome(press.command, incoming.fields, talk, ports);
        case 'fill':
          return fillOutcome(press, incoming.fields, talk, ports);
        case 'pin-text':
          return pinTextOutcome(press, incoming.fields, talk, ports);
        case 'reply':
          return replyOutcome(press, incoming.fields, talk, ports);
        default:
          return said(WORDS.unknownButton);
      }
    }
    case 'mention': {
      const { command, setup } = commandOf(incoming.text);
      const request = incoming.text === '' ? { command: 'help', setup: '' } : { command, setup };
      return done(await answer(request, talk, ports, { where: 'public' }));
    }
    case 'typing':
    case 'home':
    case 'gone':
      return { kind: 'nothing' };
  }
}

async function publishHome({ scene, web }: Talk, { records }: Ports): Promise<void> {
  if (scene.who === null || web === null) return;
  const view = await homeOf(scene.who, records);
  await web.call('views.publish', { user_id: scene.user, view });
}

/** Says "received" at once, and the rest when it is there. */
function afterwards(running: Promise<Outcome>, talk: Talk, ports: Ports): Handled {
  return {
    ack: undefined,
    later: async () => {
      const outcome = await running;
      const ready = outcome.kind === 'modal' ? await opened(outcome, talk) : outcome;
      if (ready !== null && ready.kind !== 'nothing') await sent(ready, talk, ports);
    },
  };
}

/** Sends an answer; a fault on the way is ours, and logged. */
async function sent(what: Done, talk: Talk, ports: Ports, already = 0): Promise<void> {
  const { scene } = talk;
  try {
    await deliver(what, scene, openSend(scene, talk.web, ports), already);
  } catch (error) {
    ports.log.error(errorData(error), 'an answer could not be sent');
  }
}

/** Opens a window; gives what to say instead where that fails, and null where it worked. */
async function opened(
  { modal, instead }: Extract<Outcome, { readonly kind: 'modal' }>,
  { scene, web }: Talk,
): Promise<({ readonly kind: 'done' } & Done) | null> {
  if (web === null || scene.trigger === null) return { kind: 'done', ...instead };
  const method = scene.view?.kind === 'modal' ? 'views.push' : 'views.open';
  const reply = await web.call(method, { trigger_id: scene.trigger, view: modal });
  return reply.ok ? null : { kind: 'done', ...instead };
}

/** What is ready in time goes out with the first answer itself, and so uses up nothing. */
async function firstAnswer(
  ready: Outcome,
  talk: Talk,
  ports: Ports,
  inputs: readonly string[] | null,
): Promise<Handled> {
  if (ready.kind === 'nothing') return RECEIVED;
  if (ready.kind === 'modal') {
    // The window must be asked for while its trigger lives, which is as long as the first answer may take.
    const opening = opened(ready, talk).then((what): Outcome => what ?? { kind: 'nothing' });
    const outcome = await within(opening, OURS.patienceMs, ports.timer);
    return outcome === null ? afterwards(opening, talk, ports) : firstAnswer(outcome, talk, ports, inputs);
  }
  if (inputs !== null) return submittedAnswer(ready, inputs, talk, ports);
  const [first, ...rest] = ready.posts;
  if (first === undefined) return afterwards(Promise.resolve(ready), talk, ports);
  const ack = responded(first, ready.where, talk.scene);
  const more = rest.length > 0 || ready.after !== undefined;
  return { ack, later: more ? () => sent(ready, talk, ports, 1) : null, unsent: () => sent(ready, talk, ports) };
}

/** A window that was sent off: what is wrong stands at its field; else the answer goes where the window was opened from. */
function submittedAnswer(ready: Done, inputs: readonly string[], talk: Talk, ports: Ports): Handled {
  const { scene } = talk;
  const { wrong, posts, after } = ready;
  // What no field stands for is said at the line, or at the first field, so that the window stays open.
  const at = [wrong?.field, 'setup', inputs[0]].find((field) => field !== undefined && inputs.includes(field));
  if (wrong !== undefined && at !== undefined) {
    const errors = { [at]: shown(wrong.message, NO_NAMES) };
    return { ack: { response_action: 'errors', errors }, later: null };
  }
  const reachable = scene.address !== null && ports.nowMs() - scene.address.sinceMs < OURS.responseMs;
  if (reachable || posts.length === 0) return afterwards(Promise.resolve(done(ready)), talk, ports);
  const ack: Ack = { response_action: 'update', view: asModal(posts) };
  const later = after === undefined ? null : () => sent(ready, talk, ports, posts.length);
  return { ack, later, unsent: () => sent(ready, talk, ports) };
}
