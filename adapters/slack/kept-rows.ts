import { z } from 'zod';
import type { Block } from '../../src/card/card.ts';
import type { Look } from '../../src/card/views.ts';
import type { Reply } from '../../src/request.ts';
import type { Names } from './escape.ts';
import { type Press, writePress } from './press.ts';
import { buttonRows, LAST_PAGE, type Offer } from './rows.ts';
import type { Actions } from './wire.ts';

export type Kept = Extract<Reply, { readonly kind: 'kept' }>;

/** As much of a job's data as its buttons need. */
const JobResult = z.object({
  job: z.object({
    job: z.number(),
    closed: z.unknown(),
    sequence: z.number(),
    rows: z.array(z.object({ row: z.number(), settled: z.boolean(), ticks: z.array(z.unknown()) })),
  }),
});

const TopicKept = z.object({ kind: z.literal('kept'), topic: z.string() });

/** The actions that only read, and so may be run again for another page. */
const READING: readonly string[] = ['show', 'list', 'find', 'history', 'drafts', 'stale', 'log'];

/** Rows that can be signed with one press; the others are signed by their number. */
const MOST_SIGNING = 8;
/** Everything else to be done next; what is more than that is said on the card with its words. */
const MOST_OFFERS = 15;

/** The job a reply is about, with the number of its last entry; null for any other reply. */
export function jobOf(reply: Reply): z.infer<typeof JobResult>['job'] | null {
  if (reply.kind !== 'kept' || reply.command !== 'job') return null;
  return JobResult.safeParse(reply.result).data?.job ?? null;
}

/** How to come to what a kept reply shows again; null where that would do something a second time. */
export function lookAgain(reply: Kept, line: string): Look | null {
  const job = jobOf(reply);
  if (job === null && !READING.includes(reply.action)) return null;
  const look = { command: reply.command, setup: job !== null && reply.action !== 'log' ? `show ${job.job}` : line };
  return writePress({ kind: 'see', ...look, view: 'retention', page: LAST_PAGE }) === null ? null : look;
}

/** What can be done next: signatures row by row first, then what the card offers, then what the caller adds. */
export function keptRows(
  reply: Kept,
  blocks: readonly Block[],
  extra: readonly Offer[],
  names: Names,
): readonly Actions[] {
  const signing = signingOffers(reply);
  const offers = blocks
    .filter((block) => block.kind === 'actions')
    .flatMap(({ actions }) => actions)
    .filter(({ setup }) => signing.length === 0 || !/^(?:tick|second)\b/.test(setup))
    .map((each): Offer => ({ label: each.label, press: { kind: 'do', command: reply.command, setup: each.setup } }));
  const other = distinct([...extra, ...topicOffers(reply), ...offers]).slice(0, MOST_OFFERS);
  return [...buttonRows(signing, 'sign', names), ...buttonRows(other, 'next', names)];
}

function signingOffers(reply: Kept): readonly Offer[] {
  const job = jobOf(reply);
  if (job === null || job.closed !== null || reply.action === 'log') return [];
  const open = job.rows.filter((row) => !row.settled);
  const offers = open.slice(0, MOST_SIGNING).map(({ row, ticks }): Offer => {
    const second = ticks.length > 0;
    const press: Press = {
      kind: 'fill',
      command: 'job',
      action: second ? 'second' : 'tick',
      words: [String(job.job), String(row)],
    };
    return { label: second ? `Second check ${row}` : `Tick ${row}`, press };
  });
  if (open.length <= MOST_SIGNING) return offers;
  const any: Press = { kind: 'fill', command: 'job', action: 'tick', words: [String(job.job)] };
  return [...offers, { label: 'Tick another row', press: any }];
}

/** A topic that is kept now may be posted and pinned in the channel, for all to find. */
function topicOffers(reply: Kept): readonly Offer[] {
  if (reply.command !== 'answer') return [];
  const kept = TopicKept.safeParse(reply.result).data;
  return kept === undefined ? [] : [{ label: 'Post and pin here', press: { kind: 'pin-topic', topic: kept.topic } }];
}

/** A page to print may be posted where it was asked for: files are seen by everybody there, so only a press does it. */
export function pageOffers(reply: Reply, line: string): readonly Offer[] {
  if (reply.kind !== 'kept' || reply.print === undefined) return [];
  return [{ label: 'Post the page here', press: { kind: 'post-page', command: reply.command, setup: line } }];
}

function distinct(offers: readonly Offer[]): readonly Offer[] {
  const byPress = new Map<string, Offer>();
  for (const offer of offers) {
    const text = writePress(offer.press);
    if (text !== null && !byPress.has(text)) byPress.set(text, offer);
  }
  return [...byPress.values()];
}
