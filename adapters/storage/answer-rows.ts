import type { AnswerDraft, AnswerText, AnswerVersion, TextRefused } from '../../src/records/answers.ts';
import { longest, overLimit } from '../../src/records/limits.ts';
import { letterPairs, searchWords, topicOf } from '../../src/records/names.ts';
import type { WordsOf } from './engine.ts';
import { authorsOf } from './people.ts';
import type { Scope } from './scope.ts';
import type { Tables } from './tables.ts';

type Content = { readonly text: AnswerText; readonly why: string };
type VersionRow = Omit<Tables['answer_versions'], 'place'>;
export type DraftRow = Omit<Tables['answer_drafts'], 'place'>;

/** A text as it goes into a row. */
export function contentOf(text: AnswerText, why: string): string {
  return JSON.stringify({ text, why } satisfies Content);
}

/** Versions back from their rows, with the people behind them. */
export async function versionsOf(scope: Scope, rows: readonly VersionRow[]): Promise<AnswerVersion[]> {
  const author = await authorsOf(
    scope,
    rows.flatMap((row) => [row.author, row.approver]),
  );
  return rows.map((row) => {
    const { text, why } = JSON.parse(row.content) as Content;
    const { topic, version, deed, restored, at } = row;
    const approver = row.approver === null ? null : author(row.approver);
    return { topic, version, deed, restored, text, why, author: author(row.author), approver, atMs: at };
  });
}

/** Drafts back from their rows. */
export async function draftsOf(scope: Scope, rows: readonly DraftRow[]): Promise<AnswerDraft[]> {
  const author = await authorsOf(
    scope,
    rows.map((row) => row.author),
  );
  return rows.map((row) => {
    const { text, why } = JSON.parse(row.content) as Content;
    const { topic, number, deed, restored, at } = row;
    return { topic, number, deed, restored, basedOn: row.based_on, text, why, author: author(row.author), atMs: at };
  });
}

/** The topic that a topic or alias leads to; null when nobody uses the name. */
export async function topicBehind(scope: Scope, name: string): Promise<string | null> {
  const folded = topicOf(name);
  if (folded === null) return null;
  const row = await scope.selectFrom('answer_names').select('topic').where('name', '=', folded).executeTakeFirst();
  return row?.topic ?? null;
}

/** Every topic beside its newest version, of which the row is. */
export function newestRows(scope: Scope) {
  return scope
    .selectFrom('answers')
    .innerJoin('answer_versions', (join) =>
      join
        .onRef('answer_versions.topic', '=', 'answers.topic')
        .onRef('answer_versions.version', '=', 'answers.version'),
    )
    .selectAll('answer_versions');
}

/** The newest version of each topic that has one, in the order asked for; folded names. */
export async function newestOf(scope: Scope, topics: readonly string[]): Promise<AnswerVersion[]> {
  if (topics.length === 0) return [];
  const rows = await newestRows(scope).where('answers.topic', 'in', topics).execute();
  const versions = new Map((await versionsOf(scope, rows)).map((version) => [version.topic, version]));
  return topics.map((topic) => versions.get(topic)).filter((version) => version !== undefined);
}

export async function newest(scope: Scope, topic: string): Promise<AnswerVersion | null> {
  return (await newestOf(scope, [topic]))[0] ?? null;
}

/** The waiting draft of a topic. */
export async function waiting(scope: Scope, topic: string): Promise<DraftRow | undefined> {
  return scope
    .selectFrom('answer_drafts')
    .selectAll()
    .where('topic', '=', topic)
    .where('status', '=', 'open')
    .executeTakeFirst();
}

/** The waiting draft of a topic, for somebody who decides about it: whoever else does then waits until that is saved. */
export async function held(scope: Scope, topic: string): Promise<DraftRow | undefined> {
  return scope
    .updateTable('answer_drafts')
    .set((eb) => ({ status: eb.ref('status') }))
    .where('topic', '=', topic)
    .where('status', '=', 'open')
    .returningAll()
    .executeTakeFirst();
}

/** A text whose names are folded, or what is wrong with it by itself. */
export type FitText =
  | { readonly kind: 'fit'; readonly topic: string; readonly text: AnswerText }
  | Extract<TextRefused, { readonly kind: 'over' | 'nameless' | 'empty' }>;

export function fitText(name: string, text: AnswerText, why: string): FitText {
  const { body, question } = text;
  const over = overLimit({
    topic: name.length,
    aliases: text.aliases.length,
    alias: longest(text.aliases),
    body: body.length,
    why: why.length,
    command: question?.command.length ?? 0,
    setup: question?.setup.length ?? 0,
    options: JSON.stringify(question?.options ?? {}).length,
    rules: question?.rules.length ?? 0,
    answer: question?.result.length ?? 0,
    card: question?.card.length ?? 0,
  });
  if (over !== null) return over;
  if (body.trim() === '' && question === null) return { kind: 'empty' };
  const topic = topicOf(name);
  if (topic === null) return { kind: 'nameless', name };
  const aliases: string[] = [];
  for (const alias of text.aliases) {
    const folded = topicOf(alias);
    if (folded === null) return { kind: 'nameless', name: alias };
    if (folded !== topic && !aliases.includes(folded)) aliases.push(folded);
  }
  // Folding can lengthen a name: one ligature becomes two letters.
  const folded = overLimit({ topic: topic.length, alias: longest(aliases) });
  return folded ?? { kind: 'fit', topic, text: { aliases, body, question } };
}

/** What the word index gets to know of an answer. A pinned question is found by its command and setup as well. */
export function wordsOf(topic: string, { aliases, body, question }: AnswerText): WordsOf {
  const names = aliases.join(' ');
  return {
    topic: searchWords(topic),
    aliases: searchWords(names),
    body: searchWords(question === null ? body : `${body} ${question.command} ${question.setup}`),
    pairs: [...new Set([topic, ...aliases].flatMap(letterPairs))],
  };
}
