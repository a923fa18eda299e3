import { sayBack } from '../../src/bike/say-back.ts';
import { COMMANDS } from '../../src/commands/list.ts';
import type { KeptBike } from '../../src/records/bikes.ts';
import type { JobHead } from '../../src/records/jobs.ts';
import type { Who } from '../../src/records/place.ts';
import type { Records } from '../../src/records/records.ts';
import { StorageAway } from '../../src/records/storage-away.ts';
import { NO_NAMES } from './escape.ts';
import { viewFaults } from './limits.ts';
import { RenderError } from './render.ts';
import { buttonRows, type Offer } from './rows.ts';
import { type Line, plainLines, richText } from './text.ts';
import type { Block, Home } from './wire.ts';

/** As many bikes and jobs as one looks through on a phone; the lists behind the buttons have them all. */
const MOST_BIKES = 8;
const MOST_JOBS = 8;

/** What one person sees on the Home tab: how to ask, their bikes, the open jobs, and what is kept about them. */
export async function homeOf(who: Who, records: Records): Promise<Home> {
  const kept = await keptFor(who, records);
  const blocks = [...welcome(), ...(kept === null ? away() : [...bikes(kept.bikes), ...jobs(kept.jobs)]), ...data()];
  const home: Home = { type: 'home', blocks };
  const faults = viewFaults(home);
  if (faults.length > 0) throw new RenderError(faults.join('; '));
  return home;
}

async function keptFor(who: Who, records: Records) {
  try {
    const { own } = await records.bikes.list(who);
    const heads = await records.jobs.list(who.place, 'open', Number.POSITIVE_INFINITY, MOST_JOBS + 1);
    return { bikes: own, jobs: heads };
  } catch (error) {
    if (!(error instanceof StorageAway)) throw error;
    return null;
  }
}

function bold(text: string): Line {
  return [{ text, style: 'bold' }];
}

function section(row: string, lines: readonly Line[], offers: readonly Offer[]): readonly Block[] {
  return [{ type: 'divider' }, richText(lines, NO_NAMES), ...buttonRows(offers, row)];
}

function welcome(): readonly Block[] {
  const [first] = COMMANDS;
  const lines = [
    bold('Welcome to the workshop.'),
    ...plainLines([
      'Describe a bicycle with two or three rings; get the plan for one: gears, chain, bolts, torque, weight.',
      `In any channel: /ringwright convert ${first?.examples[0] ?? ''}`,
      'In a thread: mention me with the same words. Answers are yours alone until you share them.',
    ]),
  ];
  return [
    richText(lines, NO_NAMES),
    ...buttonRows(
      [
        { label: 'Describe a bike', press: { kind: 'tell', command: 'convert' }, style: 'primary' },
        { label: 'Chain length', press: { kind: 'tell', command: 'chain' } },
        { label: 'How to ask', press: { kind: 'do', command: 'help', setup: '' } },
        { label: 'How to measure', press: { kind: 'do', command: 'measure', setup: '' } },
        { label: 'Standard answers', press: { kind: 'do', command: 'answer', setup: 'list' } },
      ],
      'welcome',
    ),
  ];
}

function away(): readonly Block[] {
  const lines = plainLines(['Your bikes and jobs cannot be read just now. Questions about a bike still work.']);
  return section('away', lines, []);
}

function bikes(own: readonly KeptBike[]): readonly Block[] {
  const shown = own.slice(0, MOST_BIKES);
  const more = own.length - shown.length;
  const lines = [
    bold('Your bikes'),
    ...(own.length === 0 ? plainLines(['None kept yet.']) : []),
    ...shown.map(({ name, bike }) => [...bold(name), { text: `: ${sayBack(bike)}` }]),
    ...(more > 0 ? plainLines([`And ${more} more: all of them are behind the button.`]) : []),
  ];
  const ask = shown.map(({ name }): Offer => {
    return { label: `Plan ${name}`, press: { kind: 'do', command: 'convert', setup: `bike="${name}"` } };
  });
  return section('bike', lines, [
    ...ask,
    { label: 'All bikes', press: { kind: 'do', command: 'bike', setup: 'list' } },
    { label: 'Keep a bike', press: { kind: 'fill', command: 'bike', action: 'save', words: [] } },
  ]);
}

function jobs(heads: readonly JobHead[]): readonly Block[] {
  const shown = heads.slice(0, MOST_JOBS);
  const lines = [
    bold('Open jobs'),
    ...(shown.length === 0 ? plainLines(['None.']) : []),
    ...plainLines(shown.map(({ job, title }) => `${job}: ${title}`)),
    ...(heads.length > shown.length ? plainLines(['And older ones: all of them are behind the button.']) : []),
  ];
  const show = shown.map(({ job }): Offer => {
    return { label: `Job ${job}`, press: { kind: 'do', command: 'job', setup: `show ${job}` } };
  });
  return section('job', lines, [
    ...show,
    { label: 'All jobs', press: { kind: 'do', command: 'job', setup: 'list' } },
    { label: 'Open a job', press: { kind: 'fill', command: 'job', action: 'open', words: [] } },
  ]);
}

function data(): readonly Block[] {
  const lines = [
    bold('What is kept about you'),
    ...plainLines(['Your bikes, your answers for as long as this place keeps them, and what you signed on jobs.']),
  ];
  return section('data', lines, [
    { label: 'Show it', press: { kind: 'do', command: 'data', setup: 'show' } },
    { label: 'Delete it', press: { kind: 'do', command: 'data', setup: 'delete' } },
  ]);
}
