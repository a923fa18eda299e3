import { refusalCard } from '../../src/card/desk.ts';
import { moderatorsOnly, RIGHTS, rightsUnknown } from '../../src/card/kept.ts';
import { KEPT_COMMANDS } from '../../src/commands/kept-list.ts';
import { mayPin } from '../../src/records/settings.ts';
import type { Request } from '../../src/request.ts';
import { answer, FIRST, nowhere, shownToAll, type Talk } from './answer.ts';
import { openSend } from './delivery.ts';
import type { Names } from './escape.ts';
import { pinModal, replyModal } from './modals.ts';
import type { Outcome, Ports, Send } from './ports.ts';
import type { Press } from './press.ts';
import { done, opened, openingOf, said } from './questions.ts';
import type { Target, Told } from './read.ts';
import { RenderError, sentence, withLines } from './render.ts';
import type { Message } from './wire.ts';
import { NOT_PINNED, type NotPinned, PIN_ERRORS, WORDS } from './words.ts';

/** The shortcuts on a message, by the id each is registered under. */
export const SHORTCUTS = { pin: 'pin-as-standard-answer', reply: 'answer-from-standard-answers' } as const;

const PIN_ACTION = KEPT_COMMANDS.find(({ name }) => name === 'answer')?.actions.find(({ name }) => name === 'pin');

/** What stands for "may somebody pin": the desk asks the same of every action that changes a standard answer. */
const PINNING: Request = { command: 'answer', setup: 'pin' };

/** A shortcut used on somebody's message. */
export async function shortcutOutcome(name: string, target: Target, talk: Talk, ports: Ports): Promise<Outcome> {
  const { scene } = talk;
  if (scene.who === null) return done(nowhere());
  const { channel, message: stamp, thread, text, code } = target;
  switch (name) {
    case SHORTCUTS.pin: {
      if (PIN_ACTION === undefined) return said(WORDS.unknownButton);
      const refusal = await refusedToPin(talk, ports);
      if (refusal !== null) return said(refusal);
      // One of our own answers is pinned by its code, so that it is solved anew each time; anything else by its words.
      const told = code === null ? { text } : { from: `#${code}` };
      return opened(pinModal(PIN_ACTION, { channel, message: stamp }, told, openingOf(scene)));
    }
    case SHORTCUTS.reply:
      return opened(replyModal({ channel, thread }, openingOf(scene)));
    default:
      return said(WORDS.unknownButton);
  }
}

/** The window of a message that becomes a standard answer: the desk keeps it, and the message may be pinned as well. */
export async function pinTextOutcome(
  { channel, message: stamp }: Extract<Press, { readonly kind: 'pin-text' }>,
  fields: Told,
  talk: Talk,
  ports: Ports,
): Promise<Outcome> {
  const request = { command: 'answer', setup: '', options: { ...fields, action: 'pin' } };
  const press: Press = { kind: 'pin-message', channel, message: stamp };
  const offers = [{ label: 'Pin that message here', press }];
  return done(await answer(request, talk, ports, { where: 'private', offers }));
}

/** Pins a message in its channel, or posts a topic and pins that. */
export async function pinOutcome(
  press: Extract<Press, { readonly kind: 'pin-message' | 'pin-topic' }>,
  talk: Talk,
  ports: Ports,
): Promise<Outcome> {
  const { channel } = talk.scene;
  const refusal = await refusedToPin(talk, ports);
  if (refusal !== null) return said(refusal);
  if (press.kind === 'pin-message') {
    return done({ where: 'private', posts: [await pinned(press.channel, press.message, talk)] });
  }
  const request = { command: 'answer', setup: '', options: { action: 'show', topic: press.topic } };
  const { kind, done: shown } = await shownToAll(request, FIRST, talk, ports);
  const [first, ...rest] = shown.posts;
  if (kind === 'refused' || first === undefined || channel === null) return done(shown);
  const posted = await post(channel, null, first, talk);
  if (posted === null) return done({ where: 'private', posts: [sentence(WORDS.notPosted, [again(press)])] });
  for (const each of rest) await post(channel, null, each, talk);
  return done({ where: 'private', posts: [await pinned(channel, posted, talk)] });
}

