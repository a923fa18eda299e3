import type {
  Answers,
  AnswerText,
  AnswerVersion,
  Approved,
  Deed,
  NewText,
  TextRefused,
  Written,
} from '../../src/records/answers.ts';
import { overLimit } from '../../src/records/limits.ts';
import { topicOf } from '../../src/records/names.ts';
import type { Who } from '../../src/records/place.ts';
import {
  contentOf,
  type DraftRow,
  draftsOf,
  fitText,
  held,
  newest,
  topicBehind,
  versionsOf,
  waiting,
  wordsOf,
} from './answer-rows.ts';
import { keyOf, perhapsOwn } from './people.ts';
import type { Scope } from './scope.ts';
import type { InPlace, PlaceStore } from './store.ts';

/** A text on its way to becoming the next version of a topic. */
type Next = {
  readonly topic: string;
  readonly deed: Deed;
  readonly restored: number | null;
  readonly basedOn: number;
  readonly text: AnswerText;
  readonly why: string;
  readonly author: string;
  readonly approver: string | null;
  readonly atMs: number;
};

/** Keeps a text as the next version of its topic, or as a draft where a second person is asked for. */
export async function write(store: PlaceStore, who: Who, given: NewText, atMs: number): Promise<Written | TextRefused> {
  const fit = fitText(given.topic, given.text, given.why);
  if (fit.kind !== 'fit') return fit;
  const { topic, text } = fit;
  return store.change(who.place, async (at) => {
    const author = await keyOf(at.scope, who, atMs);
    const next = { ...given, topic, text, author, approver: null, atMs };
    return given.needsApproval ? draft(at.scope, next) : keep(at, next);
  });
}

/** Makes the next version, or says why not and changes nothing. */
async function keep(
  at: InPlace,
  next: Next,
): Promise<Extract<Written, { kind: 'kept' }> | Exclude<TextRefused, { kind: 'draft-waits' }>> {
  const { scope } = at;
  const { topic, text, deed, restored, author, approver, atMs } = next;
  const refused = await nameRefused(scope, topic, text);
  if (refused !== null) return refused;
  const id = await stepTo(scope, next);
  if (id === null) return { kind: 'conflict', mine: text, theirs: await newest(scope, topic) };

  const version = next.basedOn + 1;
  const row = { topic, version, deed, restored, author, approver, at: atMs, content: contentOf(text, next.why) };
  await scope.insertInto('answer_versions').values(row).execute();
  if (deed === 'unpin') {
    await at.words.remove(id);
  } else {
    await scope.deleteFrom('answer_names').where('topic', '=', topic).execute();
    await scope
      .insertInto('answer_names')
      .values([topic, ...text.aliases].map((name) => ({ name, topic })))
      .execute();
    await at.words.put(id, topic, wordsOf(topic, text));
  }
  const [kept] = await versionsOf(scope, [row]);
  if (kept === undefined) throw new Error('a row gives a version');
  return { kind: 'kept', version: kept };
}

/** Moves the topic on from the version the writer had before them; null when it has moved on already. */
async function stepTo(scope: Scope, { topic, deed, basedOn, text }: Next): Promise<number | null> {
  const state = { pinned: deed === 'unpin' ? 0 : 1, asks: text.question === null ? 0 : 1 } as const;
  const row =
    basedOn === 0
      ? await scope
          .insertInto('answers')
          .values({ topic, version: 1, ...state })
          .onConflict((conflict) => conflict.columns(['place', 'topic']).doNothing())
          .returning('id')
          .executeTakeFirst()
      : await scope
          .updateTable('answers')
          .set({ version: basedOn + 1, ...state })
          .where('topic', '=', topic)
          .where('version', '=', basedOn)
          .returning('id')
          .executeTakeFirst();
  return row?.id ?? null;
}

/** A name of the text that belongs to another topic, if one does. */
async function nameRefused(
  scope: Scope,
  topic: string,
  text: AnswerText,
): Promise<Extract<TextRefused, { kind: 'taken' }> | null> {
  const other = await scope
    .selectFrom('answer_names')
    .select(['name', 'topic'])
    .where('name', 'in', [topic, ...text.aliases])
    .where('topic', '!=', topic)
    .orderBy('name')
    .executeTakeFirst();
  return other === undefined ? null : { kind: 'taken', ...other };
}

