import { sayBack } from '../../src/bike/say-back.ts';
import { type Look, readView } from '../../src/card/views.ts';
import { readAction } from '../../src/commands/action-line.ts';
import type { Command } from '../../src/commands/command.ts';
import type { Action, KeptCommand } from '../../src/commands/kept.ts';
import { KEPT_COMMANDS } from '../../src/commands/kept-list.ts';
import { COMMANDS, TOPIC_COMMANDS } from '../../src/commands/list.ts';
import type { Reply, Request } from '../../src/request.ts';
import { answer, answered, asked, nowhere, shownToAll, type Talk } from './answer.ts';
import { actionModal, bikeModal, type Opening } from './modals.ts';
import type { Done, Outcome, Ports, Where } from './ports.ts';
import type { Press } from './press.ts';
import type { Scene, Told } from './read.ts';
import { sentence } from './render.ts';
import type { Modal } from './wire.ts';
import { WORDS } from './words.ts';

const BY_NAME = new Map<string, Command>(COMMANDS.map((command) => [command.name, command]));
const KEPT = new Map<string, KeptCommand>(KEPT_COMMANDS.map((command) => [command.name, command]));

/** What is done where a line describes a bike and names no command. */
const USUAL = 'convert';

/** The command a line begins with, and the rest of it. */
export function commandOf(line: string): { readonly command: string; readonly setup: string; readonly named: boolean } {
  const [first = ''] = line.split(/\s/, 1);
  const name = first.toLowerCase();
  const rest = line.slice(first.length).trim();
  // "bike 2x10 36/22" tells a bike; "bike save winter …" is about one that is kept.
  if (name === 'bike' && /^\S*\d/.test(rest)) return { command: USUAL, setup: rest, named: false };
  const named = BY_NAME.has(name) || KEPT.has(name) || TOPIC_COMMANDS.includes(name);
  return named ? { command: name, setup: rest, named } : { command: USUAL, setup: line, named };
}

/** What was typed behind the slash command: an empty or unreadable line opens a window, any other is answered. */
export async function commandOutcome(line: string, talk: Talk, ports: Ports): Promise<Outcome> {
  const { command, setup, named } = commandOf(line);
  const kept = KEPT.get(command);
  if (kept !== undefined) return actionOutcome(kept, setup, talk, ports);
  const question = BY_NAME.get(command);
  if (question === undefined) return done(await answer({ command, setup }, talk, ports, { where: 'private' }));
  if (setup === '') {
    const instead = await answer({ command: 'help', setup: line }, talk, ports, { where: 'private' });
    return { kind: 'modal', modal: bikeModal(question, '', '', openingOf(talk.scene)), instead };
  }
  const reply = await asked({ command, setup }, talk, ports);
  if (reply === null) return done(nowhere());
  const card = await answered(reply, { command, setup }, talk, ports, { where: 'private' });
  const wrong = wrongWith(reply, named);
  if (wrong === null) return done(card);
  return { kind: 'modal', modal: bikeModal(question, setup, wrong, openingOf(talk.scene)), instead: card };
}

/** What keeps a line from being answered and can be put right in a window; null for anything else. */
function wrongWith(reply: Reply, named: boolean): string | null {
  if (reply.kind === 'refused') {
    const { field, message, allowed, example } = reply.refusal;
    // What is kept elsewhere is no slip of the pen.
    if (['storage', 'receipt', 'bike'].includes(field)) return null;
    return `${message} Allowed: ${allowed}. This works: ${example}`;
  }
  const nothingRead = reply.kind === 'asks' && Object.keys(reply.read).length === 0;
  if (!nothingRead || named || reply.unread.length === 0) return null;
  return `Not understood: ${reply.unread.join(', ')}. Tell what is on the bike, such as 2x10 36/22 11-36.`;
}

/** A line about what is kept; one that lacks a field opens a window for the rest. */
async function actionOutcome(kept: KeptCommand, setup: string, talk: Talk, ports: Ports): Promise<Outcome> {
  const request = { command: kept.name, setup };
  const card = () => answer(request, talk, ports, { where: whereOf(talk.scene) });
  const reading = readAction(kept, setup, {});
  const found = actionOf(kept, setup);
  if (reading.kind === 'read' || found === null || found.action.fields.length === 0) return done(await card());
  const { action, words, told } = found;
  return { kind: 'modal', modal: actionModal(kept, action, words, told, openingOf(talk.scene)), instead: await card() };
}

type Begun = { readonly action: Action; readonly words: readonly string[]; readonly told: Told };

/** The action a line begins with, and the fields it tells by their place or by name, as far as they can be made out. */
function actionOf(command: KeptCommand, line: string): Begun | null {
  const [name = '', ...rest] = line.trim().split(/\s+/);
  const action = command.actions.find((each) => each.name === name.toLowerCase());
  if (action === undefined) return null;
  const named = rest.findIndex((word) => word.includes('='));
  const inOrder = named === -1 ? rest : rest.slice(0, named);
  // Words of a text stand together in its field.
  const text = action.fields.findIndex((field) => field.form === 'text');
  const before = text === -1 ? action.fields.length : text;
  const words = inOrder.slice(0, before);
  const told: Record<string, string> = {};
  const textField = action.fields[text];
  const more = inOrder.slice(before).join(' ');
  if (textField !== undefined && more !== '') told[textField.name] = more;
  for (const match of line.matchAll(/(\p{L}+)=(?:"([^"]*)"|“([^”]*)”|(\S+))/gu)) {
    const field = action.fields.find((each) => each.name === (match[1] ?? '').toLowerCase());
    if (field !== undefined) told[field.name] = match[2] ?? match[3] ?? match[4] ?? '';
  }
  // A field told by name cannot be told by its place as well.
  const open = words.findIndex((_, at) => told[action.fields[at]?.name ?? ''] !== undefined);
  return { action, words: open === -1 ? words : words.slice(0, open), told };
}

