import { columnsOf } from '../../adapters/terminal/columns.ts';
import { complete } from '../../adapters/terminal/completion.ts';
import { refusedReply, replyJson } from '../../adapters/terminal/json.ts';
import { typedCard } from '../../adapters/terminal/kept-card.ts';
import { readRequestLine } from '../../adapters/terminal/read.ts';
import { receiptText } from '../../adapters/terminal/receipt.ts';
import { type Look, render, withoutWorking } from '../../adapters/terminal/render.ts';
import { openSession } from '../../adapters/terminal/session.ts';
import type { Desk } from '../../src/desk.ts';
import { draw } from '../../src/draw/draw.ts';
import type { Reply, Request } from '../../src/request.ts';
import { person, place } from '../support/storages.ts';
import { type Case, wordsOf } from './cases.ts';
import { allCautions, checkCautions, checkNoSlip, checkReply, checkSafe, checkShown, fail, isPlan } from './rules.ts';

const NARROW: Look = { kind: 'screen', width: 40, colour: false };
const WIDE: Look = { kind: 'screen', width: 80, colour: true };
const SPOKEN: Look = { kind: 'spoken', width: null };

/** The only thing a terminal may obey: bold, dim and the colours of a caution, on and off. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: this is the one that may come
const STYLE = /\u001b\[(?:1|2|22|31|33|39)m/g;

const PLACE = place('terminal');

/** Plays cases at a terminal: every form of every answer, lines of a conversation, and completions. */
export function openTerminal(desk: Desk): (played: Case) => Promise<void> {
  const askAs = (moderator: boolean) => (request: Request) =>
    desk.ask({ request, visitor: { who: { place: PLACE, person: person('me') }, roles: [], runsPlace: moderator } });
  const hear = openSession(askAs(true), NARROW);

  return async (played) => {
    const { act, moderator } = played;
    const typed = wordsOf(played);
    switch (act.kind) {
      case 'question':
      case 'kept': {
        const reading = readRequestLine(lineOf(act));
        const reply = reading.kind === 'read' ? await askAs(moderator)(reading.request) : refusedReply(reading.refusal);
        checkEveryForm(reply, typed);
        if (played.presses.length > 0) checkPictures(reply);
        return;
      }
      case 'talk': {
        const { text } = await hear(act.text.replaceAll('\n', ' '));
        checkScreen(text, NARROW, typed);
        return;
      }
      case 'typing': {
        const [found] = complete(act.typed);
        for (const each of found) checkShown(each, typed);
        return;
      }
      case 'message':
      case 'old-button':
        return;
    }
  };
}

/** What one types: words, or an object where there are typed options too. */
function lineOf(act: Extract<Case['act'], { readonly kind: 'question' | 'kept' }>): string {
  if (act.kind === 'kept') {
    return keptLine(act);
  }
  const { command, setup, options } = act;
  return Object.keys(options).length === 0 ? `${command} ${setup}` : JSON.stringify({ command, setup, options });
}

/** An action and its fields as one line. */
export function keptLine({ command, action, told }: Extract<Case['act'], { readonly kind: 'kept' }>): string {
  const fields = Object.entries(told).map(([name, value]) => `${name}="${value}"`);
  return [command, action, ...fields].join(' ');
}

function checkEveryForm(reply: Reply, typed: string): void {
  checkReply(reply);
  const card = typedCard(reply);
  const narrow = render(withoutWorking(card), NARROW) + receiptText(reply, NARROW);
  checkScreen(narrow, NARROW, typed);
  checkScreen(render(card, WIDE) + receiptText(reply, WIDE), WIDE, typed);
  const spoken = render(card, SPOKEN) + receiptText(reply, SPOKEN);
  checkScreen(spoken, SPOKEN, typed);
  if (isPlan(reply)) {
    checkCautions(allCautions(card), narrow);
    checkCautions(allCautions(card), spoken);
  }
  checkJson(replyJson(reply), typed);
}

function checkScreen(text: string, look: Look, typed: string): void {
  const plain = look.kind === 'screen' && look.colour ? text.replaceAll(STYLE, '') : text;
  checkShown(plain, typed);
  if (look.width === null) return;
  for (const line of plain.split('\n')) if (columnsOf(line) > look.width) fail(`wider than ${look.width}`, line);
}

function checkJson(text: string, typed: string): void {
  if (text.includes('\n')) fail('JSON of more than one line');
  checkSafe(text);
  // Read first: an escaped line break before a word makes another word of it.
  const reply = JSON.parse(text, (_, value: unknown) => {
    if (typeof value === 'string') checkNoSlip(value, typed);
    return value;
  });
  const { command, refusal, answer, result, card } = reply;
  if (typeof command !== 'string' || typeof card?.answer !== 'string') fail('JSON without its command or card');
  if ([refusal, answer, result].every((each) => each === undefined)) fail('JSON that says nothing', text.slice(0, 200));
}

function checkPictures({ card }: Reply): void {
  for (const block of card.blocks) {
    if (block.kind !== 'figure') continue;
    const svg = draw(block.figure, 'light');
    if (/NaN|undefined|Infinity|\[object/.test(svg)) fail('a picture with a number that is none', block.title);
  }
}
