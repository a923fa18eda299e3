import type { AnswerText, PinnedQuestion } from '../records/answers.ts';
import type { Stretch } from '../records/text-difference.ts';
import { textDifference } from '../records/text-difference.ts';

/** Words kept on either side of a change, so that a reader finds the place. */
const CONTEXT_CHARACTERS = 24;

/** Changes that stand nearer to each other than this are shown as one. */
const NEAR_CHARACTERS = 12;

/** More changes than this are a new text, which is easier read whole. */
const MOST_CHANGES = 8;

type Change = { before: string; old: string; now: string; after: string };

/** What changed from one text of a standard answer to the next, a line a change; says so where nothing did. */
export function textChangeLines(old: AnswerText, now: AnswerText): readonly string[] {
  const lines = [...bodyChangeLines(old.body, now.body), ...aliasLines(old.aliases, now.aliases)];
  const question = questionLine(old, now);
  if (question !== null) lines.push(question);
  return lines.length === 0 ? ['Nothing in it changed.'] : lines;
}

function bodyChangeLines(old: string, now: string): string[] {
  const changes = changesIn(textDifference(old, now));
  if (changes.length > MOST_CHANGES || (changes.length > 0 && (old.trim() === '' || now.trim() === ''))) {
    return [`“${flat(old)}” became “${flat(now)}”`];
  }
  return changes.map(({ before, old: gone, now: came, after }) => {
    const [left, right] = [tail(before), head(after)];
    return `“${flat(left + gone + right)}” became “${flat(left + came + right)}”`;
  });
}

function changesIn(stretches: readonly Stretch[]): readonly Change[] {
  const changes: Change[] = [];
  let same = '';
  let open: Change | null = null;
  for (const { kind, text } of stretches) {
    if (kind === 'same') {
      if (open !== null) open.after = text;
      same = text;
      continue;
    }
    if (open === null || (open.after !== '' && same.length >= NEAR_CHARACTERS)) {
      open = { before: same, old: '', now: '', after: '' };
      changes.push(open);
    } else if (open.after !== '') {
      open.old += open.after;
      open.now += open.after;
      open.after = '';
    }
    if (kind === 'removed') open.old += text;
    else open.now += text;
  }
  return changes;
}

/** The end of what stands before a change, from a blank on. */
function tail(text: string): string {
  if (text.length <= CONTEXT_CHARACTERS) return text;
  const blank = text.indexOf(' ', text.length - CONTEXT_CHARACTERS);
  return `…${text.slice(blank === -1 ? text.length : blank)}`;
}

/** The beginning of what stands behind a change, up to a blank. */
function head(text: string): string {
  if (text.length <= CONTEXT_CHARACTERS) return text;
  const blank = text.lastIndexOf(' ', CONTEXT_CHARACTERS);
  return `${text.slice(0, blank === -1 ? 0 : blank + 1)}…`;
}

/** A new line would break the sentence it stands in. */
function flat(text: string): string {
  return text.split('\n').join(' ¶ ');
}

function aliasLines(old: readonly string[], now: readonly string[]): readonly string[] {
  const gone = old.filter((each) => !now.includes(each));
  const came = now.filter((each) => !old.includes(each));
  const lines: string[] = [];
  if (came.length > 0) lines.push(`Also found as: ${came.join(', ')}.`);
  if (gone.length > 0) lines.push(`No longer found as: ${gone.join(', ')}.`);
  return lines;
}

function questionLine({ question: old }: AnswerText, { question: now }: AnswerText): string | null {
  if (now === null) return old === null ? null : `Its card was taken away: ${questionWords(old)}.`;
  if (old === null) return `It got a card: ${questionWords(now)}.`;
  const [then, today] = [questionWords(old), questionWords(now)];
  if (then !== today) return `Its card: “${then}” became “${today}”`;
  if (old.result === now.result && old.rules === now.rules) return null;
  return `Its card was solved again: rules ${old.rules} then, ${now.rules} now.`;
}

/** A pinned question as somebody would type it. */
export function questionWords({
  command,
  setup,
  options,
}: Pick<PinnedQuestion, 'command' | 'setup' | 'options'>): string {
  return [command, setup, ...Object.entries(options).map(([key, value]) => `${key}=${value}`)]
    .filter((each) => each !== '')
    .join(' ');
}
