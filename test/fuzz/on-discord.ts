import { openHandler } from '../../adapters/discord/handle.ts';
import { MESSAGE_COMMANDS } from '../../adapters/discord/standard-answers.ts';
import type { Desk } from '../../src/desk.ts';
import type { Reply } from '../../src/request.ts';
import { ANN, BOB, BOSS, onMessage, type Payload, press, slash, submit, typing } from '../support/discord-payloads.ts';
import { type Json, type ModalField, modal, type Sent, type Stage, shown } from '../support/discord-stage.ts';
import { type Case, wordsOf } from './cases.ts';
import { liveInDiscord } from './mentions.ts';
import { checkCautions, checkReply, checkShown, fail, isPlan, shortCautions } from './rules.ts';

/** What the platform's own fields hold at most. */
const OPTION = 6000;
const MESSAGE = 2000;
const INPUT = 4000;
const ID = 100;

/** More pages than any card has. */
const MOST_PAGES = 60;

/** Plays cases on Discord: commands, windows, lists, buttons and pages, each body checked as the platform would. */
export function openDiscord(
  stage: Stage,
  heard: readonly Reply[],
  listening: (desk: Desk) => Desk,
  pass: () => number,
) {
  const handle = openHandler({ ...stage.ports, desk: listening(stage.ports.desk) });

  return async (played: Case): Promise<void> => {
    const { moderator, presses, typed } = played;
    const who = moderator ? BOSS : ANN;
    const words = wordsOf(played);
    const from = heard.length;

    const say = async (payload: Payload): Promise<readonly Sent[]> => {
      const sent = await stage.say(payload, { handle, mayReply: moderator });
      for (const each of sent) await checkSent(each, words, stage);
      const says = sent.filter(
        ({ kind, body }) => kind !== 'pin' && kind !== 'remove' && body.type !== 5 && body.type !== 6,
      );
      if (says.length === 0) fail('no reply', sent);
      const fault = stage.lines.find(({ level }) => level === 'error');
      if (fault !== undefined) fail('a fault of ours', fault);
      return sent;
    };

    const payload = payloadOf(played, who, { atMs: pass() });
    if (payload === null) return;
    const first = await say(payload);
    for (const reply of heard.slice(from)) checkReply(reply);

    const [reply] = heard.slice(from);
    if (played.act.kind === 'question' && reply !== undefined && isPlan(reply)) {
      const texts = first.map((each) => shown(each).text);
      let next = nextPage(first);
      for (let page = 0; next !== undefined && page < MOST_PAGES; page += 1) {
        const more = await say(press(who, next, [], { mine: true }, { atMs: pass() }));
        texts.push(...more.map((each) => shown(each).text));
        next = nextPage(more);
      }
      checkCautions(shortCautions(reply.card), texts.join('\n').replaceAll(/\\([^0-9A-Za-z\s])/g, '$1'));
    }

    let last = first;
    for (const choice of presses) {
      const next = followed(last, choice, typed, who, { atMs: pass() });
      if (next === null) break;
      last = await say(next);
    }
  };
}

type Who = typeof ANN;
type At = { readonly atMs: number };

function payloadOf({ act }: Case, who: Who, at: At): Payload | null {
  switch (act.kind) {
    case 'question': {
      const told = act.setup === '' ? act.options : { setup: act.setup, ...act.options };
      return slash(who, act.command, cut(told), undefined, at);
    }
    case 'kept':
      return slash(who, act.command, cut(act.told), act.action, at);
    case 'typing':
      return typing(who, act.command, act.field, act.typed.slice(0, OPTION), act.action || undefined, at);
    case 'message':
      return onMessage(who, MESSAGE_COMMANDS[act.does], { content: act.text.slice(0, MESSAGE), author: BOB.id }, at);
    case 'old-button': {
      const values = act.value === '' ? [] : [act.value.slice(0, ID)];
      return press(who, act.id.slice(0, ID), values, { mine: true }, at);
    }
    case 'talk':
      return null;
  }
}

/** Nobody can leave an option empty, nor type more than it holds. */
function cut(told: Readonly<Record<string, string>>): Readonly<Record<string, string>> {
  const filled = Object.entries(told).filter(([, value]) => value !== '');
  return Object.fromEntries(filled.map(([name, value]) => [name, value.slice(0, OPTION)]));
}

