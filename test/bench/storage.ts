import { execFileSync } from 'node:child_process';
import { sql } from 'kysely';
import { engineAt, recordsIn, type Where } from '../../adapters/storage/open.ts';
import { openStore, type Store } from '../../adapters/storage/store.ts';
import type { Records } from '../../src/records/records.ts';
import { fillPlaces, nth, ROWS_A_PLACE } from '../support/many-records.ts';
import { person, postgres, type Storage, sqlite } from '../support/storages.ts';

/**
 * How much slower the records get between a thousand rows of each kind and a million: an answer shown by its topic and
 * found by words, a bike loaded, a tick written. Places are asked in turn, so that nothing is answered from memory alone.
 *
 *     node test/bench/storage.ts [rows, default 1000000] [sqlite|postgres]
 */
const MOST_ROWS = Number(process.argv[2] ?? 1_000_000);
const ONLY = process.argv[3];

/** Of how many calls the median is taken, and how many go before it. */
const CALLS = 2000;
const WARM_UP = 300;

/** What the second size may cost in terms of the first. */
const MOST_RATIO = 1.5;

type Deed = (records: Records, n: number, places: number) => Promise<unknown>;

const DEEDS: Readonly<Record<string, Deed>> = {
  'shown by topic': async ({ answers }, n, places) => {
    const shown = await answers.show(nth.place(n % places), nth.topic(n % ROWS_A_PLACE));
    if (shown.kind !== 'shown') throw new Error('the answer is there');
  },
  'found by words': async ({ answers }, n, places) => {
    const { topics } = await answers.find(nth.place(n % places), nth.word(n), 5);
    if (topics.length === 0) throw new Error('the word is there');
  },
  'bike loaded': async ({ bikes }, n, places) => {
    const who = { place: nth.place(n % places), person: person(nth.person(n % 50)) };
    if ((await bikes.load(who, nth.bike(n % 50))) === null) throw new Error('the bike is there');
  },
  'tick written': async ({ jobs }, n, places) => {
    const who = { place: nth.place(n % places), person: person(nth.person(n % 50)) };
    const tick = { kind: 'ticked', row: 1, setNm: 1.5, wrench: { id: 'W1', calibrationDueMs: null }, why: '' } as const;
    const clear = { kind: 'cleared', row: 1, why: 'bench' } as const;
    const job = nth.job(Math.floor(n / places / 2));
    const done = await jobs.act(who, job, Math.floor(n / places) % 2 === 0 ? tick : clear, n);
    if (done.kind !== 'recorded') throw new Error(`the tick is refused: ${JSON.stringify(done).slice(0, 200)}`);
  },
};

/** A thousand rows and a million, asked in turns, so that a busy moment of the machine meets both. */
async function medians(deed: Deed, sizes: readonly { readonly records: Records; readonly places: number }[]) {
  const tookUs = sizes.map((): number[] => []);
  for (let n = 0; n < WARM_UP + CALLS; n++) {
    for (const [at, { records, places }] of sizes.entries()) {
      const begun = performance.now();
      await deed(records, n, places);
      if (n >= WARM_UP) tookUs[at]?.push((performance.now() - begun) * 1000);
    }
  }
  return tookUs.map((times) => times.sort((a, b) => a - b)[times.length >> 1] ?? Number.NaN);
}

async function filled(where: Where, places: number): Promise<Store> {
  const store = openStore(await engineAt(where));
  const begun = performance.now();
  await fillPlaces(store, 0, places);
  await store.everywhere((db) => sql`analyze`.execute(db));
  // What every installation does once a day; nothing is old enough to go.
  await recordsIn(store).privacy.sweep(0);
  console.log(
    `  ${places * ROWS_A_PLACE} rows of each kind put in within ${((performance.now() - begun) / 1000).toFixed(0)} s`,
  );
  return store;
}

async function bench(name: string, start: () => Promise<Storage>): Promise<void> {
  console.log(name);
  const storage = await start();
  try {
    const places = Math.round(MOST_ROWS / ROWS_A_PLACE);
    const few = await filled(await storage.fresh(), 1);
    const many = await filled(await storage.fresh(), places);
    // What was put in is still on its way to the disk, and would be in the way of every write measured.
    execFileSync('sync');
    const sizes = [
      { records: recordsIn(few), places: 1 },
      { records: recordsIn(many), places },
    ];
    for (const [name, deed] of Object.entries(DEEDS)) {
      const [firstUs = Number.NaN, secondUs = Number.NaN] = await medians(deed, sizes);
      const ratio = secondUs / firstUs;
      const verdict = ratio <= MOST_RATIO ? '' : `  over ${MOST_RATIO}`;
      console.log(
        `  ${name.padEnd(16)} ${firstUs.toFixed(0).padStart(6)} µs  ${secondUs.toFixed(0).padStart(6)} µs  × ${ratio.toFixed(2)}${verdict}`,
      );
      if (ratio > MOST_RATIO) process.exitCode = 1;
    }
    await few.close();
    await many.close();
  } finally {
    await storage.end();
  }
}

if (ONLY !== 'postgres') await bench('SQLite', sqlite);
if (ONLY !== 'sqlite') await bench('PostgreSQL', postgres);
