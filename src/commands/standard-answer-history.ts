import { overRefusal } from '../card/kept.ts';
import { historyWords, versionWords } from '../card/standard-answer-history.ts';
import {
  changedMeanwhile,
  noSuchTopic,
  noSuchVersion,
  standsAlready,
  takenDown,
} from '../card/standard-answer-refusal.ts';
import { keptWords } from '../card/standard-answer-written.ts';
import type { AnswerVersion } from '../records/answers.ts';
import type { Action, KeptOutcome, Visit } from './kept.ts';
import { TOPIC, TOPIC_LAST, VERSION_SEEN, versionData, WHY } from './standard-answer-fields.ts';
import { writtenOutcome } from './standard-answer-outcome.ts';

/** Differences on one card; each may be as long as the text itself. */
const MOST_VERSIONS = 5;

type Newest =
  | { readonly kind: 'newest'; readonly version: AnswerVersion }
  | Extract<KeptOutcome, { readonly kind: 'refused' }>;

/** The newest version of a topic, whether it is shown or taken down. */
async function newestOf(topic: string, { records, who }: Visit): Promise<Newest> {
  const found = await records.answers.show(who.place, topic);
  return found.kind === 'missing'
    ? { kind: 'refused', refusal: noSuchTopic(topic, found.near) }
    : { kind: 'newest', version: found.version };
}

/** Who changed a topic, when, why and what. */
export const history: Action = {
  name: 'history',
  summary: 'Who changed a standard answer, when, why, and what changed',
  moderators: false,
  public: false,
  fields: [
    TOPIC_LAST,
    { ...VERSION_SEEN, label: 'One version, whole' },
    { name: 'before', label: 'Older than this version', form: 'whole', required: false, example: 'before=6' },
  ],
  run: async ({ topic = '', version, before }, visit) => {
    const newest = await newestOf(topic, visit);
    if (newest.kind === 'refused') return newest;
    if (version !== undefined) return oneVersion(newest.version, Number(version), visit);
    const from = before === undefined ? Number.POSITIVE_INFINITY : Number(before);
    const read = await visit.records.answers.history(visit.who.place, newest.version.topic, from, MOST_VERSIONS + 1);
    const entries = read.slice(0, MOST_VERSIONS).map((each, at) => ({ version: each, before: read[at + 1] ?? null }));
    const [last] = entries.slice(-1);
    if (last === undefined) {
      return { kind: 'refused', refusal: noSuchVersion(newest.version.topic, from - 1, newest.version.version) };
    }
    return {
      kind: 'done',
      words: historyWords(newest.version, entries, last.before !== null),
      result: { versions: entries.map((each) => versionData(each.version)), more: last.before !== null },
    };
  },
};

async function oneVersion(newest: AnswerVersion, number: number, { records, who }: Visit): Promise<KeptOutcome> {
  const version = await records.answers.version(who.place, newest.topic, number);
  return version === null
    ? { kind: 'refused', refusal: noSuchVersion(newest.topic, number, newest.version) }
    : { kind: 'done', words: versionWords(version, newest), result: versionData(version) };
}

/** An older version becomes the newest; nothing in between is lost. */
export const restore: Action = {
  name: 'restore',
  summary: 'Bring an older version of a topic back',
  moderators: true,
  public: false,
  fields: [TOPIC, { ...VERSION_SEEN, label: 'Version', required: true, example: '1' }, WHY],
  run: async ({ topic = '', version = '', why = '' }, visit) => {
    const { records, who, nowMs } = visit;
    const found = await newestOf(topic, visit);
    if (found.kind === 'refused') return found;
    const newest = found.version;
    const number = Number(version);
    if (number === newest.version && newest.deed !== 'unpin')
      return { kind: 'refused', refusal: standsAlready(newest) };
    const old = await records.answers.version(who.place, newest.topic, number);
    if (old === null) return { kind: 'refused', refusal: noSuchVersion(newest.topic, number, newest.version) };
    const { approvals } = await records.settings.read(who.place);
    const written = await records.answers.write(
      who,
      {
        topic: newest.topic,
        deed: 'restore',
        restored: number,
        basedOn: newest.version,
        text: old.text,
        why,
        needsApproval: approvals,
      },
      nowMs,
    );
    return writtenOutcome('restore', newest.topic, written, newest.text);
  },
};

/** Takes a topic down, so that it can be brought back. */
export const unpin: Action = {
  name: 'unpin',
  summary: 'Take a standard answer down; its history stays, and it can be brought back',
  moderators: true,
  public: false,
  fields: [TOPIC_LAST, { ...WHY, example: 'why="no longer true"' }, VERSION_SEEN],
  run: async ({ topic = '', why = '', version }, visit) => {
    const found = await newestOf(topic, visit);
    if (found.kind === 'refused') return found;
    const newest = found.version;
    if (newest.deed === 'unpin') return { kind: 'refused', refusal: takenDown(newest) };
    const basedOn = version === undefined ? newest.version : Number(version);
    const down = await visit.records.answers.unpin(visit.who, { topic: newest.topic, basedOn, why }, visit.nowMs);
    switch (down.kind) {
      case 'kept':
        return {
          kind: 'done',
          words: keptWords(down.version, newest.text),
          result: { kind: 'kept', ...versionData(down.version) },
        };
      case 'missing':
        return { kind: 'refused', refusal: noSuchTopic(topic, []) };
      case 'conflict':
        return { kind: 'refused', refusal: changedMeanwhile(down.theirs) };
      case 'over':
        return { kind: 'refused', refusal: overRefusal(down) };
    }
  },
};
