import { SHORTCUTS } from '../../adapters/slack/standard-answers.ts';
import type { Button, Input, Modal, StaticSelect } from '../../adapters/slack/wire.ts';
import type { Desk } from '../../src/desk.ts';
import type { Records } from '../../src/records/records.ts';
import type { Reply } from '../../src/request.ts';
import { event, stamp, suggestion } from '../support/slack-payloads.ts';
import { blockSchema } from '../support/slack-schema.ts';
import { elementsOf, openStage, readable, type Scene } from '../support/slack-stage.ts';
import { type Case, wordsOf } from './cases.ts';
import { liveInSlack } from './mentions.ts';
import { keptLine } from './on-terminal.ts';
import { checkCautions, checkReply, checkShown, fail, isPlan, shortCautions } from './rules.ts';

/** More pages than any card has. */
const MOST_PAGES = 60;

/** What somebody may pick in a list that suggests. */
const OPTION = 75;

let schema: ReturnType<typeof blockSchema> | undefined;

/** Plays cases on Slack: commands, windows, lists, buttons and pages, each payload checked as the platform would. */
export function openSlack(records: Records, heard: readonly Reply[], listening: (desk: Desk) => Desk) {
  schema ??= blockSchema();
  const { faultsOf, viewFaultsOf } = schema;
  const stage = openStage(records, { kind: 'none' }, listening);
  stage.platform.users.set('UBOSS', { is_admin: true, profile: { display_name: 'Boss <!channel>' } });
  stage.platform.users.set('UANN', { profile: { display_name: 'Ann \u202e@here' } });

  const check = (scene: Scene, typed: string): Scene => {
    const { ack, arrived, windows } = scene;
    if (ack === undefined && arrived.length === 0 && windows.length === 0) fail('no reply');
    const messages = [...(ack !== undefined && 'blocks' in ack ? [ack] : []), ...arrived.map(({ message }) => message)];
    const views = [...windows, ...(ack !== undefined && 'view' in ack ? [ack.view] : [])];
    const faults = [
      ...messages.flatMap(({ blocks }) => faultsOf(blocks)),
      ...views.flatMap((view) => viewFaultsOf(view)),
      ...stage.platform.faults,
    ];
    if (faults.length > 0) fail('the platform refuses it', faults);
    if (ack !== undefined && 'options' in ack) checkOptions(ack.options);
    const fault = stage.lines.find(({ level }) => level === 'error');
    if (fault !== undefined) fail('a fault of ours', fault);
    const payloads = [ack ?? {}, ...messages, ...views];
    const live = payloads.flatMap((each) => liveInSlack(each));
    if (live.length > 0) fail('something is live', live, payloads);
    for (const each of payloads) checkTexts(each, typed);
    return scene;
  };

  const checkHome = async (user: string, typed: string): Promise<void> => {
    await stage.take(event({ type: 'app_home_opened', user, tab: 'home' }));
    const home = stage.platform.homes.get(user);
    if (home === undefined) fail('no Home tab');
    const faults = [...viewFaultsOf(home), ...stage.platform.faults];
    if (faults.length > 0) fail('the platform refuses it', faults);
    if (liveInSlack(home).length > 0) fail('something is live', home);
    checkTexts(home, typed);
  };

  return async (played: Case): Promise<void> => {
    const { moderator, presses, typed } = played;
    const user = moderator ? 'UBOSS' : 'UANN';
    const words = wordsOf(played);
    const from = heard.length;
    const first = check(await begun(played, user, stage), words);
    for (const reply of heard.slice(from)) checkReply(reply);

    if (played.act.kind === 'talk') await checkHome(user, words);

    const [reply] = heard.slice(from);
    if (played.act.kind === 'question' && reply !== undefined && isPlan(reply)) {
      const texts = textsOf(first);
      let next = nextPage(first);
      for (let page = 0; next !== undefined && page < MOST_PAGES; page += 1) {
        const more = check(await stage.press(user, next), words);
        texts.push(...textsOf(more));
        next = nextPage(more);
      }
      checkCautions(shortCautions(reply.card), texts.join('\n'));
    }

    let last = first;
    for (const choice of presses) {
      const next = await followed(last, choice, typed, user, stage);
      if (next === null) break;
      last = check(next, words);
    }
  };
}

