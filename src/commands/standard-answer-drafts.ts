import { overRefusal } from '../card/kept.ts';
import { draftsWords } from '../card/standard-answer-list.ts';
import { noSuchDraft, ownDraft, textRefusal } from '../card/standard-answer-refusal.ts';
import { declinedWords, draftMovedWords } from '../card/standard-answer-written.ts';
import type { AnswerDraft, AnswerVersion } from '../records/answers.ts';
import { topicOf } from '../records/names.ts';
import type { Action, KeptOutcome, Visit } from './kept.ts';
import { DRAFT, draftData, TOPIC, TOPIC_LAST, versionData, WHY } from './standard-answer-fields.ts';
import { keptOutcome } from './standard-answer-outcome.ts';

/** Drafts shown whole on one card; the others are named. */
const MOST_DRAFTS = 5;

/** What waits for a second person, with what each would change. */
export const drafts: Action = {
  name: 'drafts',
  summary: 'What waits for a second moderator, and what it would change',
  moderators: true,
  public: false,
  fields: [{ ...TOPIC_LAST, required: false }],
  run: async ({ topic }, visit) => {
    const { records, who } = visit;
    const { approvals } = await records.settings.read(who.place);
    const all = await records.answers.drafts(who.place);
    const wanted = topic === undefined ? all : all.filter((draft) => draft.topic === topicOf(topic));
    const whole = await Promise.all(
      wanted.slice(0, MOST_DRAFTS).map(async (draft) => ({ draft, before: await standing(draft, visit) })),
    );
    return {
      kind: 'done',
      words: draftsWords(whole, wanted.slice(MOST_DRAFTS), approvals),
      result: { drafts: wanted.map(draftData) },
    };
  },
};

/** What is shown now in the place of a draft. */
async function standing({ topic, basedOn }: AnswerDraft, { records, who }: Visit): Promise<AnswerVersion | null> {
  if (basedOn === 0) return null;
  const found = await records.answers.show(who.place, topic);
  return found.kind === 'missing' ? null : found.version;
}

/** The draft that waits for a topic. */
async function waiting(topic: string, { records, who }: Visit): Promise<AnswerDraft | null> {
  const all = await records.answers.drafts(who.place);
  return all.find((draft) => draft.topic === topicOf(topic)) ?? null;
}

async function missing(topic: string, draft: number, visit: Visit): Promise<KeptOutcome> {
  const { approvals } = await visit.records.settings.read(visit.who.place);
  return { kind: 'refused', refusal: noSuchDraft(topic, draft, await waiting(topic, visit), approvals) };
}

/** Makes a draft the version that is shown. */
export const approve: Action = {
  name: 'approve',
  summary: 'Let a draft of another moderator stand',
  moderators: true,
  public: false,
  fields: [TOPIC, DRAFT],
  run: async ({ topic = '', draft = '' }, visit) => {
    const { records, who, nowMs } = visit;
    const waits = await waiting(topic, visit);
    const before = waits === null ? null : await standing(waits, visit);
    const approved = await records.answers.approve(who, topic, Number(draft), nowMs);
    switch (approved.kind) {
      case 'missing':
        return missing(topic, Number(draft), visit);
      case 'own-draft':
        return { kind: 'refused', refusal: ownDraft(approved.draft) };
      case 'moved': {
        const result = { kind: 'moved', ...draftData(approved.draft), theirs: versionData(approved.theirs) };
        return { kind: 'done', words: draftMovedWords(approved.draft, approved.theirs), result };
      }
      case 'kept':
        return keptOutcome(approved.version, before?.text ?? null);
      case 'over':
        return { kind: 'refused', refusal: overRefusal(approved) };
      default:
        return { kind: 'refused', refusal: textRefusal(approved) };
    }
  },
};

/** Decides against a draft; its text stays in the records. */
export const decline: Action = {
  name: 'decline',
  summary: 'Decide against a draft, or take your own back',
  moderators: true,
  public: false,
  fields: [TOPIC, DRAFT, { ...WHY, example: 'why="too short"' }],
  run: async ({ topic = '', draft = '', why = '' }, visit) => {
    const declined = await visit.records.answers.decline(visit.who, topic, Number(draft), why, visit.nowMs);
    switch (declined.kind) {
      case 'missing':
        return missing(topic, Number(draft), visit);
      case 'over':
        return { kind: 'refused', refusal: overRefusal(declined) };
      case 'declined': {
        const { author } = declined.draft;
        const own = author.kind === 'person' && author.person === visit.who.person;
        return {
          kind: 'done',
          words: declinedWords(declined.draft, why, own),
          result: { kind: 'declined', ...draftData(declined.draft), declinedWhy: why },
        };
      }
    }
  },
};
