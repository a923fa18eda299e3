import {
  noCard,
  noSuchTopic,
  noSuchVersion,
  nothingToChange,
  sinceLine,
  takenDown,
} from '../card/standard-answer-refusal.ts';
import type { AnswerText, AnswerVersion, PinnedQuestion, Shown } from '../records/answers.ts';
import { topicOf } from '../records/names.ts';
import { canonicalJson } from '../records/result-difference.ts';
import type { Settings } from '../records/settings.ts';
import type { Action, KeptOutcome, Visit } from './kept.ts';
import { fromReceipt, type Snapshot, solvedAnew } from './pinned-question.ts';
import { ALIASES, aliasesIn, FROM, TEXT, TOPIC, VERSION_SEEN, WHY, WHY_IF_WANTED } from './standard-answer-fields.ts';
import { writtenOutcome } from './standard-answer-outcome.ts';

/** A new topic: words, an answer given before, or both. */
export const pin: Action = {
  name: 'pin',
  summary: 'Pin a text, or an answer given before, under a topic',
  moderators: true,
  public: false,
  fields: [TOPIC, TEXT, FROM, ALIASES, WHY_IF_WANTED],
  run: async ({ topic = '', text = '', from, aliases = 'none', why = '' }, visit) => {
    const { records, who } = visit;
    const settings = await records.settings.read(who.place);
    const snapshot = from === undefined ? null : await fromReceipt(from, visit, settings);
    if (snapshot?.kind === 'refused') return snapshot;
    const written = await records.answers.write(
      who,
      {
        topic,
        deed: 'pin',
        restored: null,
        basedOn: downVersion(await records.answers.show(who.place, topic), topic),
        text: { aliases: aliasesIn(aliases), body: text, question: snapshot?.question ?? null },
        why,
        needsApproval: settings.approvals,
      },
      visit.nowMs,
    );
    return writtenOutcome('pin', topic, written, null, sinceLines(snapshot));
  },
};

/** A topic that was taken down may be pinned anew; its history goes on. */
function downVersion(found: Shown, topic: string): number {
  return found.kind === 'unpinned' && found.version.topic === topicOf(topic) ? found.version.version : 0;
}

function sinceLines(snapshot: Snapshot | null): readonly string[] {
  return snapshot?.kind === 'pinned' && snapshot.since.length > 0 ? [sinceLine(snapshot.since.length)] : [];
}

/** Another text, other names or another card for a topic; what is not told stays. */
export const edit: Action = {
  name: 'edit',
  summary: 'Change the text, the other names or the card of a topic',
  moderators: true,
  public: false,
  fields: [TOPIC, { ...TEXT, example: 'Measure twice.' }, WHY, VERSION_SEEN, ALIASES, FROM],
  run: async (filled, visit) => {
    const { records, who } = visit;
    const found = await records.answers.show(who.place, filled.topic ?? '');
    if (found.kind === 'missing') return { kind: 'refused', refusal: noSuchTopic(filled.topic ?? '', found.near) };
    if (found.kind === 'unpinned') return { kind: 'refused', refusal: takenDown(found.version) };
    const seen = await versionSeen(found.version, filled.version, visit);
    return seen === null
      ? {
          kind: 'refused',
          refusal: noSuchVersion(found.version.topic, Number(filled.version), found.version.version),
        }
      : rewrite(seen, filled, visit);
  },
};

/** The version the writer had before them: the newest unless they say another; null when there is no such version. */
async function versionSeen(
  newest: AnswerVersion,
  told: string | undefined,
  { records, who }: Visit,
): Promise<AnswerVersion | null> {
  if (told === undefined || Number(told) === newest.version) return newest;
  return records.answers.version(who.place, newest.topic, Number(told));
}

async function rewrite(
  seen: AnswerVersion,
  filled: Readonly<Record<string, string>>,
  visit: Visit,
): Promise<KeptOutcome> {
  const settings = await visit.records.settings.read(visit.who.place);
  const card = await cardOf(seen, filled.from, visit, settings);
  if (card.kind === 'refused') return card;
  const text: AnswerText = {
    aliases: filled.aliases === undefined ? seen.text.aliases : aliasesIn(filled.aliases),
    body: filled.text ?? seen.text.body,
    question: card.question,
  };
  if (canonicalJson(text) === canonicalJson(seen.text)) return { kind: 'refused', refusal: nothingToChange(seen) };
  const written = await visit.records.answers.write(
    visit.who,
    {
      topic: seen.topic,
      deed: 'edit',
      restored: null,
      basedOn: seen.version,
      text,
      why: filled.why ?? '',
      needsApproval: settings.approvals,
    },
    visit.nowMs,
  );
  return writtenOutcome('edit', seen.topic, written, seen.text, card.note);
}

type CardTold =
  | { readonly kind: 'card'; readonly question: PinnedQuestion | null; readonly note: readonly string[] }
  | Extract<KeptOutcome, { readonly kind: 'refused' }>;

/** The card an edit leaves: as it was, none, the same solved today, or the one behind a receipt. */
async function cardOf(
  seen: AnswerVersion,
  from: string | undefined,
  visit: Visit,
  settings: Settings,
): Promise<CardTold> {
  const { question } = seen.text;
  if (from === undefined) return { kind: 'card', question, note: [] };
  if (from.toLowerCase() === 'none') return { kind: 'card', question: null, note: [] };
  if (from.toLowerCase() === 'today') {
    if (question === null) return { kind: 'refused', refusal: noCard(seen) };
    const anew = solvedAnew(question, visit, settings);
    return anew.kind === 'refused' ? anew : { kind: 'card', question: anew.question, note: [] };
  }
  const told = await fromReceipt(from, visit, settings);
  return told.kind === 'refused' ? told : { kind: 'card', question: told.question, note: sinceLines(told) };
}
