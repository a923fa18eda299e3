import { mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { runProgram } from '../support/program.ts';

const BIKE = '36/22 11-36 speeds=10 104bcd bolts=4 stays=440mm chain=108';

describe('pictures at the terminal', () => {
  let folder = '';
  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), 'pictures-'));
  });
  afterAll(() => rm(folder, { recursive: true }));

  it('are written into a folder that need not exist, in both themes, and named', async () => {
    const to = join(folder, 'new', 'folder');
    const { code, stdout, stderr } = await runProgram(['convert', BIKE, '--pictures', to]);
    expect(stderr).toBe('');
    expect(code).toBe(0);
    const files = (await readdir(to)).sort();
    expect(files).toEqual(['chain-dark.png', 'chain-light.png', 'gears-dark.png', 'gears-light.png']);
    for (const file of files) {
      expect(stdout).toContain(file);
      expect((await readFile(join(to, file))).subarray(1, 4).toString()).toBe('PNG');
    }
  });

  it('leave the machine-readable answer as it is', async () => {
    const to = join(folder, 'json');
    const { code, stdout } = await runProgram(['--json', 'measure', 'wear', '--pictures', to]);
    expect(code).toBe(0);
    expect(JSON.parse(stdout)).toHaveProperty('command', 'measure');
    expect(stdout.trim().split('\n')).toHaveLength(1);
    expect((await readdir(to)).sort()).toEqual(['wear-dark.png', 'wear-light.png']);
  });

  it('that cannot be written are a calm line after the answer', async () => {
    const file = join(folder, 'a-file');
    await writeFile(file, '');
    const { stdout, stderr } = await runProgram(['measure', 'wear', '--pictures', join(file, 'below')]);
    expect(stdout).toContain('could not be written');
    expect(stdout).not.toMatch(/^ +at /m);
    expect(stderr).toBe('');
  });

  it('are told where there are none', async () => {
    const { stdout } = await runProgram(['torque', 'cranktype=pinch', '--pictures', folder]);
    expect(stdout).toContain('There is no picture on this card.');
  });

  it('need a question on the same line', async () => {
    const { code, stdout } = await runProgram(['--pictures', folder]);
    expect(code).toBe(2);
    expect(stdout).toContain('--pictures needs a folder');
  });

  it('stand as their words for whoever hears the card', async () => {
    const { stdout } = await runProgram(['--plain', 'measure', 'bcd']);
    expect(stdout).toContain('Two rings from the side.');
  });
});
