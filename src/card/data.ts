import type { Words } from '../commands/command.ts';
import type { Deleted, KeptAbout } from '../records/privacy.ts';
import type { Block } from './card.ts';
import { deedWords } from './job-log.ts';
import { day, minute } from './times.ts';

/** The kinds of things that are kept about somebody, as `data show` names them. */
export const DATA_PARTS = ['bikes', 'receipts', 'answers', 'jobs'] as const;
export type DataPart = (typeof DATA_PARTS)[number];

const PART_TITLES: Readonly<Record<DataPart, string>> = {
  bikes: 'Your bikes',
  receipts: 'Answers given to you',
  answers: 'Standard answers you worked on',
  jobs: 'What you did on jobs',
};

/** The overview shows this many of each kind, one kind alone a page of them. */
const OVERVIEW_EACH = 10;
const PAGE_EACH = 40;

function count(many: number, one: string, more: string): string {
  return many === 1 ? `1 ${one}` : `${many} ${more}`;
}

/** Everything of one kind, one line each, the newest last as it happened. */
function partLines(about: KeptAbout, part: DataPart): readonly string[] {
  switch (part) {
    case 'bikes':
      return about.bikes.map(
        ({ name, shared, savedAtMs, setup }) => `${name}${shared ? ' (shared)' : ''}, ${day(savedAtMs)}: ${setup}`,
      );
    case 'receipts':
      return about.receipts.map(({ code, atMs, command, setup, options }) => {
        const told = Object.entries(options).map(([name, value]) => `${name}=${value}`);
        return `#${code}, ${minute(atMs)}: ${[command, setup, ...told].join(' ')}`;
      });
    case 'answers':
      return [
        ...about.answers.map(
          ({ topic, version, as, atMs }) =>
            `${topic}, version ${version}, ${day(atMs)}: ${as === 'author' ? 'written' : 'approved'} by you`,
        ),
        ...about.drafts.map(
          ({ topic, number, as, atMs }) =>
            `${topic}, draft ${number}, ${day(atMs)}: ${as === 'author' ? 'proposed' : 'decided'} by you`,
        ),
      ];
    case 'jobs':
      return about.jobs.map(({ job, event }) => `Job ${job}, ${minute(event.atMs)}: ${deedWords(event.deed)}`);
  }
}

type Count = readonly [many: number, one: string, more: string];

/** How much there is of each kind that there is any of. */
function counted(counts: readonly Count[]): readonly string[] {
  return counts.filter(([many]) => many > 0).map(([many, one, more]) => count(many, one, more));
}

function listed(said: readonly string[]): string {
  return said.length < 2 ? said.join('') : `${said.slice(0, -1).join(', ')} and ${said.at(-1)}`;
}

/** What goes when somebody is deleted; the name goes in any case. */
function gone(bikes: number, receipts: number): string {
  return listed([
    ...counted([
      [bikes, 'bike', 'bikes'],
      [receipts, 'receipt', 'receipts'],
    ]),
    'your name',
  ]);
}

function isNothing({ lastSeenAtMs }: KeptAbout): boolean {
  return lastSeenAtMs === null;
}

const NOTHING: Words = {
  answer: 'Nothing is kept about you here.',
  lines: ['Here means this place; what another place keeps is asked for there.'],
  blocks: [],
};