async function draft(scope: Scope, next: Next & NewText): Promise<Written | TextRefused> {
  const { topic, text, deed, restored, basedOn, author, atMs } = next;
  const open = await waiting(scope, topic);
  if (open !== undefined) {
    const [theirs] = await draftsOf(scope, [open]);
    if (theirs !== undefined) return { kind: 'draft-waits', mine: text, draft: theirs };
  }
  const refused = await nameRefused(scope, topic, text);
  if (refused !== null) return refused;
  const current = await newest(scope, topic);
  if ((current?.version ?? 0) !== basedOn) return { kind: 'conflict', mine: text, theirs: current };

  const row = {
    topic,
    number: await nextDraft(scope, topic),
    status: 'open',
    deed,
    restored,
    based_on: basedOn,
    author,
    at: atMs,
    content: contentOf(text, next.why),
    decider: null,
    decided_at: null,
    decided_why: null,
  } as const;
  await scope.insertInto('answer_drafts').values(row).execute();
  const [kept] = await draftsOf(scope, [row]);
  if (kept === undefined) throw new Error('a row gives a draft');
  return { kind: 'drafted', draft: kept };
}

async function nextDraft(scope: Scope, topic: string): Promise<number> {
  const { last } = await scope
    .selectFrom('answer_drafts')
    .select((eb) => eb.fn.max('number').as('last'))
    .where('topic', '=', topic)
    .executeTakeFirstOrThrow();
  return (last ?? 0) + 1;
}

/** Lets a draft wait on what stands now. Its new number keeps out whoever approves what they saw before. */
async function moved(scope: Scope, row: DraftRow, theirs: AnswerVersion): Promise<Approved> {
  const { topic } = row;
  const deed = theirs.deed === 'unpin' ? 'pin' : row.deed === 'pin' ? 'edit' : row.deed;
  const now = { number: await nextDraft(scope, topic), based_on: theirs.version, deed } as const;
  await scope
    .updateTable('answer_drafts')
    .set(now)
    .where('topic', '=', topic)
    .where('number', '=', row.number)
    .execute();
  const [draft] = await draftsOf(scope, [{ ...row, ...now }]);
  return draft === undefined ? { kind: 'missing' } : { kind: 'moved', draft, theirs };
}

/** Takes a topic down as its next version; nothing of it is lost. */
export async function unpin(
  store: PlaceStore,
  who: Who,
  { topic: name, basedOn, why }: Parameters<Answers['unpin']>[1],
  atMs: number,
): ReturnType<Answers['unpin']> {
  const over = overLimit({ why: why.length });
  if (over !== null) return over;
  return store.change(who.place, async (at) => {
    const topic = await topicBehind(at.scope, name);
    const theirs = topic === null ? null : await newest(at.scope, topic);
    if (topic === null || theirs === null || theirs.deed === 'unpin') return { kind: 'missing' };
    if (theirs.version !== basedOn) return { kind: 'conflict', theirs };
    const author = await keyOf(at.scope, who, atMs);
    const next = { topic, deed: 'unpin', restored: null, basedOn, text: theirs.text, why, approver: null } as const;
    const kept = await keep(at, { ...next, author, atMs });
    if (kept.kind === 'kept') return kept;
    return { kind: 'conflict', theirs: (await newest(at.scope, topic)) ?? theirs };
  });
}

/** Makes a draft the next version, when somebody else than its author says so. */
export async function approve(
  store: PlaceStore,
  who: Who,
  name: string,
  number: number,
  atMs: number,
): Promise<Approved> {
  return store.change(who.place, async (at) => {
    const { scope } = at;
    const topic = topicOf(name);
    const row = topic === null ? undefined : await held(scope, topic);
    const [waits] = row === undefined ? [] : await draftsOf(scope, [row]);
    if (row === undefined || waits === undefined || row.number !== number) return { kind: 'missing' };
    const approver = await keyOf(scope, who, atMs);
    const isOwn = approver === row.author || (await perhapsOwn(scope, approver, [row.author])).size > 0;
    if (isOwn) return { kind: 'own-draft', draft: waits };
    const { deed, restored, basedOn, text, why } = waits;
    const next = { topic: row.topic, deed, restored, basedOn, text, why, author: row.author, approver, atMs };
    const kept = await keep(at, next);
    if (kept.kind === 'conflict') return kept.theirs === null ? { kind: 'missing' } : moved(scope, row, kept.theirs);
    if (kept.kind !== 'kept') return kept;
    await scope
      .updateTable('answer_drafts')
      .set({ status: 'approved', decider: approver, decided_at: atMs })
      .where('topic', '=', row.topic)
      .where('number', '=', row.number)
      .execute();
    return kept;
  });
}
