import type { Card } from '../../src/card/card.ts';
import { inert, UNSAFE_EACH } from '../../src/inert.ts';
import type { Reply } from '../../src/request.ts';
import { asRead, SLIPS } from './cases.ts';

/** What must be true of an answer whatever was typed; each rule throws, saying what it met. */

export function fail(rule: string, ...met: readonly unknown[]): never {
  throw new Error([rule, ...met.map((each) => (typeof each === 'string' ? each : JSON.stringify(each)))].join(': '));
}

/** The commands whose answer somebody takes to the workshop: none of them comes without its cautions. */
const PLANS: readonly string[] = ['convert', 'torque'];

/** What a card promises to every platform. */
export function checkReply(reply: Reply): void {
  const { answer, lines, blocks } = reply.card;
  if (answer.trim() === '') fail('an empty answer', reply.kind);
  if (answer.length > 120) fail('an answer of more than 120 characters', answer);
  if (lines.length > 5) fail('more than five lines', lines);
  checkNumbers(reply, reply.kind);
  if (isPlan(reply) && !blocks.some((block) => block.kind === 'caution')) fail('a plan without a caution', answer);
}

export function isPlan({ kind, command }: Reply): boolean {
  return kind === 'answered' && PLANS.includes(command);
}

/** No number that is none may hide where machines read: as JSON it would become null. */
function checkNumbers(value: unknown, path: string): void {
  if (typeof value === 'number' && !Number.isFinite(value)) fail('a number that is none', path);
  if (typeof value !== 'object' || value === null) return;
  for (const [key, each] of Object.entries(value)) checkNumbers(each, `${path}.${key}`);
}

/** The cautions that the short card must have: every stop, and what to heed before riding. */
export function shortCautions({ blocks }: Card): readonly string[] {
  return allCautions({ blocks: blocks.filter(isOnShortCard) });
}

export function allCautions({ blocks }: Pick<Card, 'blocks'>): readonly string[] {
  return blocks.flatMap((block) => (block.kind === 'caution' ? [block.text] : []));
}

function isOnShortCard(block: Card['blocks'][number]): boolean {
  if (block.kind !== 'caution') return false;
  return block.level === 'stop' || block.section === 'safety' || block.section === 'summary';
}

/** Every caution is there, however it was wrapped or paged. */
export function checkCautions(cautions: readonly string[], text: string): void {
  const all = squeezed(text);
  for (const caution of cautions) if (!all.includes(squeezed(inert(caution)))) fail('a caution is missing', caution);
}

function squeezed(text: string): string {
  return text.replaceAll(/\s+/g, '');
}

/** A text as it is shown: nothing in it hides, reorders or steers, and no word of it is a slip of ours. */
export function checkShown(text: string, typed: string): void {
  checkSafe(text);
  checkNoSlip(text, typed);
}

/** Isolates may stand around what is written from right to left, as long as each is closed again. */
export function checkSafe(text: string): void {
  let open = 0;
  for (const { 0: sign } of text.matchAll(UNSAFE_EACH)) {
    if (sign === '\n') continue;
    if (sign === '\u2068') open += 1;
    else if (sign === '\u2069' && open > 0) open -= 1;
    else fail('an unsafe character', `U+${sign.codePointAt(0)?.toString(16)}`, text.slice(0, 200));
  }
  if (open > 0) fail('an isolate that is not closed', text.slice(0, 200));
}

export function checkNoSlip(text: string, typed: string): void {
  const slip = SLIPS.exec(text);
  if (slip !== null && !asRead(typed).toLowerCase().includes(slip[0].toLowerCase())) {
    fail('a slip of ours is shown', text.slice(Math.max(0, slip.index - 100), slip.index + 100));
  }
}
