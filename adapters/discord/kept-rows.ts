import { z } from 'zod';
import type { Block } from '../../src/card/card.ts';
import type { Look } from '../../src/card/views.ts';
import type { Reply } from '../../src/request.ts';
import { customId, type Press } from './custom-id.ts';
import { label } from './escape.ts';
import { LIMITS } from './limits.ts';
import { button, buttonRows, selectRow } from './rows.ts';
import type { Row } from './wire.ts';

export type Kept = Extract<Reply, { readonly kind: 'kept' }>;

/** A button to be, before it is known whether it becomes one or stands in a list. */
export type Offer = { readonly label: string; readonly press: Press };

/** As much of a job's data as its buttons need. */
const JobResult = z.object({
  job: z.object({
    job: z.number(),
    closed: z.unknown(),
    sequence: z.number(),
    rows: z.array(
      z.object({ row: z.number(), fastener: z.string(), settled: z.boolean(), ticks: z.array(z.unknown()) }),
    ),
  }),
});

const TopicKept = z.object({ kind: z.literal('kept'), topic: z.string() });

/** The job a reply is about, with the number of its last entry; null for any other reply. */
export function jobOf(reply: Reply): z.infer<typeof JobResult>['job'] | null {
  if (reply.kind !== 'kept' || reply.command !== 'job') return null;
  return JobResult.safeParse(reply.result).data?.job ?? null;
}

/** The actions that only read, and so may be run again for another page. */
const READING: readonly string[] = ['show', 'list', 'find', 'history', 'drafts', 'stale', 'log'];

/** How to come to what a kept reply shows again; null where that would do something a second time. */
export function lookAgain(reply: Kept, line: string): Look | null {
  const job = jobOf(reply);
  const setup = job !== null && reply.action !== 'log' ? `show ${job.job}` : line;
  if (job === null && !READING.includes(reply.action)) return null;
  const look = { command: reply.command, setup };
  return customId({ kind: 'see', ...look, view: 'retention', page: 99 }) === null ? null : look;
}

/** What can be done next: signatures row by row first, then what the card offers, then what the caller adds. */
export function keptRows(reply: Kept, blocks: readonly Block[], room: number, extra: readonly Offer[]): readonly Row[] {
  const signing = signingOffers(reply);
  const offers = blocks
    .filter((block) => block.kind === 'actions')
    .flatMap(({ actions }) => actions)
    .filter(({ setup }) => signing.length === 0 || !/^(?:tick|second)\b/.test(setup))
    .map((each) => ({ label: each.label, press: { kind: 'do', command: reply.command, setup: each.setup } as const }));
  const all = distinct([...signing, ...offers, ...topicOffers(reply), ...extra]);
  if (all.length <= room * LIMITS.buttonsInRow) return buttonRows(all.map((each) => button(each.label, each.press)));
  const first = all.slice(0, (room - 1) * LIMITS.buttonsInRow);
  return [
    ...buttonRows(first.map((each) => button(each.label, each.press))),
    ...listRow(reply, all.slice(first.length)),
  ];
}

function signingOffers(reply: Kept): readonly Offer[] {
  const job = jobOf(reply);
  if (job === null || job.closed !== null || reply.action === 'log') return [];
  return job.rows
    .filter((row) => !row.settled)
    .map(({ row, ticks }) => ({
      label: ticks.length === 0 ? `Tick ${row}` : `Second check ${row}`,
      press: { kind: 'do', command: 'job', setup: `tick ${job.job} ${row}` },
    }));
}

/** A topic that is kept now may be posted and pinned in the channel, for all to find. */
function topicOffers(reply: Kept): readonly Offer[] {
  if (reply.command !== 'answer') return [];
  const kept = TopicKept.safeParse(reply.result).data;
  return kept === undefined ? [] : [{ label: 'Post and pin here', press: { kind: 'pin-topic', topic: kept.topic } }];
}

function distinct(offers: readonly Offer[]): readonly Offer[] {
  const byId = new Map<string, Offer>();
  for (const offer of offers) {
    const id = customId(offer.press);
    if (id !== null && !byId.has(id)) byId.set(id, offer);
  }
  return [...byId.values()];
}

/** What is more than the buttons hold, as a list; what is more than that is said on the card with its words. */
function listRow({ command }: Kept, offers: readonly Offer[]): readonly Row[] {
  const options = offers
    .flatMap((each) => (each.press.kind === 'do' ? [{ label: each.label, value: each.press.setup }] : []))
    .filter(({ value }) => value.length <= LIMITS.selectValue)
    .map((each) => ({ ...each, label: label(each.label, LIMITS.selectLabel) }));
  return selectRow({ kind: 'pick', what: 'tell', command, setup: '' }, 'More to do', options);
}
