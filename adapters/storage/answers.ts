import { sql } from 'kysely';
import type { Answers, AnswerVersion } from '../../src/records/answers.ts';
import { overLimit } from '../../src/records/limits.ts';
import { letterPairs, nearMisses, searchWords, topicOf } from '../../src/records/names.ts';
import type { Place } from '../../src/records/place.ts';
import { draftsOf, held, newest, newestOf, newestRows, topicBehind, versionsOf } from './answer-rows.ts';
import { approve, unpin, write } from './answer-writes.ts';
import { keyOf } from './people.ts';
import type { InPlace, PlaceStore } from './store.ts';

/** Suggestions on a card: more would not be read. */
const NEAR_SHOWN = 5;

/** Candidates the letter pairs bring up, of which the nearest are shown. */
const NEAR_LOOKED_AT = 40;

/** A question of more words than this is a pasted text; the first ones find what it is about. */
const WORDS_LOOKED_FOR = 12;

/** Past the last version there can be: what "from the newest" means to the engines. */
const NEWEST = Number.MAX_SAFE_INTEGER;

export function answersIn(store: PlaceStore): Answers {
  const pinned = (place: Place, after: string, most: number, asking: boolean): Promise<readonly AnswerVersion[]> =>
    store.read(place, async ({ scope }) => {
      const query = newestRows(scope)
        .where('answers.pinned', '=', 1)
        .where('answers.topic', '>', after)
        .orderBy('answers.topic')
        .limit(most);
      return versionsOf(scope, await (asking ? query.where('answers.asks', '=', 1) : query).execute());
    });

  return {
    show: (place, name) =>
      store.read(place, async (at) => {
        const topic = await topicBehind(at.scope, name);
        const version = topic === null ? null : await newest(at.scope, topic);
        if (version === null) return { kind: 'missing', near: await nearTo(at, name) };
        return { kind: version.deed === 'unpin' ? 'unpinned' : 'shown', version };
      }),

    find: (place, words, most) =>
      store.read(place, async (at) => {
        const wanted = [...new Set(searchWords(words))].slice(0, WORDS_LOOKED_FOR);
        const topics = wanted.length === 0 ? [] : await at.words.withAll(wanted, most);
        const found = (await newestOf(at.scope, topics)).map(({ topic, text }) => ({
          topic,
          body: text.body,
          command: text.question?.command ?? null,
        }));
        return { topics: found, near: found.length === 0 ? await nearTo(at, words) : [] };
      }),

    list: (place, after, most) => pinned(place, after, most, false),
    questions: (place, after, most) => pinned(place, after, most, true),

    write: (who, text, atMs) => write(store, who, text, atMs),
    unpin: (who, which, atMs) => unpin(store, who, which, atMs),
    approve: (who, topic, draft, atMs) => approve(store, who, topic, draft, atMs),

    history: (place, name, before, most) =>
      store.read(place, async ({ scope }) => {
        const topic = await topicBehind(scope, name);
        if (topic === null) return [];
        const rows = await scope
          .selectFrom('answer_versions')
          .selectAll()
          .where('topic', '=', topic)
          .where('version', '<', Math.min(before, NEWEST))
          .orderBy('version', 'desc')
          .limit(most)
          .execute();
        return versionsOf(scope, rows);
      }),

    version: (place, name, version) =>
      store.read(place, async ({ scope }) => {
        const topic = await topicBehind(scope, name);
        if (topic === null) return null;
        const row = await scope
          .selectFrom('answer_versions')
          .selectAll()
          .where('topic', '=', topic)
          .where('version', '=', version)
          .executeTakeFirst();
        return row === undefined ? null : ((await versionsOf(scope, [row]))[0] ?? null);
      }),

    drafts: (place) =>
      store.read(place, async ({ scope }) =>
        draftsOf(
          scope,
          await scope
            .selectFrom('answer_drafts')
            .selectAll()
            .where('status', '=', sql.lit('open'))
            .orderBy('topic')
            .execute(),
        ),
      ),

    decline: async (who, name, number, why, atMs) => {
      const over = overLimit({ why: why.length });
      if (over !== null) return over;
      return store.change(who.place, async ({ scope }) => {
        const topic = topicOf(name);
        const row = topic === null ? undefined : await held(scope, topic);
        if (row === undefined || row.number !== number) return { kind: 'missing' };
        await scope
          .updateTable('answer_drafts')
          .set({
            status: 'declined',
            decider: await keyOf(scope, who, atMs),
            decided_at: atMs,
            decided_why: JSON.stringify(why),
          })
          .where('topic', '=', row.topic)
          .where('number', '=', row.number)
          .execute();
        const [draft] = await draftsOf(scope, [row]);
        return draft === undefined ? { kind: 'missing' } : { kind: 'declined', draft };
      });
    },
  };
}

/** Pinned names spelt nearly like what somebody wrote: their topics, the nearest first. */
async function nearTo(at: InPlace, wanted: string): Promise<readonly string[]> {
  const pairs = letterPairs(wanted);
  if (pairs.length === 0) return [];
  const candidates = await at.words.withPairs(pairs, NEAR_LOOKED_AT);
  if (candidates.length === 0) return [];
  const rows = await at.scope
    .selectFrom('answer_names')
    .select(['name', 'topic'])
    .where('topic', 'in', candidates)
    .execute();
  const topicOfName = new Map(rows.map((row) => [row.name, row.topic]));
  const near = nearMisses(wanted, [...topicOfName.keys()], rows.length);
  return [...new Set(near.map((name) => topicOfName.get(name) ?? name))].slice(0, NEAR_SHOWN);
}
