import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type OpenRecords, openRecords } from '../../adapters/storage/open.ts';
import { readSetup } from '../../src/bike/read-setup.ts';
import { type Suggested, suggest } from '../../src/suggest.ts';
import { newPlace, type Storage, sqlite } from '../support/storages.ts';

let storage: Storage;
let records: OpenRecords;
const { ann, bob } = newPlace();

beforeAll(async () => {
  storage = await sqlite();
  records = await openRecords(await storage.fresh());
  const bike = { speeds: 10 };
  await records.bikes.save(ann, { name: 'Winter', setup: '10 speed', bike, shared: false }, 1);
  await records.bikes.save(bob, { name: 'Club', setup: '10 speed', bike, shared: true }, 1);
  const text = { aliases: [], body: 'Count the pins.', question: null };
  for (const topic of ['chain-length', 'bolts']) {
    await records.answers.write(
      ann,
      { topic, deed: 'pin', restored: null, basedOn: 0, text, why: '', needsApproval: false },
      1,
    );
  }
  const rows = [{ fastener: 'Ring bolts', material: 'steel', lowNm: 12, highNm: 14, source: '' }];
  await records.jobs.open(ann, { title: 'Hardtail', setup: '', rows }, 1);
  const receipt = { command: 'convert', setup: '36/22', options: {}, rules: '', answer: '{}', card: '{}' };
  await records.receipts.keep(ann, { ...receipt, code: 'ABCDEF12' }, 1);
});
afterAll(async () => {
  await records.close();
  await storage.end();
});

const values = async (what: Suggested, typed: string, who = ann) =>
  (await suggest(what, typed, who, records)).map(({ value }) => value);

describe('suggestions', () => {
  it('name what the asker keeps, and what others share', async () => {
    expect(await values('bikes', '')).toEqual(['Winter', 'Club']);
    expect(await values('bikes', 'WIN')).toEqual(['Winter']);
    expect(await values('bikes', '', bob)).toEqual(['Club']);
    expect(await values('receipts', '')).toEqual(['#ABCDEF12']);
    expect(await values('receipts', '', bob)).toEqual([]);
    expect(await values('jobs', 'hard')).toEqual(['1']);
  });

  it('find topics by their text and by a slip of the keyboard', async () => {
    expect(await values('topics', '')).toEqual(['bolts', 'chain-length']);
    expect(await values('topics', 'pins')).toEqual(['bolts', 'chain-length']);
    expect(await values('topics', 'chian-length')).toEqual(['chain-length']);
  });

  it.each(['cassettes', 'circles', 'wheels'] as const)(
    'of %s are at most 25, and each is read as it stands',
    async (what) => {
      const key = { cassettes: 'cassette', circles: 'bcd', wheels: 'wheel' }[what];
      const all = await values(what, '');
      expect(all.length).toBeGreaterThan(15);
      expect(all.length).toBeLessThanOrEqual(25);
      for (const value of all)
        expect(readSetup(`${key}=${value}`)).toMatchObject({ kind: 'read', conflicts: [], unread: [] });
    },
  );

  it('narrow down word by word', async () => {
    expect(await values('cassettes', '11-36 10-speed')).toEqual(['11-13-15-17-19-21-24-28-32-36']);
    expect(await values('circles', '104')).toEqual(['104']);
    expect(await values('wheels', '57-')).toEqual(['57-584']);
  });
});