function nextPage(sent: readonly Sent[]): string | undefined {
  return sent.map((each) => shown(each).buttons.get('Next page')).find((id) => id !== undefined);
}

/** The next thing somebody does with what they see: fills in a window, picks from a list, presses a button. */
function followed(sent: readonly Sent[], choice: number, typed: string, who: Who, at: At): Payload | null {
  const opened = sent.find(({ body }) => body.type === 9);
  if (opened !== undefined) {
    const { id, fields } = modal(opened);
    const told = fields.map((field, index) => [field.custom_id, typedInto(field, choice + index, typed)] as const);
    return submit(who, id, Object.fromEntries(told), { mine: true }, at);
  }
  const parts = sent.flatMap((each) => {
    const { buttons, lists } = shown(each);
    return [
      ...[...buttons.values()].map((id) => ({ id, values: [] as readonly string[] })),
      ...lists.map(({ id, values }) => ({ id, values: [values[choice % values.length] ?? ''] })),
    ];
  });
  const part = parts[choice % Math.max(1, parts.length)];
  return part === undefined ? null : press(who, part.id, part.values, { mine: choice % 2 === 0 }, at);
}

/** One of a list, what stood there, or what somebody types: the platform lets in no more than the field says. */
function typedInto(field: ModalField, choice: number, typed: string): string | readonly string[] {
  const { type, value = '', options = [], max_length = INPUT } = field as ModalField & { readonly max_length?: number };
  if (type === 3)
    return options.slice(choice % options.length, (choice % options.length) + 1).map((each) => each.value);
  return choice % 3 === 0 && value !== '' ? value : typed.slice(0, max_length);
}

/** Nobody is called, nothing hides, and only people whom the records name are shown as people. */
async function checkSent({ kind, body }: Sent, typed: string, stage: Stage): Promise<void> {
  const message = (kind === 'first' ? (body.data ?? {}) : body) as Json;
  if (message.allowed_mentions !== undefined && JSON.stringify(message.allowed_mentions) !== '{"parse":[]}') {
    fail('somebody could be called', message.allowed_mentions);
  }
  const { content = '', embeds = [] } = message as {
    readonly content?: string;
    readonly embeds?: readonly {
      readonly title?: string;
      readonly description?: string;
      readonly footer?: { readonly text: string };
    }[];
  };
  const marked = [
    content,
    ...embeds.flatMap(({ title = '', description = '', footer }) => [title, description, footer?.text ?? '']),
  ];
  const live = marked.flatMap(liveInDiscord);
  if (live.length > 0) {
    const known = await peopleKnown(stage);
    const strangers = live.filter((each) => !known.has(each) && !isOwnLink(each, content));
    if (strangers.length > 0) fail('something is live', strangers, marked.join('\n').slice(0, 400));
  }
  checkTexts(message, typed);
}

/** "In answer to" a message, by the address of it: the one link of our own. */
function isOwnLink(live: string, content: string): boolean {
  return live === 'https://' && /^In answer to https:\/\/discord\.com\/channels\/(?:@me|\d+)\/\d+\/\d+$/m.test(content);
}

/** Those who were here, and those whom the settings let pin. */
async function peopleKnown({ ports: { records } }: Stage): Promise<ReadonlySet<string>> {
  const place = 'discord:server:100000000000000001';
  const { pinPeople, pinRoles } = await records.settings.read(place as Parameters<typeof records.settings.read>[0]);
  return new Set<string>([...[ANN, BOB, BOSS].map(({ id }) => `<@${id}>`), ...pinPeople, ...pinRoles]);
}

/** What is never shown: ids and values travel, and nobody reads them. */
const UNSEEN: readonly string[] = ['custom_id', 'allowed_mentions', 'attachments'];

function checkTexts(value: unknown, typed: string): void {
  if (typeof value === 'string') checkShown(value, typed);
  if (typeof value !== 'object' || value === null) return;
  const isOption = 'label' in value && 'value' in value;
  for (const [key, each] of Object.entries(value)) {
    if (!UNSEEN.includes(key) && !((isOption || 'name' in value) && key === 'value')) checkTexts(each, typed);
  }
}
