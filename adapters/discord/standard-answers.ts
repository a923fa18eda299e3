import { refusalCard } from '../../src/card/desk.ts';
import { moderatorsOnly } from '../../src/card/kept.ts';
import type { Visitor } from '../../src/commands/kept.ts';
import { KEPT_COMMANDS } from '../../src/commands/kept-list.ts';
import { mayPin } from '../../src/records/settings.ts';
import { suggest } from '../../src/suggest.ts';
import { answer, FIRST, shownToAll } from './answer.ts';
import type { Press } from './custom-id.ts';
import { escaped } from './escape.ts';
import { LIMITS } from './limits.ts';
import { pinModal, replyModal } from './modals.ts';
import type { Ports, Sender, Work } from './ports.ts';
import type { Scene, Target, Told } from './read.ts';
import { checked, sentence } from './render.ts';
import { modalResponse, privately, said } from './responses.ts';
import { button, buttonRows } from './rows.ts';
import { PERMISSION, type Post } from './wire.ts';
import { NOT_PINNED, WORDS } from './words.ts';

/** The commands on a message, by what they are called there. */
export const MESSAGE_COMMANDS = { pin: 'Pin as standard answer', reply: 'Answer from standard answers' } as const;

const PIN_ACTION = KEPT_COMMANDS.find(({ name }) => name === 'answer')?.actions.find(({ name }) => name === 'pin');

/** A command used on somebody's message. */
export function messageCommandWork(name: string, target: Target, scene: Scene, ports: Ports): Work {
  const { visitor } = scene;
  if (visitor === null) return said(WORDS.noPlace);
  switch (name) {
    case MESSAGE_COMMANDS.pin:
      return pinFormWork(target, visitor, ports);
    case MESSAGE_COMMANDS.reply:
      return replyFormWork(target, visitor, ports);
    default:
      return said(WORDS.unknownCommand);
  }
}

function pinFormWork(target: Target, visitor: Visitor, ports: Ports): Work {
  const action = PIN_ACTION;
  if (action === undefined) return said(WORDS.unknownCommand);
  return {
    kind: 'now',
    instead: privately(WORDS.slow),
    respond: async () => {
      if (!(await mayModerate(visitor, ports))) return privately(refused());
      // One of our own answers is pinned by its code, so that it is solved anew each time; anything else by its words.
      const told = target.code === null ? { text: target.content } : { from: `#${target.code}` };
      return modalResponse(pinModal(action, target.id, told));
    },
  };
}

function replyFormWork(target: Target, visitor: Visitor, ports: Ports): Work {
  return {
    kind: 'now',
    // Without the list the topic is typed.
    instead: modalResponse(replyModal(target.id, target.author, [])),
    respond: async () => {
      const topics = await suggest('topics', '', visitor.who, ports.records);
      // A full list may not be the whole of it; then the topic is typed.
      const names = topics.length < LIMITS.selectOptions ? topics.map(({ value }) => value) : [];
      return modalResponse(replyModal(target.id, target.author, names));
    },
  };
}

/** The modal of a message that becomes a standard answer: the desk keeps it, and the message may be pinned as well. */
export function pinTextWork(message: string, fields: Told, scene: Scene, ports: Ports): Work {
  const request = { command: 'answer', setup: '', options: { ...fields, action: 'pin' } };
  const offers = [{ label: 'Pin that message here', press: { kind: 'pin-message', message } as const }];
  return { kind: 'answer', defer: 'private', run: () => answer(request, scene, ports, { where: 'private', offers }) };
}

/** Pins a message in its channel, or posts a topic and pins that. */
export function pinWork(
  press: Extract<Press, { readonly kind: 'pin-message' | 'pin-topic' }>,
  scene: Scene,
  ports: Ports,
): Work {
  const { visitor, channel } = scene;
  if (visitor === null || channel === null) return said(WORDS.noPlace);
  if (press.kind === 'pin-message') {
    return {
      kind: 'later',
      everybody: false,
      run: async (send) => {
        const allowed = scene.mayPinMessages || (await mayModerate(visitor, ports));
        await send.edit(allowed ? await pinned(channel, press.message, scene, send) : sentence(refused()));
      },
    };
  }
  return {
    kind: 'later',
    everybody: true,
    run: async (send) => {
      const request = { command: 'answer', setup: '', options: { action: 'show', topic: press.topic } };
      const { kind, done } = await shownToAll(request, FIRST, scene, ports);
      const [first, ...rest] = done.posts;
      if (kind === 'refused' || first === undefined || !(await mayModerate(visitor, ports))) {
        await send.remove();
        await send.follow(kind === 'refused' && first !== undefined ? first : sentence(refused()), false);
        return;
      }
      const message = await send.edit(first);
      for (const post of rest) await send.follow(post, true);
      await send.follow(await pinned(channel, message, scene, send), false);
    },
  };
}

/** Pins, and says how it went; where somebody can mend it, with a button to try again. */
async function pinned(channel: string, message: string, scene: Scene, send: Sender): Promise<Post> {
  // Told before the platform is asked: its refusals count, and too many of them shut the program out.
  const may = (scene.botMay & (PERMISSION.pinMessages | PERMISSION.administrator)) !== 0n;
  const failed = may ? await send.pin(channel, message) : 'permission';
  if (failed === null) return sentence(WORDS.pinned);
  return sentence(NOT_PINNED[failed], buttonRows([button('Try to pin again', { kind: 'pin-message', message })]));
}

/** The modal of a reply: the topic for everybody, with a line of one's own above it, at the message it answers. */
export function replyWork(
  { message }: Extract<Press, { readonly kind: 'reply' }>,
  { topic = '', line = '' }: Told,
  scene: Scene,
  ports: Ports,
): Work {
  const { visitor, channel } = scene;
  if (visitor === null || channel === null) return said(WORDS.noPlace);
  return {
    kind: 'later',
    everybody: false,
    run: async (send) => {
      const request = { command: 'answer', setup: '', options: { action: 'show', topic } };
      const { kind, done } = await shownToAll(request, FIRST, scene, ports);
      const [first, ...rest] = done.posts;
      if (kind === 'refused' || first === undefined) {
        if (first !== undefined) await send.edit(first);
        return;
      }
      const own = line.trim() === '' ? [] : line.split('\n').map((each) => escaped(each));
      const personal = withLines(first, [`-# from ${visitor.who.person}`, ...own]);
      const mayWrite = (scene.botMay & (PERMISSION.sendMessages | PERMISSION.sendInThreads)) !== 0n;
      if (!(mayWrite && (await send.reply(channel, message, personal)))) {
        const address = `https://discord.com/channels/${scene.server ?? '@me'}/${channel}/${message}`;
        await send.follow(withLines(personal, [`In answer to ${address}`]), true);
      }
      for (const post of rest) await send.follow(post, true);
      await send.edit(sentence(WORDS.replied));
    },
  };
}

function withLines({ body, files }: Post, lines: readonly string[]): Post {
  return checked({ body: { ...body, content: [...lines, body.content].join('\n') }, files });
}

/** Those whom the settings let pin, and those who run the place; looked up at every press, for rights may be taken back. */
async function mayModerate({ who, roles, runsPlace }: Visitor, { records }: Ports): Promise<boolean> {
  return runsPlace || mayPin(await records.settings.read(who.place), who.person, roles);
}

function refused(): string {
  const { answer: first, lines } = refusalCard(moderatorsOnly('answer', 'pin'));
  return [first, ...lines].join('\n');
}