/** Everything kept about the asker: all kinds at a glance. */
export function dataWords(about: KeptAbout): Words {
  if (isNothing(about)) return NOTHING;
  const said = counted([
    [about.bikes.length, 'bike', 'bikes'],
    [about.receipts.length, 'receipt', 'receipts'],
    [about.answers.length + about.drafts.length, 'entry on standard answers', 'entries on standard answers'],
    [about.jobs.length, 'entry on jobs', 'entries on jobs'],
  ]);
  const blocks: Block[] = [];
  const actions: { label: string; setup: string }[] = [];
  for (const part of DATA_PARTS) {
    const lines = partLines(about, part);
    if (lines.length === 0) continue;
    const newest = lines.slice(-OVERVIEW_EACH);
    if (newest.length < lines.length) {
      actions.push({ label: `All ${lines.length}: ${PART_TITLES[part].toLowerCase()}`, setup: `show ${part}` });
    }
    const title = newest.length < lines.length ? `${PART_TITLES[part]}: the last ${newest.length}` : PART_TITLES[part];
    blocks.push({ kind: 'text', section: 'kept', title, lines: newest });
  }
  actions.push({ label: 'What deleting would do', setup: 'delete' });
  blocks.push({ kind: 'actions', section: 'kept', title: 'Go on', actions });
  return {
    answer: `Kept about you here: ${said.length === 0 ? 'your name' : listed(said)}.`,
    lines: [
      `Kept under ${about.person}, in this place only.`,
      ...(about.lastSeenAtMs === null ? [] : [`Last added to on ${day(about.lastSeenAtMs)}.`]),
      ...(about.mayPin ? ['The settings name you as somebody who may pin.'] : []),
      'To have it deleted: data delete',
    ],
    blocks,
  };
}

/** One kind of what is kept about the asker, page by page. */
export function dataPartWords(about: KeptAbout, part: DataPart, page: number): Words {
  const lines = partLines(about, part);
  const pages = Math.max(1, Math.ceil(lines.length / PAGE_EACH));
  const shown = lines.slice((page - 1) * PAGE_EACH, page * PAGE_EACH);
  const blocks: Block[] = [{ kind: 'text', section: 'kept', title: PART_TITLES[part], lines: shown }];
  if (page < pages) {
    const actions = [{ label: 'Next page', setup: `show ${part} page=${page + 1}` }];
    blocks.push({ kind: 'actions', section: 'kept', title: 'Go on', actions });
  }
  return {
    answer: `${PART_TITLES[part]}: ${lines.length}; page ${page} of ${pages}.`,
    lines: shown.length === 0 ? ['Nothing stands on this page.'] : [],
    blocks,
  };
}

/** What deleting would do, before anything is deleted. */
export function deletePreviewWords(about: KeptAbout): Words {
  if (isNothing(about)) return NOTHING;
  const { bikes, receipts, answers, drafts, jobs } = about;
  const shared = bikes.filter((bike) => bike.shared).length;
  const stays = answers.length + drafts.length + jobs.length;
  const goes = gone(bikes.length, receipts.length);
  return {
    answer: `Nothing is deleted yet. What would go for good: ${goes}.`,
    lines: [
      ...(shared === 0
        ? []
        : [`${count(shared, 'of these bikes is', 'of these bikes are')} shared: others lose it too.`]),
      stays === 0
        ? 'Nothing of yours stands in standard answers or on jobs.'
        : `${count(stays, 'entry', 'entries')} in standard answers and on jobs would stay as written, by "somebody deleted".`,
      ...(about.mayPin ? ['Your name in the settings would go, and with it the right to pin.'] : []),
      'It cannot be taken back, and is for this place only.',
      'To go on: data delete confirm=yes',
    ],
    blocks: [
      {
        kind: 'actions',
        section: 'kept',
        title: 'Your choice',
        actions: [
          { label: 'Show it first', setup: 'show' },
          { label: 'Delete it for good', setup: 'delete confirm=yes' },
        ],
      },
    ],
  };
}

/** What was deleted, and what stays without a name. */
export function deletedWords({ bikes, receipts, madeAnonymous, wiped }: Deleted): Words {
  const lines = [
    madeAnonymous === 0
      ? 'Nothing of yours stood in standard answers or on jobs.'
      : `${count(madeAnonymous, 'entry stays', 'entries stay')} in standard answers and on jobs as written, by "somebody deleted".`,
  ];
  if (!wiped) lines.push('The freed space was in use just now; the next sweep overwrites it.');
  lines.push('Whatever you ask to be kept from now on begins anew.');
  return {
    answer: `Deleted: ${gone(bikes, receipts)}.`,
    lines,
    blocks: [],
  };
}
