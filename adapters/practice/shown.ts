import { z } from 'zod';
import { type Block, SECTION_TITLES, type Section } from '../../src/card/card.ts';
import { ringChoices } from '../../src/card/ring-choices.ts';
import { viewBlocks, viewTitle } from '../../src/card/views.ts';
import { KEPT_COMMANDS } from '../../src/commands/kept-list.ts';
import { TOPIC_COMMANDS } from '../../src/commands/list.ts';
import { inert } from '../../src/inert.ts';
import type { Reply } from '../../src/request.ts';
import { actionForm, type Form } from './fields.ts';
import { type Given, isCommand, withMore } from './line.ts';

/** Something that can be pressed, and the question it asks. */
type Offer = {
  readonly label: string;
  readonly command: string;
  readonly setup: string;
  /** What must be filled in first; absent where nothing is. */
  readonly form?: Form;
};

type ShownBlock =
  | Exclude<Block, { readonly kind: 'actions' | 'figure' }>
  | { readonly kind: 'actions'; readonly title: string; readonly offers: readonly Offer[] }
  | { readonly kind: 'figure'; readonly title: string; readonly alt: string; readonly index: number };

/** A reply as the page shows it: nothing in it is left to work out, and every text in it is inert. */
export type Shown = {
  readonly id: string;
  readonly kind: Reply['kind'];
  readonly command: string;
  readonly answer: string;
  readonly readBack: string;
  readonly lines: readonly string[];
  readonly blocks: readonly ShownBlock[];
  readonly sections: readonly {
    readonly name: string;
    readonly title: string;
    readonly blocks: readonly ShownBlock[];
  }[];
  readonly rings: readonly Offer[];
  readonly forms: readonly Form[];
  /** The code to come back by, with the rules; null where there is none. */
  readonly code: string | null;
  readonly rules: string | null;
  /** Whether what is typed next may go on with this bike. */
  readonly goesOn: boolean;
  /** A line that works, where this one did not. */
  readonly example: string | null;
  readonly print: string | null;
};

/** As much of a job's data as its buttons need. */
const JobResult = z.object({
  job: z.object({
    job: z.number(),
    closed: z.unknown(),
    rows: z.array(z.object({ row: z.number(), settled: z.boolean(), ticks: z.array(z.unknown()) })),
  }),
});

export function shown(id: string, given: Given): Shown {
  const { reply } = given;
  const { card } = reply;
  const figures = card.blocks.filter((block) => block.kind === 'figure');
  const blockShown = (block: Block): ShownBlock => {
    if (block.kind === 'figure') {
      return { kind: 'figure', title: block.title, alt: block.alt, index: figures.indexOf(block) };
    }
    if (block.kind !== 'actions') return block;
    const offers = block.actions.map(({ label, setup }) => ({
      label,
      ...asked(given, setup),
      ...unfilled(reply, setup),
    }));
    return { kind: 'actions', title: block.title, offers };
  };
  const whole = reply.kind === 'kept' || reply.kind === 'refused' || TOPIC_COMMANDS.includes(reply.command);
  const open = whole ? card.blocks : viewBlocks(card, 'short');
  const receipt = reply.kind === 'answered' || reply.kind === 'asks' ? (reply.receipt ?? null) : null;
  const told = {
    answer: card.answer,
    readBack: card.readBack,
    lines: card.lines,
    blocks: open.map(blockShown),
    sections: whole
      ? []
      : sections(card.blocks, open).map((each) => ({ ...each, blocks: each.blocks.map(blockShown) })),
    rings:
      reply.kind === 'answered'
        ? ringChoices(reply.answer).map(({ label, detail, setup }) => ({
            label: `${label}: ${detail}`,
            ...asked(given, setup),
          }))
        : [],
    forms: signingForms(reply),
    example: reply.kind === 'refused' ? exampleLine(reply.command, reply.refusal.example) : null,
    print: reply.kind === 'kept' ? (reply.print?.name ?? null) : null,
  };
  return {
    id,
    kind: reply.kind,
    command: reply.command,
    code: receipt?.code ?? null,
    rules: receipt?.rules ?? null,
    goesOn: (reply.kind === 'answered' || reply.kind === 'asks') && !whole,
    ...harmless(told),
  };
}

/** What pressing something asks: words for the bike it stands under, or an action of the command it stands under. */
function asked(given: Given, setup: string): { readonly command: string; readonly setup: string } {
  const { reply } = given;
  if (reply.kind === 'kept' || TOPIC_COMMANDS.includes(reply.command)) return { command: reply.command, setup };
  return { command: reply.command, setup: withMore(given, setup) };
}

/** The form of an action whose words end in "why=": its last field is still to be told. */
function unfilled(reply: Reply, setup: string): { readonly form?: Form } {
  if (reply.kind !== 'kept' || !setup.endsWith('=')) return {};
  const [name = '', ...words] = setup.split(/\s+/).slice(0, -1);
  const action = KEPT_COMMANDS.find((each) => each.name === reply.command)?.actions.find((each) => each.name === name);
  if (action === undefined) return {};
  const told = words.map((word, index) => [action.fields[index]?.name ?? '', word] as const);
  return { form: actionForm(reply.command, action, Object.fromEntries(told)) };
}

/** Everything that is not open already, a part a section, and the working last: no block is left out. */
function sections(all: readonly Block[], open: readonly Block[]) {
  const rest = all.filter((block) => !open.includes(block));
  const working = rest.filter((block) => block.kind === 'working');
  const other = rest.filter((block) => block.kind !== 'working');
  const names = [...new Set(other.map((block): Section => block.section))];
  return [
    ...names.map((name) => ({
      name,
      title: SECTION_TITLES[name],
      blocks: other.filter((block) => block.section === name),
    })),
    ...(working.length === 0 ? [] : [{ name: 'why', title: viewTitle('why'), blocks: working }]),
  ];
}

/** One form for each row of an open job that still wants a signature. */
function signingForms(reply: Reply): readonly Form[] {
  if (reply.kind !== 'kept' || reply.command !== 'job' || reply.action === 'log') return [];
  const job = JobResult.safeParse(reply.result).data?.job;
  if (job === undefined || job.closed !== null) return [];
  const actions = KEPT_COMMANDS.find(({ name }) => name === 'job')?.actions ?? [];
  return job.rows
    .filter(({ settled }) => !settled)
    .flatMap(({ row, ticks }) => {
      const second = ticks.length > 0;
      const action = actions.find(({ name }) => name === (second ? 'second' : 'tick'));
      const told = { job: String(job.job), row: String(row) };
      return action === undefined
        ? []
        : [actionForm('job', action, told, second ? `Second check ${row}` : `Tick ${row}`)];
    });
}

/** The example of a refusal as a whole line: some are a line already, others only the part to put right. */
function exampleLine(command: string, example: string): string {
  const [first = ''] = example.split(' ', 1);
  return isCommand(first) ? example : `${command} ${example}`;
}

/** The same with every text in it made inert. */
function harmless<Any>(told: Any): Any {
  return JSON.parse(JSON.stringify(told), (_, value: unknown) => (typeof value === 'string' ? inert(value) : value));
}
