import { LIMITS, OURS } from './limits.ts';
import type { Done, Ports, Send, Web, Where } from './ports.ts';
import type { Scene } from './read.ts';
import { cardModal, sentence } from './render.ts';
import type { Block, Message, Modal, Responded } from './wire.ts';
import { WORDS } from './words.ts';

/** A message as it goes to an address for answers. */
export function responded(post: Message, where: Where, { thread, mine }: Pick<Scene, 'thread' | 'mine'>): Responded {
  const everybody = where === 'public' || (where === 'update' && mine === false);
  return {
    ...post,
    response_type: everybody ? 'in_channel' : 'ephemeral',
    replace_original: where === 'update',
    ...(thread === null || where === 'update' ? {} : { thread_ts: thread }),
  };
}

/** Several messages as one window: it holds more than a message does. */
export function asModal(posts: readonly Message[]): Modal {
  const blocks: Block[] = [];
  for (const [index, post] of posts.entries()) {
    // One place is kept free, for the words that say where the rest is.
    if (blocks.length + post.blocks.length >= LIMITS.viewBlocks) {
      blocks.push(...sentence(`${WORDS.tooMuch} ${posts.length - index}`).blocks);
      break;
    }
    blocks.push(...post.blocks);
  }
  return cardModal(blocks);
}

/**
 * The way messages of one payload go: to its address for answers as long as that works, which is a few times and half an
 * hour, then by the Web API; into the window where it came from a window; into the thread where it came from a mention.
 */
export function openSend(scene: Scene, web: Web | null, ports: Pick<Ports, 'log' | 'nowMs'>): Send {
  let uses = scene.address?.used ?? 0;
  const failed = (by: string, error: string): false => {
    ports.log.warn({ by, error }, 'a message did not arrive');
    return false;
  };

  const byAddress = async (post: Message, where: Where): Promise<boolean> => {
    const { address } = scene;
    if (address === null || web === null || uses >= LIMITS.responses) return false;
    if (ports.nowMs() - address.sinceMs > OURS.responseMs) return false;
    uses += 1;
    return web.respond(address.url, responded(post, where, scene));
  };

  const byWeb = async (post: Message, where: Where): Promise<boolean> => {
    const { channel, thread, threaded, user } = scene;
    if (web === null || channel === null) return failed('web', 'nowhere');
    const at = thread === null || (where === 'private' && !threaded) ? {} : { thread_ts: thread };
    const everybody = where === 'public' || (where === 'update' && scene.mine === false);
    const reply = everybody
      ? await web.call('chat.postMessage', { channel, ...at, ...post })
      : await web.call('chat.postEphemeral', { channel, user, ...at, text: post.text, blocks: post.blocks });
    return reply.ok || failed(everybody ? 'chat.postMessage' : 'chat.postEphemeral', reply.error);
  };

  const byView = async (post: Message): Promise<boolean> => {
    const { view, trigger } = scene;
    if (web === null || view === null) return failed('view', 'nowhere');
    const modal = asModal([post]);
    const reply =
      view.kind === 'modal'
        ? await web.call('views.update', { view_id: view.id, view: modal })
        : await web.call('views.open', { trigger_id: trigger, view: modal });
    return reply.ok || failed('views', reply.error);
  };

  return async (post, where) => {
    if (scene.view !== null) return byView(post);
    return (await byAddress(post, where)) || byWeb(post, where);
  };
}

/** Sends an answer, and does what comes after it. `sent` messages went out with the first answer already. */
export async function deliver(done: Done, scene: Scene, send: Send, sent = 0): Promise<void> {
  const left = done.posts.slice(sent);
  const [first] = left;
  if (scene.view !== null && first !== undefined && left.length > 1) {
    await send({ ...first, blocks: asModal(left).blocks }, 'private');
  } else {
    for (const [index, post] of left.entries()) {
      // Only the first page takes the place of what was there; the others follow it.
      const follows = index + sent > 0 && done.where === 'update';
      await send(post, follows ? (scene.mine === false ? 'public' : 'private') : done.where);
    }
  }
  await done.after?.(send);
}
