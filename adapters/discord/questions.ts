import { sayBack } from '../../src/bike/say-back.ts';
import { type Look, readView } from '../../src/card/views.ts';
import { readAction } from '../../src/commands/action-line.ts';
import type { Command } from '../../src/commands/command.ts';
import type { Action, KeptCommand } from '../../src/commands/kept.ts';
import { KEPT_COMMANDS } from '../../src/commands/kept-list.ts';
import { COMMANDS, TOPIC_COMMANDS } from '../../src/commands/list.ts';
import { answer, FIRST, shownToAll } from './answer.ts';
import type { Press } from './custom-id.ts';
import { escaped } from './escape.ts';
import { actionModal, bikeModal, correctionModal } from './modals.ts';
import type { Ports, Where, Work } from './ports.ts';
import type { Scene, Told } from './read.ts';
import { modalResponse, opened, privately, said } from './responses.ts';
import { WORDS } from './words.ts';

const BY_NAME = new Map<string, Command>(COMMANDS.map((command) => [command.name, command]));
const KEPT = new Map<string, KeptCommand>(KEPT_COMMANDS.map((command) => [command.name, command]));

/** A slash command: with nothing told about a bike it asks for one, else it is answered. */
export function commandWork(
  { command, action, told }: { readonly command: string; readonly action: string | null; readonly told: Told },
  scene: Scene,
  ports: Ports,
): Work {
  const kept = KEPT.get(command);
  if (kept !== undefined) {
    const defer = kept.actions.find((each) => each.name === action)?.public ? 'public' : 'private';
    const request = { command, setup: '', options: { ...told, ...(action === null ? {} : { action }) } };
    return { kind: 'answer', defer, run: () => answer(request, scene, ports, { where: 'private' }) };
  }
  const { setup = '', topic = '', code, ...options } = told;
  if (TOPIC_COMMANDS.includes(command)) {
    return answered({ command, setup: topic === '' ? setup : topic }, scene, ports, 'private');
  }
  const question = BY_NAME.get(command);
  if (question === undefined) return said(WORDS.unknownCommand);
  if (Object.keys(told).length === 0) return opened(() => bikeModal(question));
  const line = code === undefined ? setup : `#${code.replace('#', '')} ${setup}`.trim();
  const request = { command, setup: line, options };
  return { kind: 'answer', defer: 'private', run: () => answer(request, scene, ports, { where: 'private' }) };
}

/** A button or a select under a card. */
export function pressWork(press: Press, values: readonly string[], scene: Scene, ports: Ports): Work {
  const where = whereOf(scene);
  switch (press.kind) {
    case 'see': {
      const { command, setup, view, page } = press;
      const how = { where, seen: { view, page } };
      return { kind: 'answer', defer: where, run: () => answer({ command, setup }, scene, ports, how) };
    }
    case 'pick': {
      const [value = ''] = values;
      const { command, setup } = press;
      if (press.what === 'view') {
        const view = readView(value);
        if (view === null) return said(WORDS.unknownButton);
        return pressWork({ kind: 'see', command, setup, view, page: 0 }, [], scene, ports);
      }
      return doWork({ command, setup: `${setup} ${value}`.trim() }, scene, ports);
    }
    case 'do':
      return doWork(press, scene, ports);
    case 'share': {
      const { command, setup, view, page } = press;
      const run = async () => (await shownToAll({ command, setup }, { view, page }, scene, ports)).done;
      return { kind: 'answer', defer: 'public', run };
    }
    case 'fix':
      return fixWork(press, scene, ports);
    case 'tell':
    case 'fill':
    case 'pin-text':
    case 'pin-message':
    case 'pin-topic':
    case 'reply':
      return said(WORDS.unknownButton);
  }
}

/** A modal with a bike in it. */
export function tellWork(command: string, { setup = '', ...options }: Told, scene: Scene, ports: Ports): Work {
  return answered({ command, setup, options }, scene, ports, whereOf(scene));
}

/** A modal with the rest of an action's fields. */
export function fillWork(
  { command, action, words }: Extract<Press, { readonly kind: 'fill' }>,
  fields: Told,
  scene: Scene,
  ports: Ports,
): Work {
  const known = KEPT.get(command)?.actions.find((each) => each.name === action)?.fields ?? [];
  const told = Object.fromEntries(words.map((word, index) => [known[index]?.name ?? '', word]));
  return answered({ command, setup: '', options: { ...told, ...fields, action } }, scene, ports, whereOf(scene));
}

/** A line asked anew; an action that lacks a field opens a modal for the rest. */
function doWork({ command, setup }: Look, scene: Scene, ports: Ports): Work {
  const kept = KEPT.get(command);
  if (kept !== undefined) {
    const reading = readAction(kept, setup, {});
    const found = actionOf(kept, setup);
    // Where every field is told already, the desk says which of them cannot be used.
    if (reading.kind === 'refused' && found !== null && found.words.length < found.action.fields.length) {
      return opened(() => actionModal(kept, found.action, found.words));
    }
  }
  return answered({ command, setup }, scene, ports, whereOf(scene));
}

/** The action a line begins with, and the fields it tells by their place. */
function actionOf(command: KeptCommand, line: string): { readonly action: Action; readonly words: string[] } | null {
  const [name = '', ...rest] = line.trim().split(/\s+/);
  const action = command.actions.find((each) => each.name === name.toLowerCase());
  if (action === undefined) return null;
  const named = rest.findIndex((word) => word.includes('='));
  return { action, words: (named === -1 ? rest : rest.slice(0, named)).slice(0, action.fields.length) };
}

/** Opens what was read, or typed, to be put right. */
function fixWork({ command, setup }: Look, scene: Scene, ports: Ports): Work {
  const kept = KEPT.get(command);
  if (kept !== undefined) {
    const reading = readAction(kept, setup, {});
    const found = actionOf(kept, setup);
    if (found === null) return said(WORDS.unknownButton);
    // Without a field there is nothing to put right but who asks.
    if (found.action.fields.length === 0) return answered({ command, setup }, scene, ports, whereOf(scene));
    return opened(() => actionModal(kept, found.action, [], reading.kind === 'read' ? reading.filled : {}));
  }
  const question = BY_NAME.get(command);
  if (question === undefined) return said(WORDS.unknownCommand);
  if (!setup.startsWith('#')) return opened(() => correctionModal(question, setup));
  const { visitor } = scene;
  if (visitor === null) return said(WORDS.noPlace);
  return {
    kind: 'now',
    instead: privately(WORDS.slow),
    respond: async () => {
      const reply = await ports.desk.ask({ request: { command, setup }, visitor });
      return reply.kind === 'answered' || reply.kind === 'asks'
        ? modalResponse(correctionModal(question, sayBack(reply.read)))
        : privately(escaped(reply.card.answer));
    },
  };
}

function answered(
  request: Parameters<typeof answer>[0],
  scene: Scene,
  ports: Ports,
  where: Extract<Where, 'private' | 'update'>,
): Work {
  return { kind: 'answer', defer: where, run: () => answer(request, scene, ports, { where, seen: FIRST }) };
}

/** A private card changes in place; below a card for everybody, whoever presses gets a copy of their own. */
function whereOf({ message }: Scene): 'private' | 'update' {
  return message === null ? 'private' : 'update';
}
