import type { Refusal } from '../bike/reading.ts';
import { sayBack } from '../bike/say-back.ts';
import { jobAnswer, jobWords, openRowsLine, planBlocks } from '../card/job.ts';
import { noBikeForJob } from '../card/job-refusals.ts';
import { noReceipt, noSuchBike, overRefusal } from '../card/kept.ts';
import { day } from '../card/times.ts';
import { CAUTION_WORDS } from '../card/torque.ts';
import type { PlannedRow } from '../records/jobs.ts';
import { LIMITS } from '../records/limits.ts';
import { readReceiptCode } from '../records/receipts.ts';
import type { Reply, Request } from '../request.ts';
import type { TorqueRow } from './answer.ts';
import { jobDone } from './job-result.ts';
import type { Action, Filled, Visit } from './kept.ts';

type Answered = Extract<Reply, { readonly kind: 'answered' }>;
type Found<Value> =
  | { readonly kind: 'found'; readonly value: Value }
  | { readonly kind: 'refused'; readonly refusal: Refusal };

/** `job open #7K3M9Q2A` means the same as `from=#7K3M9Q2A`. */
const CODE_FIRST = /^\s*#(\S+)\s*/u;

/** The bike the job is for: told in the line, laid over the one that is kept or that an answer was given for. */
async function bikeOf({ setup = '', from, bike }: Filled, visit: Visit): Promise<Found<Omit<Request, 'command'>>> {
  const { records, who } = visit;
  if (bike !== undefined) {
    const kept = await records.bikes.load(who, bike);
    if (kept === null) return { kind: 'refused', refusal: noSuchBike(bike) };
    return { kind: 'found', value: { setup, known: kept.bike } };
  }
  const first = CODE_FIRST.exec(setup);
  const typed = from ?? first?.[1];
  if (typed === undefined) return { kind: 'found', value: { setup } };
  const code = readReceiptCode(typed);
  const receipt = code === null ? null : await records.receipts.read(who.place, code);
  if (receipt === null) return { kind: 'refused', refusal: noReceipt(typed.replace('#', '')) };
  const { read } = JSON.parse(receipt.answer) as Pick<Answered, 'read'>;
  return { kind: 'found', value: { setup: from === undefined ? setup.slice(first?.[0].length) : setup, known: read } };
}

/** The whole plan where the line tells enough for one, else the torque rows alone. */
function planOf(request: Omit<Request, 'command'>, visit: Visit): Found<Answered> {
  const plan = visit.solve({ ...request, command: 'convert' });
  const reply = plan.kind === 'asks' ? visit.solve({ ...request, command: 'torque' }) : plan;
  if (reply.kind !== 'answered') return { kind: 'refused', refusal: reply.refusal };
  if (Object.keys(reply.read).length === 0) return { kind: 'refused', refusal: noBikeForJob() };
  return { kind: 'found', value: reply };
}

/** A row that counts only under a condition carries it, so that whoever signs can strike it out. */
function plannedRow({ fastener, material, condition, lowNm, highNm, source, cautions }: TorqueRow): PlannedRow {
  return {
    fastener,
    material: condition === undefined ? material : `${material} (${condition})`,
    lowNm,
    highNm,
    source,
    secondPerson: cautions.includes(CAUTION_WORDS['second-person']),
  };
}

/** The title somebody gave, else the line itself, else the day: a line cut short would be somebody else's words. */
function titleOf({ title = '', setup = '' }: Filled, said: string, nowMs: number): string {
  if (title.trim() !== '') return title.trim();
  const line = setup.trim() === '' ? said : setup.trim();
  return line.length <= LIMITS.jobTitle ? line : `Job of ${day(nowMs)}`;
}

export const open: Action = {
  name: 'open',
  summary: 'Begin a torque sign-off: one row for every fastener of the plan',
  moderators: false,
  public: true,
  fields: [
    {
      name: 'setup',
      label: 'The bike',
      form: 'text',
      required: false,
      example: '2x10 36/22 11-36 104bcd cranktype=pinch',
    },
    { name: 'title', label: 'Title', form: 'word', required: false, example: 'title="Hardtail to 32"' },
    {
      name: 'from',
      label: 'Code of an answer given before',
      form: 'word',
      required: false,
      example: 'from=#7K3M9Q2A',
      suggest: 'receipts',
    },
    {
      name: 'bike',
      label: 'Name of a kept bike',
      form: 'word',
      required: false,
      example: 'bike=winter',
      suggest: 'bikes',
    },
  ],
  run: async (filled, visit) => {
    const bike = await bikeOf(filled, visit);
    if (bike.kind === 'refused') return bike;
    const plan = planOf(bike.value, visit);
    if (plan.kind === 'refused') return plan;
    const { read, unread, answer, card } = plan.value;
    const rows = (answer.torque ?? []).map(plannedRow);
    const setup = sayBack(read);
    const opened = await visit.records.jobs.open(
      visit.who,
      { title: titleOf(filled, setup, visit.nowMs), setup, rows },
      visit.nowMs,
    );
    if (opened.kind === 'over') return { kind: 'refused', refusal: overRefusal(opened) };
    if (opened.kind === 'no-rows') return { kind: 'refused', refusal: noBikeForJob() };
    const { view } = opened;
    const more: string[] = [];
    const uncertain = answer.torque?.findIndex((row) => row.condition !== undefined) ?? -1;
    if (uncertain !== -1) more.push(openRowsLine(view.job, uncertain + 1));
    if (unread.length > 0) more.push(`Not used: ${unread.join(', ')}.`);
    const words = jobWords(view, jobAnswer(view), more);
    return jobDone(view, { ...words, blocks: [...planBlocks(card), ...words.blocks] });
  },
};
