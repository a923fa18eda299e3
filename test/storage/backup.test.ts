import { execFile } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { backUp, restore } from '../../adapters/storage/backup.ts';
import { openRecords } from '../../adapters/storage/open.ts';
import { newPlace, STORAGES, type Storage, sqlite } from '../support/storages.ts';
import { BIKE, fill, HOSTILE, JOB, RECEIPT, text, tick } from './examples.ts';

const run = promisify(execFile);
const BACKUP = join(import.meta.dirname, '../../adapters/storage/backup.ts');

describe.each(['SQLite', 'PostgreSQL'] as const)('a backup of %s', (name) => {
  let storage: Storage;
  let folder: string;
  beforeAll(async () => {
    storage = await STORAGES[name]();
    folder = mkdtempSync(join(tmpdir(), 'ringwright-backup-'));
  });
  afterAll(async () => {
    rmSync(folder, { recursive: true, force: true });
    await storage.end();
  });

  it('brings everything back: texts, searches, numbers and settings', async () => {
    const [from, to] = [await storage.fresh(), await storage.fresh()];
    const before = await openRecords(from);
    const { at, ann, bob } = newPlace();
    await fill(before, ann, bob);
    for (const [n, hostile] of HOSTILE.entries()) {
      await before.bikes.save(ann, { ...BIKE, name: `bike ${n}`, setup: hostile }, 1);
    }
    const file = join(folder, 'new', 'everything.copy');
    await backUp(from, file);
    await restore(file, to);
    const after = await openRecords(to);

    for (const who of [ann, bob]) expect(await after.privacy.show(who)).toEqual(await before.privacy.show(who));
    expect(await after.answers.find(at, 'hills', 5)).toEqual(await before.answers.find(at, 'hills', 5));
    expect((await after.answers.find(at, 'hills', 5)).topics).toHaveLength(1);
    expect(await after.settings.read(at)).toEqual(await before.settings.read(at));
    expect(await after.jobs.load(at, 1)).toEqual(await before.jobs.load(at, 1));
    expect(await after.jobs.open(ann, JOB, 40)).toMatchObject({ kind: 'opened', view: { job: 2 } });
    expect(await after.answers.write(ann, text('new', 'topic'), 40)).toMatchObject({ kind: 'kept' });
    await before.close();
    await after.close();
  });

  it('made while somebody writes is one moment: a prefix of what was written, and whole', async () => {
    const [from, to] = [await storage.fresh(), await storage.fresh()];
    const records = await openRecords(from);
    const { at, ann } = newPlace();
    await records.jobs.open(ann, JOB, 0);
    let writing = true;
    let written = 0;
    const writer = (async () => {
      for (let n = 1; writing; n++) {
        await records.bikes.save(ann, { ...BIKE, setup: `${n}` }, n);
        await records.jobs.act(ann, 1, { kind: 'noted', text: `${n}` }, n);
        written = n;
        // A turn for others: the engine in this process works without pause.
        await new Promise((resolve) => setImmediate(resolve));
      }
    })();
    while (written < 20) await new Promise((resolve) => setTimeout(resolve, 1));
    const earliest = written;
    const file = join(folder, 'while-writing.copy');
    await backUp(from, file);
    writing = false;
    await writer;
    expect(written).toBeGreaterThan(earliest);

    await restore(file, to);
    const restored = await openRecords(to);
    const notes = (await restored.jobs.load(at, 1))?.state.notes.map((note) => Number(note.text)) ?? [];
    expect(notes).toEqual(notes.map((_, at) => at + 1));
    expect(notes.length).toBeGreaterThanOrEqual(earliest);
    const bike = Number((await restored.bikes.load(ann, 'winter'))?.setup);
    // The bike of a round is saved just before its note.
    expect([notes.length, notes.length + 1]).toContain(bike);
    await records.close();
    await restored.close();
  });

  it('overwrites neither a copy nor records', async () => {
    const [from, to] = [await storage.fresh(), await storage.fresh()];
    const records = await openRecords(from);
    const other = await openRecords(to);
    await records.bikes.save(newPlace().ann, BIKE, 1);
    await other.bikes.save(newPlace().ann, BIKE, 1);
    const file = join(folder, 'twice.copy');
    await backUp(from, file);
    const bytes = readFileSync(file);
    await expect(backUp(from, file)).rejects.toMatchObject({ name: 'ConfigError', code: 'backup' });
    await expect(restore(file, to)).rejects.toMatchObject({ name: 'ConfigError', code: 'backup' });
    expect(readFileSync(file).equals(bytes)).toBe(true);
    await records.close();
    await other.close();
  });

  it('that is none is not restored', async () => {
    const file = join(folder, 'none.copy');
    writeFileSync(file, 'not a copy\n'.repeat(100));
    await expect(restore(file, await storage.fresh())).rejects.toMatchObject({ name: 'ConfigError', code: 'backup' });
  });
});

describe('the backup script', () => {
  it('saves and restores from the command line, and says how when asked wrongly', async () => {
    const storage = await sqlite();
    const [from, to] = [await storage.fresh(), await storage.fresh()];
    if (!('path' in from && 'path' in to)) throw new Error('files');
    const records = await openRecords(from);
    const { at, ann } = newPlace();
    await records.receipts.keep(ann, RECEIPT, 1);
    await records.jobs.open(ann, JOB, 1);
    await records.jobs.act(ann, 1, tick(1, 13), 1);
    const file = `${from.path}.copy`;
    const { stdout } = await run(process.execPath, [BACKUP, 'save', file, '--path', from.path]);
    expect(stdout).toBe(`saved to ${file}\n`);
    await run(process.execPath, [BACKUP, 'restore', file, '--path', to.path]);
    const restored = await openRecords(to);
    expect(await restored.receipts.read(at, RECEIPT.code)).toEqual(await records.receipts.read(at, RECEIPT.code));
    await expect(run(process.execPath, [BACKUP])).rejects.toMatchObject({
      code: 1,
      stderr: expect.stringContaining('save <new file>'),
    });
    expect(existsSync(`${file}.part`)).toBe(false);
    await records.close();
    await restored.close();
    await storage.end();
  });
});
