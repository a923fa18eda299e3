import { customId } from '../../adapters/discord/custom-id.ts';
import { writePress } from '../../adapters/slack/press.ts';
import { ANN, press as discordPressed, slash as discordSlash, type Payload } from '../support/discord-payloads.ts';
import { type Json, press as slackPressed, slash as slackSlash, stamp } from '../support/slack-payloads.ts';

/** What people of many places ask, no two alike for long; which number a question has decides everything about it. */
type Question = { readonly command: string; readonly setup: string; readonly action?: string };

/** An answer in text, or one that reads and writes what is kept. */
export type Sort = 'text' | 'kept';

const RINGS = ['36/22', '38/24', '39/53', '34/50', '22/32/44', '26/36', '28/40', '30/39/50', '24/36', '34/48'];
const CASSETTES = ['11-36', '11-34', '11-32', '12-28', '11-28', '11-40', '11-42', '12-32', '11-25'];
const CIRCLES = ['104bcd', '110bcd', '130bcd', '96bcd', '104/64', ''];
const REST = [
  '29er hardtail',
  '700x40',
  'full sus',
  '57-622 clutch',
  'terrain=hills',
  'chain=112',
  'hub=142 guide=no',
  '',
];
const TEXT = ['convert', 'convert', 'convert', 'chain', 'mount', 'chainline', 'torque', 'weight'];

function pick<Each>(list: readonly Each[], n: number): Each {
  const each = list[n % list.length];
  if (each === undefined) throw new Error('There is nothing to pick from.');
  return each;
}

/** The numbers do not divide one another, so that what is picked with them meets in ever other ways. */
function setup(n: number): string {
  const words = [pick(RINGS, n), pick(CASSETTES, n * 7), pick(CIRCLES, n * 5), pick(REST, n * 3)];
  return [...words, `cadence=${60 + (n % 53)}`, `stays=${400 + (n % 59)}mm`].filter((word) => word !== '').join(' ');
}

function question(n: number, sort: Sort): Question {
  if (sort === 'text') return { command: pick(TEXT, n), setup: setup(n) };
  return pick(
    [
      { command: 'bike', action: 'save', setup: `winter${n % 5} ${setup(n)}` },
      { command: 'bike', action: 'list', setup: '' },
      { command: 'convert', setup: `bike=winter${n % 5}` },
      { command: 'answer', action: 'find', setup: 'chain length' },
    ],
    n,
  );
}

const PEOPLE = 40_000;
/** More than one process serves, and enough that nobody is asked to slow down. */
const PLACES = 2000;

function id(first: number, n: number): string {
  return `${first}${String(n).padStart(17, '0')}`;
}

function onDiscord(n: number) {
  const who = { ...ANN, id: id(5, (n * 13) % PEOPLE) };
  return { who, at: { server: id(1, n % PLACES), channel: id(2, n % PLACES) } };
}

export function discordQuestion(n: number, sort: Sort): Payload {
  const { command, setup: line, action } = question(n, sort);
  const { who, at } = onDiscord(n);
  return discordSlash(who, command, keyed(command, action, line), action, at);
}

/** Discord has an option for each field of an action; another line stands in `setup`. */
function keyed(command: string, action: string | undefined, line: string): Readonly<Record<string, string>> {
  if (action === 'list') return {};
  if (action === 'save') {
    const [name = '', ...rest] = line.split(' ');
    return { name, setup: rest.join(' ') };
  }
  return command === 'answer' ? { words: line } : { setup: line };
}

function onSlack(n: number) {
  return { user: `U${(n * 13) % PEOPLE}`, team: `T${n % PLACES}`, channel: `C${n % PLACES}` };
}

export function slackQuestion(n: number, sort: Sort, responseUrl: string): Json {
  const { command, setup: line, action } = question(n, sort);
  return slackSlash(onSlack(n), [command, action, line].filter((word) => word !== undefined).join(' '), responseUrl);
}

/** The receipt that a reply names, as it stands in the buttons of its card; null where it has none. */
export function receiptIn(reply: string): string | null {
  return /(?:#|%23)([0-9A-Z]{8})\b/.exec(reply)?.[1] ?? null;
}

const gears = (receipt: string) =>
  ({ kind: 'see', view: 'gears', page: 0, command: 'convert', setup: `#${receipt}` }) as const;

/** Whoever asked question n presses the button of their card that shows the gears, with a picture. */
export function discordPress(n: number, receipt: string): Payload {
  const { who, at } = onDiscord(n);
  return discordPressed(who, customId(gears(receipt)) ?? '', [], { mine: true }, at);
}

export function slackPress(n: number, receipt: string, responseUrl: string): Json {
  const action = { type: 'button', action_id: 'a', value: writePress(gears(receipt)) };
  return slackPressed(onSlack(n), action, { kind: 'message', ts: stamp(), mine: true, url: responseUrl });
}
