import { refusalCard } from '../../src/card/desk.ts';
import { rightsUnknown } from '../../src/card/kept.ts';
import type { Look, Seen } from '../../src/card/views.ts';
import { TOPIC_COMMANDS } from '../../src/commands/list.ts';
import { errorData } from '../../src/log.ts';
import type { Reply, Request } from '../../src/request.ts';
import { jobOf, lookAgain, pageOffers } from './kept-rows.ts';
import type { Done, Ports, Send, Web, Where } from './ports.ts';
import { writePress } from './press.ts';
import type { Scene } from './read.ts';
import { figuresOf, message, render, sentence } from './render.ts';
import { LAST_PAGE, type Offer } from './rows.ts';
import type { Message } from './wire.ts';
import { WORDS } from './words.ts';

/** A payload with the way to the workspace it came from. */
export type Talk = { readonly scene: Scene; readonly web: Web | null };

/** The first page of the short card. */
export const FIRST: Seen = { view: 'short', page: 0 };

/** How often a job is looked at again after it was shown: whoever signs at the same moment is then seen too. */
const LOOKS_AGAIN = 3;

export type How = { readonly seen?: Seen; readonly where: Where; readonly offers?: readonly Offer[] };

/**
 * What the desk says, with the rights that the platform gives whoever asks; null where nobody can be made out. Whoever is
 * refused for a right that nobody could be asked about is told so.
 */
export async function asked(request: Request, { scene, web }: Talk, ports: Ports): Promise<Reply | null> {
  const met = await ports.people.meet(scene, request, web, ports.records);
  if (met === null) return null;
  const reply = await ports.desk.ask({ request, visitor: met.visitor });
  if (reply.kind !== 'refused' || !met.unknown.some((right) => right === reply.refusal.field)) return reply;
  const refusal = rightsUnknown();
  return { ...reply, refusal, card: refusalCard(refusal) };
}

/** Asks the desk and shows what it says. */
export async function answer(request: Request, talk: Talk, ports: Ports, how: How): Promise<Done> {
  const reply = await asked(request, talk, ports);
  return reply === null ? nowhere() : answered(reply, request, talk, ports, how);
}

export function nowhere(): Done {
  return { where: 'private', posts: [sentence(WORDS.noPlace)] };
}

/** Shows what the desk said. */
export async function answered(reply: Reply, request: Request, talk: Talk, ports: Ports, how: How): Promise<Done> {
  const where = whereOf(reply, how.where, talk.scene);
  const everybody = where === 'public' || (where === 'update' && talk.scene.mine === false);
  const { posts, later } = await shown(reply, request, everybody, how, talk, ports);
  const job = jobOf(reply);
  const follow = job !== null && where === 'update' && everybody;
  const after = async (send: Send) => {
    if (follow) await followJob(job, talk, ports, send);
    await later?.(send, where);
  };
  return { where, posts, ...wrongIn(reply), ...(follow || later !== null ? { after } : {}) };
}

/** Shows a reply to everybody; `refused` where it is one for the asker only. */
export async function shownToAll(
  request: Request,
  seen: Seen,
  talk: Talk,
  ports: Ports,
): Promise<{ readonly kind: 'shown' | 'refused'; readonly done: Done }> {
  const reply = await asked(request, talk, ports);
  if (reply === null) return { kind: 'refused', done: nowhere() };
  const open = reply.kind === 'answered' || (reply.kind === 'kept' && reply.public);
  const { posts, later } = await shown(reply, request, open, { seen }, talk, ports);
  const where = open ? 'public' : 'private';
  const after = later === null ? {} : { after: (send: Send) => later(send, where) };
  return { kind: open ? 'shown' : 'refused', done: { where, posts, ...wrongIn(reply), ...after } };
}

/** What cannot be used as it was told, for the field it stands in. */
function wrongIn(reply: Reply): Pick<Done, 'wrong'> {
  if (reply.kind !== 'refused') return {};
  const { field, message: what, allowed } = reply.refusal;
  return { wrong: { field, message: `${what} Allowed: ${allowed}` } };
}