/** The window of a reply: the topic for everybody, with a line of one's own above it, in the thread of the message. */
export async function replyOutcome(
  { channel, thread }: Extract<Press, { readonly kind: 'reply' }>,
  { topic = '', line = '' }: Told,
  talk: Talk,
  ports: Ports,
): Promise<Outcome> {
  const { scene } = talk;
  if (scene.who === null) return done(nowhere());
  const request = { command: 'answer', setup: '', options: { action: 'show', topic } };
  const inThread = { ...talk, scene: { ...scene, channel, thread } };
  const { kind, done: shown } = await shownToAll(request, FIRST, inThread, ports);
  const [first, ...rest] = shown.posts;
  if (kind === 'refused' || first === undefined) {
    return done(shown);
  }
  const names = await ports.people.names(scene.who.person, scene.team, talk.web);
  const own = line.trim() === '' ? [] : [`${scene.who.person}: ${line.trim()}`];
  const personal = own.length === 0 ? first : above(own, first, names);
  if (personal === null) {
    return done({
      where: 'private',
      posts: [sentence(WORDS.tooLong)],
      wrong: { field: 'line', message: WORDS.tooLong },
    });
  }
  const posts = [personal, ...rest];
  return done({ where: 'private', posts: [], after: (send) => replied(posts, channel, thread, inThread, ports, send) });
}

/** The answer with somebody's own line above it; null where both are too much for one message. */
function above(own: readonly string[], first: Message, names: Names): Message | null {
  try {
    return withLines(first, own, names);
  } catch (error) {
    if (!(error instanceof RenderError)) throw error;
    return null;
  }
}

/** Into the thread by the Web API where the program may write there, else by the address for answers. */
async function replied(
  posts: readonly Message[],
  channel: string,
  thread: string,
  talk: Talk,
  ports: Ports,
  send: Send,
): Promise<void> {
  const [first, ...rest] = posts;
  if (first === undefined) return;
  const byWeb = (await post(channel, thread, first, talk)) !== null;
  const sendThere = openSend(talk.scene, talk.web, ports);
  if (!(byWeb || (await sendThere(first, 'public')))) {
    await send(sentence(WORDS.notReplied), 'private');
    for (const each of posts) await send(each, 'private');
    return;
  }
  for (const each of rest) {
    if (byWeb) await post(channel, thread, each, talk);
    else await sendThere(each, 'public');
  }
  await send(sentence(WORDS.replied), 'private');
}

async function post(channel: string, thread: string | null, what: Message, { web }: Talk): Promise<string | null> {
  if (web === null) return null;
  const at = thread === null ? {} : { thread_ts: thread };
  const reply = await web.call('chat.postMessage', { channel, ...at, ...what });
  return reply.ok && typeof reply.data.ts === 'string' ? reply.data.ts : null;
}

/** Pins, and says how it went; where somebody can mend it, with a button to try again. */
async function pinned(channel: string, stamp: string, { web }: Talk): Promise<Message> {
  const reply = await web?.call('pins.add', { channel, timestamp: stamp });
  const failed: NotPinned | null = reply?.ok ? null : reason(reply?.error ?? '');
  if (failed === null) return sentence(WORDS.pinned);
  return sentence(NOT_PINNED[failed], [again({ kind: 'pin-message', channel, message: stamp })]);
}

function reason(error: string): NotPinned | null {
  const known = PIN_ERRORS[error];
  return known === undefined ? 'other' : known;
}

function again(press: Press) {
  return { label: 'Try to pin again', press };
}

/**
 * Why somebody may not pin; null for those whom the settings let, and those who run the place. Looked up at every press,
 * for rights may be taken back.
 */
async function refusedToPin({ scene, web }: Talk, { people, records }: Ports): Promise<string | null> {
  const met = await people.meet(scene, PINNING, web, records);
  if (met !== null) {
    const { who, roles, runsPlace } = met.visitor;
    if (runsPlace || mayPin(await records.settings.read(who.place), who.person, roles)) return null;
  }
  const isUnknown = met?.unknown.includes(RIGHTS.moderates) ?? false;
  const { answer: first, lines } = refusalCard(isUnknown ? rightsUnknown() : moderatorsOnly('answer', 'pin'));
  return [first, ...lines].join('\n');
}
