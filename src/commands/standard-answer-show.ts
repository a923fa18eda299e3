import { standardAnswerWords, type Today } from '../card/standard-answer.ts';
import { foundWords, listWords } from '../card/standard-answer-list.ts';
import { noSuchTopic, takenDown } from '../card/standard-answer-refusal.ts';
import type { AnswerVersion } from '../records/answers.ts';
import type { Action, KeptOutcome, Visit } from './kept.ts';
import { solveToday } from './pinned-question.ts';
import { AFTER, TOPIC_LAST, versionData } from './standard-answer-fields.ts';

/** What fits one card and one row of buttons or two. */
const MOST_FOUND = 8;
const MOST_LISTED = 20;

/** A pinned topic, with its card solved today. */
export const show: Action = {
  name: 'show',
  summary: 'Show a standard answer; its card is solved anew each time',
  moderators: false,
  public: true,
  fields: [
    TOPIC_LAST,
    { name: 'with', label: 'What is different', form: 'word', required: false, example: 'with="ring=34"' },
  ],
  run: async ({ topic = '', with: told = '' }, visit) => {
    const found = await visit.records.answers.show(visit.who.place, topic);
    switch (found.kind) {
      case 'missing':
        return { kind: 'refused', refusal: noSuchTopic(topic, found.near) };
      case 'unpinned':
        return { kind: 'refused', refusal: takenDown(found.version) };
      case 'shown':
        return shown(found.version, told.trim(), visit);
    }
  },
};

async function shown(version: AnswerVersion, told: string, visit: Visit): Promise<KeptOutcome> {
  const pinned = version.text.question;
  if (pinned === null) return done(version, null, '');
  const today = solveToday(pinned, visit, await visit.records.settings.read(visit.who.place));
  if (told === '' || today.kind !== 'answered') return done(version, today, '');
  const varied = visit.solve({ command: pinned.command, setup: told, known: today.read });
  if (varied.kind !== 'answered') return { kind: 'refused', refusal: varied.refusal };
  return done(version, { ...today, card: varied.card, answer: varied.answer }, told);
}

function done(version: AnswerVersion, today: Today | null, told: string): KeptOutcome {
  const words = standardAnswerWords(version, today, told);
  return { kind: 'done', words, result: { ...versionData(version), today: todayData(today) } };
}

function todayData(today: Today | null) {
  if (today === null) return null;
  if (today.kind === 'unanswered') return { rules: today.rules, holds: false, refusal: today.refusal };
  const { rules, changes, answer } = today;
  return { rules, holds: changes.length === 0, changes, answer };
}

/** Topics by the words in them. */
export const find: Action = {
  name: 'find',
  summary: 'Find standard answers by words in topic, aliases or text',
  moderators: false,
  public: false,
  fields: [{ name: 'words', label: 'Words', form: 'text', required: true, example: 'chain length' }],
  run: async ({ words = '' }, visit) => {
    const { topics, near } = await visit.records.answers.find(visit.who.place, words, MOST_FOUND);
    return { kind: 'done', words: foundWords(words, topics, near, MOST_FOUND), result: { topics, near } };
  },
};

/** Every pinned topic, a page at a time. */
export const list: Action = {
  name: 'list',
  summary: 'Every standard answer of this place, by topic',
  moderators: false,
  public: false,
  fields: [AFTER],
  run: async ({ after = '' }, visit) => {
    const found = await visit.records.answers.list(visit.who.place, after, MOST_LISTED + 1);
    const page = found.slice(0, MOST_LISTED);
    const next = found.length > page.length ? (page.at(-1)?.topic ?? null) : null;
    return {
      kind: 'done',
      words: listWords(page, next),
      result: { topics: page.map(versionData), next },
    };
  },
};
