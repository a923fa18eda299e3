import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { describe, expect, it } from 'vitest';
import { openRecords } from '../../adapters/storage/open.ts';
import { keepSwept } from '../../adapters/storage/sweeping.ts';
import type { Person, Place } from '../../src/records/place.ts';
import { receiptCode } from '../../src/records/receipts.ts';
import { StorageAway } from '../../src/records/storage-away.ts';

const DAY_MS = 86_400_000;
const who = { place: 'terminal' as Place, person: 'anna' as Person };

describe('the daily sweep', () => {
  it('takes away what was kept for longer than the place wants, again and again, until it is stopped', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'ringwright-sweep-'));
    const records = await openRecords({ path: join(folder, 'ringwright.db') });
    const receipt = (letter: number) => ({
      code: receiptCode(new Uint8Array([letter, 0, 0, 0, 0])) ?? '',
      command: 'convert',
      setup: '36/22 11-36',
      options: {},
      rules: '1',
      answer: '{}',
      card: '{}',
    });
    await records.settings.change(who, { receiptDays: 30 }, 0);
    await records.receipts.keep(who, receipt(1), 0);
    await records.receipts.keep(who, receipt(2), 20 * DAY_MS);

    let nowMs = 31 * DAY_MS;
    const counts: number[] = [];
    const stop = keepSwept(
      records.privacy,
      () => nowMs,
      {
        swept: ({ receipts }) => {
          counts.push(receipts);
          nowMs = 51 * DAY_MS;
        },
        fault: (error) => {
          throw error;
        },
      },
      { everyMs: 20, againMs: 3_600_000 },
    );
    while (counts.length < 2) await wait(5);
    stop();
    expect(counts.slice(0, 2)).toEqual([1, 1]);
    expect(await records.receipts.read(who.place, receipt(2).code)).toBeNull();
    await records.close();
    rmSync(folder, { recursive: true });
  });

  it('tells of storage that is away and tries again soon', async () => {
    let tries = 0;
    const faults: unknown[] = [];
    const away = {
      sweep: () => {
        tries += 1;
        return Promise.reject(new StorageAway('gone'));
      },
    };
    const told = { swept: () => undefined, fault: (error: unknown) => faults.push(error) };
    const stop = keepSwept(away, () => 0, told, { everyMs: 3_600_000, againMs: 5 });
    while (tries < 3) await wait(5);
    stop();
    expect(faults.length).toBeGreaterThanOrEqual(2);
    expect(faults[0]).toBeInstanceOf(StorageAway);
  });
});