/** "Option object": neither half may be empty, nor longer than the shorter of the limits that are written down. */
function checkOptions(options: Extract<Scene['ack'], { readonly options: unknown }>['options']): void {
  if (options.length > 100) fail('more suggestions than a list takes', options.length);
  for (const { text, value } of options) {
    for (const each of [text.text, value]) if (each.trim() === '' || each.length > OPTION) fail('a suggestion', each);
  }
}

type Stage = ReturnType<typeof openStage>;

function begun({ act, moderator }: Case, user: string, stage: Stage): Promise<Scene> {
  switch (act.kind) {
    case 'question': {
      const told = Object.entries(act.options).map(([name, value]) => `${name}="${value}"`);
      return stage.slash(user, [act.command, act.setup, ...told].join(' '));
    }
    case 'kept':
      return stage.slash(user, keptLine(act));
    case 'typing':
      return stage.take(suggestion({ user }, [act.command, act.action, act.field].join('|'), act.typed));
    case 'message':
      return stage.shortcut(user, SHORTCUTS[act.does], { ts: stamp(), text: act.text });
    case 'old-button': {
      const press = act.id
        .split('|')
        .map((part) => encodeURIComponent(part.toWellFormed()))
        .join('|');
      const value = moderator ? press : act.id;
      const text = { type: 'plain_text', text: 'x', emoji: false } as const;
      return act.value === ''
        ? stage.press(user, { type: 'button', text, action_id: 'last-0', value })
        : stage.press(user, { type: 'static_select', action_id: value, placeholder: text, options: [] }, {}, act.value);
    }
    case 'talk':
      return stage.mention(user, act.text);
  }
}

/** The next thing somebody does with what they see: fills in a window, picks from a list, presses a button. */
function followed(scene: Scene, choice: number, typed: string, user: string, stage: Stage): Promise<Scene> | null {
  const [window] = windowsOf(scene);
  if (window !== undefined && window.submit !== undefined)
    return stage.submit(user, window, filled(window, choice, typed));
  const elements = scenesMessages(scene).flatMap(elementsOf);
  const element = elements[choice % Math.max(1, elements.length)];
  if (element === undefined) return null;
  const value = element.type === 'button' ? '' : (element.options[choice % element.options.length]?.value ?? '');
  return stage.press(user, element, { mine: choice % 2 === 0 }, value);
}

function filled({ blocks }: Modal, choice: number, typed: string): Readonly<Record<string, string>> {
  const inputs = blocks.filter((block) => block.type === 'input');
  return Object.fromEntries(
    inputs.map(({ element, block_id }, index) => [block_id, typedInto(element, choice + index, typed)]),
  );
}

function typedInto(element: Input['element'], choice: number, typed: string): string {
  switch (element.type) {
    case 'static_select':
      return element.options[choice % element.options.length]?.value ?? '';
    case 'external_select':
      return element.initial_option?.value ?? (typed.slice(0, OPTION) || 'hills');
    case 'plain_text_input': {
      const keeps = choice % 3 === 0 && element.initial_value !== undefined;
      return keeps ? (element.initial_value ?? '') : typed.slice(0, element.max_length);
    }
  }
}

function scenesMessages({ ack, arrived }: Scene) {
  return [...(ack !== undefined && 'blocks' in ack ? [ack] : []), ...arrived.map(({ message }) => message)];
}

function windowsOf({ ack, windows }: Scene): readonly Modal[] {
  return [...windows, ...(ack !== undefined && 'view' in ack ? [ack.view] : [])];
}

function textsOf(scene: Scene): string[] {
  return scenesMessages(scene).map(readable);
}

function nextPage(scene: Scene): Button | StaticSelect | undefined {
  const elements = scenesMessages(scene).flatMap(elementsOf);
  return elements.find((each) => each.type === 'button' && each.text.text === 'Next page');
}

/** What is never shown: ids and values travel, and nobody reads them. */
const UNSEEN: readonly string[] = ['action_id', 'block_id', 'value', 'callback_id', 'private_metadata', 'type'];

function checkTexts(value: unknown, typed: string): void {
  if (typeof value === 'string') checkShown(value, typed);
  if (typeof value !== 'object' || value === null) return;
  for (const [key, each] of Object.entries(value)) if (!UNSEEN.includes(key)) checkTexts(each, typed);
}
