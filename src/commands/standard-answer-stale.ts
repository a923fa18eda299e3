import { type Stale, staleWords } from '../card/standard-answer-stale.ts';
import { mayPin, type Settings } from '../records/settings.ts';
import type { Action, Visit } from './kept.ts';
import { solveToday } from './pinned-question.ts';
import { AFTER } from './standard-answer-fields.ts';

/** Read and solved in one go before others get their turn: each takes about a millisecond at most. */
const PAGE = 20;

/** Looked at in one call, so that the reply comes within a second; the rest is a further call. */
const MOST_LOOKED_AT = 500;

/** Stale topics on one card. */
const MOST_STALE = 10;

/** Every pinned answer that the rules of today no longer give. */
export const stale: Action = {
  name: 'stale',
  summary: 'Which pinned answers the rules of today no longer give, then and now',
  moderators: false,
  public: false,
  fields: [AFTER],
  run: async ({ after = '' }, visit) => {
    const settings = await visit.records.settings.read(visit.who.place);
    const { found, looked, next } = await walk(after, visit, settings);
    const accept = visit.runsPlace || mayPin(settings, visit.who.person, visit.roles);
    return {
      kind: 'done',
      words: staleWords(found, { looked, next, accept }),
      result: { looked, stale: found.map(staleData), next },
    };
  },
};

/** Solves one pinned question after the other; `next` is the last topic looked at, null when all were. */
async function walk(after: string, visit: Visit, settings: Settings) {
  const found: Stale[] = [];
  let looked = 0;
  let last = after;
  while (looked < MOST_LOOKED_AT) {
    const page = await visit.records.answers.questions(visit.who.place, last, PAGE);
    for (const version of page) {
      if (found.length === MOST_STALE) return { found, looked, next: last };
      looked += 1;
      last = version.topic;
      const pinned = version.text.question;
      if (pinned === null) continue;
      const today = solveToday(pinned, visit, settings);
      if (today.kind === 'unanswered' || today.changes.length > 0) found.push({ version, pinned, today });
    }
    if (page.length < PAGE) return { found, looked, next: null };
  }
  return { found, looked, next: last };
}

function staleData({ version, pinned, today }: Stale) {
  const then = { topic: version.topic, version: version.version, rulesThen: pinned.rules, rulesNow: today.rules };
  return today.kind === 'answered' ? { ...then, changes: today.changes } : { ...then, refusal: today.refusal };
}