/** A button or a list below a card. */
export async function pressOutcome(press: Press, value: string, talk: Talk, ports: Ports): Promise<Outcome> {
  const where = whereOf(talk.scene);
  switch (press.kind) {
    case 'see': {
      const { command, setup, view, page } = press;
      return done(await answer({ command, setup }, talk, ports, { where, seen: { view, page } }));
    }
    case 'pick': {
      const { command, setup, what } = press;
      if (what === 'view') {
        const view = readView(value);
        if (view === null) return said(WORDS.unknownButton);
        return done(await answer({ command, setup }, talk, ports, { where, seen: { view, page: 0 } }));
      }
      return doOutcome({ command, setup: `${setup} ${value}`.trim() }, talk, ports);
    }
    case 'do':
      return doOutcome(press, talk, ports);
    case 'share': {
      const { command, setup, view, page } = press;
      return done((await shownToAll({ command, setup }, { view, page }, talk, ports)).done);
    }
    case 'fix':
      return fixOutcome(press, talk, ports);
    case 'tell': {
      const question = BY_NAME.get(press.command);
      if (question === undefined) return said(WORDS.unknownButton);
      return opened(bikeModal(question, '', '', openingOf(talk.scene)));
    }
    case 'fill': {
      const kept = KEPT.get(press.command);
      const action = kept?.actions.find(({ name }) => name === press.action);
      if (kept === undefined || action === undefined) return said(WORDS.unknownButton);
      return opened(actionModal(kept, action, press.words, {}, openingOf(talk.scene)));
    }
    case 'pin-text':
    case 'pin-message':
    case 'pin-topic':
    case 'post-page':
    case 'reply':
      return said(WORDS.unknownButton);
  }
}

/** A window with a bike in it, sent off. */
export async function tellOutcome(command: string, told: Told, talk: Talk, ports: Ports): Promise<Outcome> {
  const { setup = '', ...options } = told;
  return done(await answer({ command, setup, options }, talk, ports, { where: whereOf(talk.scene) }));
}

/** A window with the rest of an action's fields, sent off. */
export async function fillOutcome(
  { command, action, words }: Extract<Press, { readonly kind: 'fill' }>,
  fields: Told,
  talk: Talk,
  ports: Ports,
): Promise<Outcome> {
  const known = KEPT.get(command)?.actions.find((each) => each.name === action)?.fields ?? [];
  const told = words.flatMap((word, index) => {
    const name = known[index]?.name;
    return name === undefined ? [] : [[name, word] as const];
  });
  const request: Request = { command, setup: '', options: { ...Object.fromEntries(told), ...fields, action } };
  return done(await answer(request, talk, ports, { where: whereOf(talk.scene) }));
}

async function doOutcome({ command, setup }: Look, talk: Talk, ports: Ports): Promise<Outcome> {
  const kept = KEPT.get(command);
  if (kept !== undefined) return actionOutcome(kept, setup, talk, ports);
  return done(await answer({ command, setup }, talk, ports, { where: whereOf(talk.scene) }));
}

/** Opens what was read, or typed, to be put right. */
async function fixOutcome({ command, setup }: Look, talk: Talk, ports: Ports): Promise<Outcome> {
  const opening = openingOf(talk.scene);
  const kept = KEPT.get(command);
  if (kept !== undefined) {
    const found = actionOf(kept, setup);
    if (found === null) return said(WORDS.unknownButton);
    const { action, words, told } = found;
    // Without a field there is nothing to put right but who asks.
    if (action.fields.length === 0) return doOutcome({ command, setup }, talk, ports);
    const byPlace = words.map((word, at) => [action.fields[at]?.name ?? '', word] as const);
    return opened(actionModal(kept, action, [], { ...Object.fromEntries(byPlace), ...told }, opening));
  }
  const question = BY_NAME.get(command);
  if (question === undefined) return said(WORDS.unknownButton);
  if (!setup.startsWith('#')) return opened(bikeModal(question, setup, '', opening));
  const reply = await asked({ command, setup }, talk, ports);
  if (reply === null) return done(nowhere());
  const line = reply.kind === 'answered' || reply.kind === 'asks' ? sayBack(reply.read) : null;
  if (line === null) return done(await answered(reply, { command, setup }, talk, ports, { where: 'private' }));
  return opened(bikeModal(question, line, '', opening));
}

/** A private card changes in place; so does a window. Below a card for everybody, whoever presses gets their own. */
function whereOf({ mine, view }: Scene): Exclude<Where, 'public'> {
  return mine === null && view === null ? 'private' : 'update';
}

/** What a window must know to answer where it was opened. */
export function openingOf({ address, channel, thread, mine }: Scene): Opening {
  const { url = null, used = 0, sinceMs = 0 } = address ?? {};
  return { url, used, sinceMs, channel, thread, mine };
}

export function done(what: Done): Outcome {
  return { kind: 'done', ...what };
}

export function said(words: string): Outcome {
  return done({ where: 'private', posts: [sentence(words)] });
}

/** A window to be opened, and what is said where it cannot be. */
export function opened(modal: Modal): Outcome {
  return { kind: 'modal', modal, instead: { where: 'private', posts: [sentence(WORDS.slow)] } };
}
