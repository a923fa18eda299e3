import type { Look, Seen } from '../../src/card/views.ts';
import { TOPIC_COMMANDS } from '../../src/commands/list.ts';
import { errorData } from '../../src/log.ts';
import type { Reply, Request } from '../../src/request.ts';
import { jobOf, lookAgain, type Offer } from './kept-rows.ts';
import type { Done, Ports, Sender, Where } from './ports.ts';
import type { Scene } from './read.ts';
import { type Drawn, figuresOf, render, sentence } from './render.ts';
import type { File } from './wire.ts';
import { WORDS } from './words.ts';

/** The first page of the short card. */
export const FIRST: Seen = { view: 'short', page: 0 };

/** How often a job is looked at again after it was shown: whoever signs at the same moment is then seen too. */
const LOOKS_AGAIN = 3;

/** Asks the desk and shows what it says. */
export async function answer(
  request: Request,
  scene: Scene,
  ports: Ports,
  how: { readonly seen?: Seen; readonly where: Where; readonly offers?: readonly Offer[] },
): Promise<Done> {
  const { visitor } = scene;
  if (visitor === null) return { where: 'private', posts: [sentence(WORDS.noPlace)] };
  const reply = await ports.desk.ask({ request, visitor });
  const where = whereOf(reply, how.where, scene);
  const posts = await shown(
    reply,
    request,
    where === 'public' || (where === 'update' && !isMine(scene)),
    how,
    ports,
    scene,
  );
  const job = jobOf(reply);
  if (job === null || where === 'private') return { where, posts };
  return { where, posts, after: (send) => followJob(job, scene, ports, send) };
}

/** Shows a reply that everybody sees; null where it is one for the asker only. */
export async function shownToAll(
  request: Request,
  seen: Seen,
  scene: Scene,
  ports: Ports,
): Promise<{ readonly kind: 'shown' | 'refused'; readonly done: Done }> {
  const { visitor } = scene;
  if (visitor === null) return { kind: 'refused', done: { where: 'private', posts: [sentence(WORDS.noPlace)] } };
  const reply = await ports.desk.ask({ request, visitor });
  const open = reply.kind === 'answered' || (reply.kind === 'kept' && reply.public);
  const posts = await shown(reply, request, open, { seen }, ports, scene);
  return { kind: open ? 'shown' : 'refused', done: { where: open ? 'public' : 'private', posts } };
}

async function shown(
  reply: Reply,
  request: Request,
  everybody: boolean,
  how: { readonly seen?: Seen; readonly offers?: readonly Offer[] },
  ports: Ports,
  scene: Scene,
) {
  const { seen = FIRST, offers = [] } = how;
  const drawn = await drawnOf(reply, seen, scene, ports);
  const printed = await printedOf(reply, ports);
  const page = printed === null ? {} : { printed };
  return render(reply, { seen, look: lookOf(reply, request), everybody, drawn, offers, ...page });
}

function isMine({ message }: Scene): boolean {
  return message?.mine ?? false;
}

/**
 * Errors and questions are for the asker. What everybody may see at once is shown so; on a message that everybody sees
 * only a job is changed in place, because it is one and the same for all.
 */
function whereOf(reply: Reply, wanted: Where, scene: Scene): Where {
  if (wanted === 'update') {
    if (isMine(scene)) return 'update';
    return reply.kind === 'kept' && reply.public && jobOf(reply) !== null ? 'update' : 'private';
  }
  return reply.kind === 'kept' && reply.public ? 'public' : 'private';
}

/** How to come to this card again. */
function lookOf(reply: Reply, request: Request): Look | null {
  switch (reply.kind) {
    case 'answered':
    case 'asks':
      if (reply.receipt) return { command: reply.command, setup: `#${reply.receipt.code}` };
      return TOPIC_COMMANDS.includes(reply.command) ? { command: reply.command, setup: request.setup } : null;
    case 'kept':
      return lookAgain(reply, typedLine(request));
    case 'refused':
      return { command: request.command, setup: typedLine(request) };
  }
}

/** What was typed and picked, as one line that reads the same. */
function typedLine({ setup, options = {} }: Request): string {
  const { action, ...fields } = options;
  const told = Object.entries(fields).map(([name, value]) => `${name}=${/[\s,]/.test(value) ? `"${value}"` : value}`);
  return [...(action === undefined ? [] : [action]), ...(setup.trim() === '' ? [] : [setup.trim()]), ...told].join(' ');
}

/** The pictures of a view; where one cannot be had, its words stand in its place. */
async function drawnOf(reply: Reply, seen: Seen, scene: Scene, ports: Ports): Promise<readonly Drawn[]> {
  const { pictures } = ports;
  if (pictures === null || seen.page > 0) return [];
  const drawn = await Promise.all(
    figuresOf(reply, seen).map(async (block) => {
      const picture = await pictures.png(block.figure, 'dark');
      if (picture.kind === 'failed') ports.log.warn(errorData(picture.error), 'a picture could not be drawn');
      return picture.kind === 'drawn' && picture.png.length <= scene.attachmentBytes
        ? [{ block, png: picture.png }]
        : [];
    }),
  );
  return drawn.flat();
}

async function printedOf(reply: Reply, { printPage }: Ports): Promise<File | null> {
  if (reply.kind !== 'kept' || reply.print === undefined || printPage === null) return null;
  return { name: reply.print.name, data: await printPage(reply.print), type: 'application/pdf' };
}

/** Looks at a job once it is shown, and shows it anew while somebody else was quicker: the last to look sees all. */
async function followJob(
  { job, sequence }: { readonly job: number; readonly sequence: number },
  scene: Scene,
  ports: Ports,
  send: Sender,
): Promise<void> {
  const { visitor } = scene;
  if (visitor === null) return;
  const request = { command: 'job', setup: `show ${job}` };
  let seenUpTo = sequence;
  for (let looks = 0; looks < LOOKS_AGAIN; looks += 1) {
    const reply = await ports.desk.ask({ request, visitor });
    const now = jobOf(reply);
    if (now === null || now.sequence <= seenUpTo) return;
    seenUpTo = now.sequence;
    const [post] = await shown(reply, request, !isMine(scene), {}, ports, scene);
    if (post !== undefined) await send.edit(post);
  }
}