type Shown = {
  readonly posts: readonly Message[];
  /** Shows the pictures that take a while, in place of the card or behind it. */
  readonly later: ((send: Send, where: Where) => Promise<void>) | null;
};

async function shown(
  reply: Reply,
  request: Request,
  everybody: boolean,
  { seen = FIRST, offers = [] }: Pick<How, 'seen' | 'offers'>,
  { scene, web }: Talk,
  ports: Ports,
): Promise<Shown> {
  const look = lookOf(reply, request);
  const { shots, remark, later } = ports.shots(reply, figuresOf(reply, { look, seen }), scene, web);
  const names = await ports.people.names(JSON.stringify(reply.card), scene.team, web);
  const page = ports.printPage === null || scene.channel === null ? [] : pageOffers(reply, lineOf(request));
  const showing = { seen, look, everybody, share: scene.channel !== null, names, offers: [...offers, ...page] };
  const posts = render(reply, { ...showing, shots, remark });
  if (later === null) return { posts, later: null };
  return {
    posts,
    later: async (send, where) => {
      try {
        const made = await later();
        if (made.size === 0) return;
        const [again, ...more] = render(reply, { ...showing, shots: made });
        // A card whose button was pressed is shown anew with its pictures; behind any other they follow by themselves.
        if (where === 'update' && again !== undefined && more.length === 0) await send(again, 'update');
        else await send(message(posts[0]?.text ?? '', [...made.values()]), where === 'update' ? 'private' : where);
      } catch (error) {
        ports.log.warn(errorData(error), 'a picture could not be shown; its words were');
      }
    },
  };
}

/**
 * Errors and questions are for the asker. What everybody may see at once is shown so; on a message that everybody sees
 * only a job is changed in place, because it is one and the same for all.
 */
function whereOf(reply: Reply, wanted: Where, { mine }: Scene): Where {
  const open = reply.kind === 'kept' && reply.public;
  if (wanted === 'public') return open || reply.kind === 'answered' || reply.kind === 'asks' ? 'public' : 'private';
  if (wanted === 'private') return open ? 'public' : 'private';
  if (mine !== false) return 'update';
  return open && jobOf(reply) !== null ? 'update' : 'private';
}

/** How to come to this card again; null where nothing was kept, or where it would do something a second time. */
function lookOf(reply: Reply, request: Request): Look | null {
  const { command, setup } = request;
  switch (reply.kind) {
    case 'answered':
    case 'asks':
      if (reply.receipt) return { command: reply.command, setup: `#${reply.receipt.code}` };
      return TOPIC_COMMANDS.includes(reply.command) ? travelling({ command: reply.command, setup }) : null;
    case 'kept':
      return lookAgain(reply, lineOf(request));
    case 'refused':
      return travelling({ command, setup: lineOf(request) });
  }
}

/** A look that fits into a button, whatever view and page it names. */
function travelling(look: Look): Look | null {
  return writePress({ kind: 'see', ...look, view: 'retention', page: LAST_PAGE }) === null ? null : look;
}

/** A request as one line, with its options as words. */
function lineOf({ setup, options: { action = '', ...options } = {} }: Request): string {
  const told = Object.entries(options).map(([name, value]) =>
    /[\s,]/.test(value) ? `${name}="${value}"` : `${name}=${value}`,
  );
  return [action, setup, ...told].filter((part) => part !== '').join(' ');
}

/** Shows a job again where somebody else signed while it was being shown. */
async function followJob(
  { job, sequence }: { readonly job: number; readonly sequence: number },
  talk: Talk,
  ports: Ports,
  send: Send,
): Promise<void> {
  const { who } = talk.scene;
  if (who === null) return;
  let shownLast = sequence;
  for (let look = 0; look < LOOKS_AGAIN; look += 1) {
    const view = await ports.records.jobs.load(who.place, job);
    if (view === null || view.state.sequence <= shownLast) return;
    shownLast = view.state.sequence;
    const again = await answer({ command: 'job', setup: `show ${job}` }, talk, ports, { where: 'update' });
    for (const post of again.posts.slice(0, 1)) await send(post, 'update');
  }
}
