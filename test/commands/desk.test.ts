import { describe, expect, it } from 'vitest';
import { openDesk } from '../../src/desk.ts';
import type { Records } from '../../src/records/records.ts';
import { DEFAULT_SETTINGS } from '../../src/records/settings.ts';
import { StorageAway } from '../../src/records/storage-away.ts';
import { person, place } from '../support/storages.ts';

/** Records that cannot be reached: whatever is asked of them fails as the real ones do. */
const away = new Proxy({} as Records, {
  get: () => new Proxy({}, { get: () => () => Promise.reject(new StorageAway('gone')) }),
});
const desk = openDesk({ records: away, nowMs: () => 0, randomBytes: (count) => new Uint8Array(count) });
const visitor = { who: { place: place('terminal'), person: person('anna') }, roles: [], runsPlace: false };
const ask = (command: string, setup: string) => desk.ask({ request: { command, setup }, visitor });

describe('with storage away', () => {
  it('questions about a bike are answered, and say that no receipt was kept', async () => {
    expect(await ask('convert', '36/22 11-36 104bcd')).toMatchObject({ kind: 'answered', receipt: null });
  });

  it.each([
    ['bike', 'list'],
    ['convert', 'bike=winter'],
    ['convert', '#7K3M9Q2A'],
    ['job', 'show 1'],
  ])('%s %s says so calmly, with what works meanwhile', async (command, setup) => {
    const reply = await ask(command, setup);
    expect(reply).toMatchObject({ kind: 'refused', refusal: { field: 'storage' } });
    expect(reply.card.answer).toMatch(/cannot be reached/);
  });

  it('that broke while it saved, it is not said that nothing was changed', async () => {
    const broken = new StorageAway('gone', { certain: false });
    const read = () => Promise.resolve(DEFAULT_SETTINGS);
    const save = () => Promise.reject(broken);
    const records = { settings: { read }, bikes: { save }, deliveries: away.deliveries } as unknown as Records;
    const breaking = openDesk({ records, nowMs: () => 0, randomBytes: (count) => new Uint8Array(count) });
    const request = { command: 'bike', setup: 'save winter 36/22 11-36' };
    const { card } = await breaking.ask({ request, visitor });
    expect(card.answer).toMatch(/look before you do it again/);
    expect(card.answer).not.toMatch(/nothing/i);
  });

  it('help still helps', async () => {
    expect((await ask('help', '')).kind).toBe('answered');
  });
});

describe('with storage that does not answer', () => {
  const silent = new Proxy({} as Records, { get: () => new Proxy({}, { get: () => () => new Promise(() => {}) }) });
  let waited = 0;
  const patient = openDesk({
    records: silent,
    nowMs: () => 0,
    randomBytes: (count) => new Uint8Array(count),
    timer: (ms, ring) => {
      waited += ms;
      queueMicrotask(ring);
      return () => undefined;
    },
  });

  it.each([
    ['convert', '36/22 11-36 104bcd'],
    ['help', ''],
  ])('%s %s is answered all the same, in less than the first answer may take', async (command, setup) => {
    waited = 0;
    const reply = await patient.ask({ request: { command, setup }, visitor });
    expect(reply.kind).toBe('answered');
    expect(waited).toBeLessThan(3000);
  });
});
