import { spawnSync } from 'node:child_process';
import { chmodSync, existsSync, mkdtempSync, rmSync, statSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { folderFault, makeFolder } from '../../adapters/storage/folder.ts';
import { openRecords } from '../../adapters/storage/open.ts';

const NEVER = 'RINGWRIGHT_DATA names a folder that cannot be made where it is to lie; name another one';
const NO_FOLDER = 'RINGWRIGHT_DATA leads to something that is no folder';

const ADAPTERS = join(import.meta.dirname, '../../adapters');
const folder = mkdtempSync(join(tmpdir(), 'ringwright-folder-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Linux lets nobody make a folder here, and says that there is no such file. */
const NOWHERE = '/proc/ringwright/kept';
const HAS_PROC = existsSync('/proc/self');

/** Root may write everywhere. */
const IS_ROOT = process.getuid?.() === 0;

/** A program with its folder told; one that never ends is ended, and has no status then. */
function ran(program: string, args: readonly string[], data: string) {
  const { status, stdout, stderr } = spawnSync(process.execPath, [join(ADAPTERS, program), ...args], {
    encoding: 'utf8',
    env: { PATH: process.env.PATH, RINGWRIGHT_DATA: data },
    timeout: 20_000,
    killSignal: 'SIGKILL',
  });
  return { status, said: `${stdout}${stderr}` };
}

describe('the folder of the records', () => {
  it('is made with all it lies in, and may be there already', async () => {
    const deep = join(folder, 'one', 'two', 'three');
    expect(await folderFault(deep)).toBeNull();
    await makeFolder(deep);
    expect(statSync(deep).isDirectory()).toBe(true);
  });

  it('is refused by the doctor below a file, and where a link leads nowhere', async () => {
    writeFileSync(join(folder, 'file'), '');
    symlinkSync(join(folder, 'gone'), join(folder, 'link'));
    expect(await folderFault(join(folder, 'file'))).toBe(NO_FOLDER);
    expect(await folderFault(join(folder, 'file', 'below'))).toBe(NO_FOLDER);
    expect(await folderFault(join(folder, 'link'))).toBe(NO_FOLDER);
    expect(await folderFault(join(folder, 'link', 'below'))).toBe(NO_FOLDER);
  });

  it.skipIf(IS_ROOT)('is refused by the doctor where this user may not write (not as root, who may)', async () => {
    const locked = join(folder, 'locked');
    await makeFolder(locked);
    chmodSync(locked, 0o500);
    const fault = 'RINGWRIGHT_DATA names a folder that this user may not write';
    expect(await folderFault(locked)).toBe(fault);
    expect(await folderFault(join(locked, 'below'))).toBe(fault);
  });
});

it('of the records on a disk that is away is waited for', async () => {
  symlinkSync(join(folder, 'unplugged'), join(folder, 'disk'));
  const records = await openRecords({ path: join(folder, 'disk', 'kept', 'records.db') });
  expect(records.tables()).toBe('away');
  await makeFolder(join(folder, 'unplugged', 'kept'));
  await expect.poll(records.tables).toBe('right');
  await records.close();
});

describe.skipIf(!HAS_PROC)('a folder that can never be made (needs /proc)', () => {
  it('is said when the records are opened', async () => {
    await expect(openRecords({ path: join(NOWHERE, 'records.db') })).rejects.toMatchObject({
      name: 'ConfigError',
      code: 'records-folder',
      message: NEVER,
    });
  });

  it.each([
    ['start/main.ts', ['doctor']],
    ['storage/migrate.ts', ['--wait', '0']],
  ])('is said by %s, which ends and does not show it', (program, args) => {
    const { status, said } = ran(program, args, NOWHERE);
    expect(status).toBe(1);
    expect(said).toContain(NEVER);
    expect(said).not.toContain(NOWHERE);
  });

  it('takes no copy, and brings none back', () => {
    const save = ran('storage/backup.ts', ['save', join(NOWHERE, 'copy.db')], folder);
    expect(save).toEqual({ status: 1, said: `the folder of ${NOWHERE}/copy.db cannot be made\n` });
    writeFileSync(join(folder, 'copy.db'), '');
    const restore = ran('storage/backup.ts', ['restore', join(folder, 'copy.db')], NOWHERE);
    expect(restore).toEqual({ status: 1, said: `the folder of ${NOWHERE}/records.db cannot be made\n` });
  });
});
