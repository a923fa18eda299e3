import { wordsOf } from '../../adapters/storage/answer-rows.ts';
import { inPlace } from '../../adapters/storage/scope.ts';
import type { Store } from '../../adapters/storage/store.ts';
import type { Place } from '../../src/records/place.ts';
import { place } from './storages.ts';

/** Rows of each kind in one place: what a busy club or shop gathers in some years. */
export const ROWS_A_PLACE = 1000;

const PEOPLE = 50;
const EVENTS_A_JOB = 20;
const VOCABULARY = 2000;
const WORDS_A_BODY = 12;

/** The name of the n-th place, person, bike, topic, and word, for asking after what was put in. */
export const nth = {
  place: (n: number): Place => place(`club:${n}`),
  person: (n: number) => `person-${n}`,
  bike: (n: number) => `bike ${n}`,
  topic: (n: number) => `topic-${n}`,
  word: (n: number) => `word${(n * 7919) % VOCABULARY}`,
  job: (n: number) => 1 + (n % (ROWS_A_PLACE / EVENTS_A_JOB)),
};

/** Puts a thousand bikes, answers and events of jobs into each of so many places, past the port, which would take hours. */
export async function fillPlaces(store: Store, from: number, to: number): Promise<void> {
  await store.everywhere(async (db, engine) => {
    for (let each = from; each < to; each++) {
      await db.transaction().execute(async (work) => {
        const at = nth.place(each);
        const scope = inPlace(work, at);
        const numbers = Array.from({ length: ROWS_A_PLACE }, (_, n) => n);
        const key = (n: number) => `key-${each}-${n % PEOPLE}`;
        const body = (n: number) =>
          Array.from({ length: WORDS_A_BODY }, (_, w) => nth.word(n * WORDS_A_BODY + w)).join(' ');
        const text = (n: number) => ({ aliases: [], body: body(n), question: null });

        await scope
          .insertInto('people')
          .values(numbers.slice(0, PEOPLE).map((n) => ({ person: nth.person(n), key: key(n), seen_at: 0 })))
          .execute();
        const bike = { setup: 'rings=36/22', bike: { rings: [36, 22] } };
        await scope
          .insertInto('bikes')
          .values(
            numbers.map((n) => ({
              owner: key(n),
              name_key: nth.bike(n),
              shared: 0,
              saved_at: 0,
              content: JSON.stringify({ name: nth.bike(n), ...bike }),
            })),
          )
          .execute();
        const answers = await scope
          .insertInto('answers')
          .values(numbers.map((n) => ({ topic: nth.topic(n), version: 1, pinned: 1, asks: 0 })))
          .returning(['id', 'topic'])
          .execute();
        await scope
          .insertInto('answer_names')
          .values(numbers.map((n) => ({ name: nth.topic(n), topic: nth.topic(n) })))
          .execute();
        await scope
          .insertInto('answer_versions')
          .values(
            numbers.map((n) => ({
              topic: nth.topic(n),
              version: 1,
              deed: 'pin' as const,
              restored: null,
              author: key(n),
              approver: null,
              at: 0,
              content: JSON.stringify({ text: text(n), why: '' }),
            })),
          )
          .execute();
        for (const { id, topic } of answers) {
          const n = Number(topic.slice('topic-'.length));
          await engine.words.put(work, at, id, topic, wordsOf(topic, text(n)));
        }
        await scope
          .insertInto('jobs')
          .values(
            numbers.slice(0, ROWS_A_PLACE / EVENTS_A_JOB).map((n) => ({
              job: n + 1,
              closed: 0,
              sequence: EVENTS_A_JOB,
              opened_at: 0,
              closed_at: null,
              content: '{"title":"job"}',
            })),
          )
          .execute();
        const row = { row: 1, fastener: 'Bolt', material: '', lowNm: 1, highNm: 2, source: '', secondPerson: false };
        const opened = { kind: 'opened', title: 'job', setup: '', rows: [row] };
        await scope
          .insertInto('job_events')
          .values(
            numbers.map((n) => {
              const sequence = 1 + (n % EVENTS_A_JOB);
              return {
                job: 1 + Math.floor(n / EVENTS_A_JOB),
                sequence,
                by: key(n),
                at: 0,
                content: JSON.stringify(sequence === 1 ? opened : { kind: 'noted', text: 'note' }),
              };
            }),
          )
          .execute();
      });
    }
  });
}
