import { execFileSync } from 'node:child_process';
import { sql } from 'kysely';
import pg from 'pg';
import { engineAt, recordsIn } from '../../adapters/storage/open.ts';
import { openStore, type Store } from '../../adapters/storage/store.ts';
import type { Records } from '../../src/records/records.ts';
import type { Where } from '../../src/records/where.ts';
import { fillPlaces, nth, ROWS_A_PLACE } from '../support/many-records.ts';
import { person, postgres, type Storage, sqlite } from '../support/storages.ts';

/**
 * How much slower the records get between a thousand rows of each kind and a million: an answer shown by its topic and
 * found by words, a bike loaded, a tick written. Places are asked in turn. Everything is asked twice: the first time is
 * mostly the time to fetch pages nobody has looked at yet, which a thousand rows have none of; the second is judged.
 *
 *     node test/bench/storage.ts [rows, default 1000000] [sqlite|postgres]
 */
const MOST_ROWS = Number(process.argv[2] ?? 1_000_000);
const ONLY = process.argv[3];

/** Of how many calls the median is taken, and how many go before them so that the program itself is warm. */
const CALLS = 2000;
const WARM_UP = 300;

/** The server's manual advises a quarter of the machine's memory; this is that of a small machine. */
const SERVER_SETTINGS = ['shared_buffers=1GB'];

/** What the second size may cost in terms of the first. */
const MOST_RATIO = 1.5;

type Deed = {
  readonly writes: boolean;
  readonly run: (records: Records, n: number, places: number) => Promise<unknown>;
};

const DEEDS: Readonly<Record<string, Deed>> = {
  'shown by topic': {
    writes: false,
    run: async ({ answers }, n, places) => {
      const shown = await answers.show(nth.place(n % places), nth.topic(n % ROWS_A_PLACE));
      if (shown.kind !== 'shown') throw new Error('the answer is there');
    },
  },
  'found by words': {
    writes: false,
    run: async ({ answers }, n, places) => {
      const { topics } = await answers.find(nth.place(n % places), nth.word(n), 5);
      if (topics.length === 0) throw new Error('the word is there');
    },
  },
  'bike loaded': {
    writes: false,
    run: async ({ bikes }, n, places) => {
      const who = { place: nth.place(n % places), person: person(nth.person(n % 50)) };
      if ((await bikes.load(who, nth.bike(n % 50))) === null) throw new Error('the bike is there');
    },
  },
  'tick written': {
    writes: true,
    run: async ({ jobs }, n, places) => {
      const who = { place: nth.place(n % places), person: person(nth.person(n % 50)) };
      const wrench = { id: 'W1', calibrationDueMs: null };
      const tick = { kind: 'ticked', row: 1, setNm: 1.5, wrench, why: '' } as const;
      const clear = { kind: 'cleared', row: 1, why: 'bench' } as const;
      const round = Math.floor(n / places);
      const done = await jobs.act(who, nth.job(round >> 1), round % 2 === 0 ? tick : clear, n);
      if (done.kind !== 'recorded') throw new Error(`the tick is ${done.kind}`);
    },
  },
};

type Size = { readonly records: Records; readonly places: number };

/** The medians of both sizes, asked in turns, so that a busy moment of the machine meets both. */
async function medians({ run }: Deed, sizes: readonly Size[], from: number): Promise<number[]> {
  const tookUs = sizes.map((): number[] => []);
  for (let n = 0; n < WARM_UP + CALLS; n++) {
    for (const [at, { records, places }] of sizes.entries()) {
      const begun = performance.now();
      await run(records, from + n, places);
      if (n >= WARM_UP) tookUs[at]?.push((performance.now() - begun) * 1000);
    }
  }
  return tookUs.map((times) => times.sort((a, b) => a - b)[times.length >> 1] ?? Number.NaN);
}

function line(name: string, [firstUs = Number.NaN, secondUs = Number.NaN]: readonly number[]): string {
  const us = (value: number) => `${value.toFixed(0).padStart(6)} µs`;
  return `  ${name.padEnd(28)} ${us(firstUs)} ${us(secondUs)}  × ${(secondUs / firstUs).toFixed(2)}`;
}

/** What the engines' own upkeep does in time; by hand it takes longer than the records let a question take. */
async function analysed(where: Where, store: Store): Promise<void> {
  if ('path' in where) {
    await store.everywhere((db) => sql`analyze`.execute(db));
    return;
  }
  const client = new pg.Client(where.url);
  await client.connect();
  await client.query('vacuum analyze');
  await client.end();
}

async function filled(where: Where, places: number): Promise<Store> {
  const store = openStore(await engineAt(where));
  const begun = performance.now();
  await fillPlaces(store, 0, places);
  await analysed(where, store);
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
      console.log(line(`${name}, first time`, await medians(deed, sizes, 0)));
      // What was written once cannot be written again: a tick goes on with the next row, near the last one.
      const again = await medians(deed, sizes, deed.writes ? WARM_UP + CALLS : 0);
      const [firstUs = Number.NaN, secondUs = Number.NaN] = again;
      const passes = secondUs / firstUs <= MOST_RATIO;
      console.log(`${line(name, again)}${passes ? '' : `  over ${MOST_RATIO}`}`);
      if (!passes) process.exitCode = 1;
    }
    await few.close();
    await many.close();
  } finally {
    await storage.end();
  }
}

if (ONLY !== 'postgres') await bench('SQLite', sqlite);
if (ONLY !== 'sqlite') await bench('PostgreSQL', () => postgres(SERVER_SETTINGS));
