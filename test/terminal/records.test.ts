import { chmodSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { runProgram } from '../support/program.ts';

const folder = mkdtempSync(join(tmpdir(), 'ringwright-kept-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const BIKE = '2x10 36/22 11-36 29er hardtail 104bcd stays=440mm';

function asked(...args: readonly string[]) {
  return runProgram(args, '', { RINGWRIGHT_DATA: folder });
}

describe('what is kept, from the terminal', () => {
  it('keeps a bike in one run and asks about it in the next', async () => {
    expect((await asked('bike', 'save', 'winter', BIKE)).code).toBe(0);
    const plan = await asked('convert', 'bike=winter', 'ring=34');
    expect(plan.code).toBe(0);
    expect(plan.stdout).toContain('34T');
    expect(plan.stdout).toContain('36/22');
  });

  it('keeps a bike for the person it belongs to', async () => {
    await asked('bike', 'save', 'winter', BIKE, '--as', 'anna');
    const other = await asked('bike', 'show', 'winter', '--as', 'ben');
    expect(other.code).toBe(2);
    expect(other.stdout).toContain('no bike called');
  });

  it('gives a receipt, and the very same card for it', async () => {
    const first = await asked('convert', BIKE, 'ring=32', '--width', '60');
    const code = /Receipt #([0-9A-Z]{8})/.exec(first.stdout)?.[1];
    expect(code).toBeDefined();
    const again = await asked('convert', `#${code}`, '--width', '60');
    const card = (text: string) => text.slice(0, text.search(/^(?:Receipt|Given before under) #/m));
    expect(card(again.stdout)).toBe(card(first.stdout));
    expect(again.stdout).toMatch(new RegExp(`Given before under #${code}`));
    expect((await asked('convert', `#${code}`, 'ring=34')).stdout).toMatch(/^34T/);
  });

  it('keeps nothing unasked for machines, so that the same question gives the same bytes', async () => {
    const [one, two] = [await asked('--json', 'convert', BIKE), await asked('--json', 'convert', BIKE)];
    expect(one.stdout).toBe(two.stdout);
    expect(one.stdout).not.toContain('"receipt"');
  });

  it('lets moderators pin and nobody else', async () => {
    const refused = await asked('answer', 'pin', 'big-big', 'Big ring, big sprocket, plus a pair.');
    expect(refused.code).toBe(2);
    expect(refused.stdout).toMatch(/moderators/);
    const pinned = await asked(
      'answer',
      'pin',
      'big-big',
      'Big ring, big sprocket, plus a pair.',
      '--role',
      'moderator',
    );
    expect(pinned.code).toBe(0);
    const shown = await asked('answer', 'show', 'big-big');
    expect(shown.stdout).toContain('plus a pair');
    expect(shown.stdout).toContain('answer history big-big');
  });

  it('takes kept things by machine too', async () => {
    const { stdout } = await asked('--json', 'bike', 'list');
    expect(JSON.parse(stdout)).toMatchObject({
      command: 'bike',
      action: 'list',
      result: { bikes: [{ name: 'winter' }] },
    });
  });

  it('answers about a bike when nothing can be kept', async () => {
    const locked = mkdtempSync(join(tmpdir(), 'ringwright-locked-'));
    chmodSync(locked, 0o500);
    const { code, stdout } = await runProgram(['convert', BIKE], '', { RINGWRIGHT_DATA: join(locked, 'no', 'such') });
    expect(code).toBe(0);
    expect(stdout).toContain('32T');
    expect(stdout).toMatch(/No receipt|Receipt #/);
    rmSync(locked, { recursive: true, force: true });
  });

  it('hears a bike behind the word bike, and an action behind it', async () => {
    expect((await asked('bike', BIKE)).stdout).toContain('32T');
    expect((await asked('bike', 'lst')).stdout).toContain('list');
  });

  it('says what a name may be', async () => {
    const { code, stdout } = await asked('bike', 'list', '--as', 'two words');
    expect(code).toBe(2);
    expect(stdout).toContain('--as');
  });
});
