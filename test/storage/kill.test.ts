import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openRecords } from '../../adapters/storage/open.ts';
import type { Where } from '../../src/records/where.ts';
import { place, STORAGES, type Storage } from '../support/storages.ts';

/** Set RINGWRIGHT_KILLS to 200 or more for the long form. */
const KILLS = Number(process.env.RINGWRIGHT_KILLS ?? 20);

/** Long enough for a writer to be anywhere between its first write and some hundreds of them. */
const LONGEST_LIFE_MS = 60;

const WRITER = join(import.meta.dirname, '../support/writer.ts');

describe.each(['SQLite', 'PostgreSQL'] as const)('%s', (name) => {
  let storage: Storage;
  let where: Where;
  beforeAll(async () => {
    storage = await STORAGES[name]();
    where = await storage.fresh();
  });
  afterAll(() => storage.end());

  it(`has all that was acknowledged after ${KILLS} times kill -9`, { timeout: 30_000 + KILLS * 3000 }, async () => {
    const acknowledged: string[] = [];
    // Two at a time, so that a writer also dies while the other one writes.
    for (let n = 0; n < KILLS; n += 2) {
      const pair = await Promise.all([n, n + 1].map((which) => killedWriter(where, which)));
      acknowledged.push(...pair.flat());
    }
    const records = await openRecords(where);
    const at = place('club:1');
    const sequences = new Map<number, number>();
    let lost = 0;
    for (const line of acknowledged) {
      const [kind, first = '', second = ''] = line.split(' ');
      if (kind === 'r') {
        if ((await records.receipts.read(at, first)) === null) lost++;
      } else {
        sequences.set(Number(first), Math.max(sequences.get(Number(first)) ?? 0, Number(second)));
      }
    }
    for (const [job, sequence] of sequences) {
      const log = await records.jobs.log(at, job);
      if (log.length < sequence) lost++;
      // Nothing by halves: every event is there, in order, and the job can be read and written again.
      expect(log.map((event) => event.sequence)).toEqual(log.map((_, at) => at + 1));
      const view = await records.jobs.load(at, job);
      expect(view?.state.sequence).toBe(log.length);
    }
    await records.close();
    console.info(`${name}: ${KILLS} kills, ${acknowledged.length} acknowledged, ${lost} lost`);
    expect(sequences.size).toBe(KILLS);
    expect(acknowledged.length).toBeGreaterThan(KILLS * 2);
    expect(lost).toBe(0);
  });
});

/** Starts a writer, kills it at a random moment after its first acknowledgement, and gives what it acknowledged. */
async function killedWriter(where: Where, which: number): Promise<string[]> {
  const child = spawn(process.execPath, [WRITER, JSON.stringify(where), `${which}`], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  let said = '';
  child.stdout.setEncoding('utf8').on('data', (text: string) => {
    said += text;
  });
  const closed = once(child, 'close');
  await Promise.race([once(child.stdout, 'data'), closed]);
  await wait(Math.random() * LONGEST_LIFE_MS);
  child.kill('SIGKILL');
  await closed;
  // The last line may have been cut off; what was cut off was not acknowledged.
  return said.split('\n').slice(0, -1);
}
