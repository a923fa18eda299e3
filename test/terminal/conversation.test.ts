import { spawn, spawnSync } from 'node:child_process';
import { PassThrough } from 'node:stream';
import { text } from 'node:stream/consumers';
import { stripVTControlCharacters } from 'node:util';
import { describe, expect, test } from 'vitest';
import { complete } from '../../adapters/terminal/completion.ts';
import { converse } from '../../adapters/terminal/conversation.ts';
import type { Ask } from '../../adapters/terminal/records.ts';
import { openSession } from '../../adapters/terminal/session.ts';
import { ask as solve } from '../../src/workbench.ts';
import { DATA, PROGRAM } from '../support/program.ts';

const LOOK = { kind: 'screen', width: 80, colour: false } as const;
const HILLS = '2x10 36/22 11-36 29er hardtail 104bcd';

const ask: Ask = async (request) => solve(request);

async function talk(...lines: readonly string[]): Promise<readonly string[]> {
  const hear = openSession(ask, LOOK);
  const told: string[] = [];
  for (const line of lines) told.push((await hear(line)).text);
  return told;
}

/** The read-back line with its wrapping undone. */
function readBack(told: string | undefined): string {
  return /^Read: [\s\S]*?(?=\n\n)/m.exec(told ?? '')?.[0].replaceAll('\n', ' ') ?? '';
}

describe('a conversation', () => {
  test('shows the short card with every caution and names the rest', async () => {
    const [short = ''] = await talk(HILLS);
    const reply = solve({ command: 'convert', setup: HILLS });
    expect(short.replaceAll('\n ', '')).toMatch(/^More: .*bolts.*, or all\.$/m);
    const bare = short.replaceAll(/\s/g, '');
    for (const block of reply.card.blocks) {
      if (block.kind === 'caution') expect(bare).toContain(block.text.replaceAll(/\s/g, ''));
    }
  });

  test('remembers the bike of the question before', async () => {
    const [, ring, about, bare, more] = await talk(HILLS, 'ring=34', 'what about 30?', '34', 'stays=440mm');
    for (const [told, teeth] of [
      [ring, 34],
      [about, 30],
      [bare, 34],
      [more, 34],
    ] as const) {
      expect(readBack(told)).toContain('36/22');
      expect(readBack(told)).toMatch(new RegExp(`\\b${teeth}\\b`));
    }
  });

  test('asks again with the command of the question before', async () => {
    const [first, second] = await talk(`gears ${HILLS}`, 'ring=34');
    expect(first?.split('\n')[0]).toBeTruthy();
    expect(second).toBe((await talk(`gears ${HILLS} ring=34`))[0]);
  });

  test('opens one section by its name and the whole card by all', async () => {
    const [, bolts = '', whole = ''] = await talk(HILLS, 'bolts', 'all');
    expect(bolts).toMatch(/^Bolts ─/);
    expect(bolts).not.toMatch(/^Gears ─/m);
    expect(whole).toMatch(/^Gears ─/m);
    expect(whole.length).toBeGreaterThan(bolts.length);
  });

  test('numbers the answers to a question back, and a number answers it', async () => {
    const [question = '', next = ''] = await talk('2x10 hardtail 42/32/24 11-36, 140 mm rear shock', '1');
    expect(question).toMatch(/^ {2}1\) /m);
    expect(question).toMatch(/^ {2}2\) /m);
    expect(next).not.toBe(question);
    expect(next).not.toContain('is not a command');
  });

  test('a line that cannot be used changes nothing', async () => {
    const [, refused, after] = await talk(HILLS, 'ring=NaN', 'ring=34');
    expect(refused).toContain('Allowed:');
    expect(after).toBe((await talk(HILLS, 'ring=34'))[1]);
  });

  test('forget empties the memory', async () => {
    const [, forgotten, all] = await talk(HILLS, 'forget', 'all');
    expect(forgotten).toContain('Forgotten');
    expect(all).toBe('There is no answer to show yet.\n');
  });

  test('leaves on quit and on the end of input, calmly', async () => {
    for (const lines of ['quit\n', '']) {
      const input = new PassThrough();
      const output = new PassThrough();
      input.end(lines);
      await converse({ input, output, look: LOOK, ask });
      output.end();
      expect(await text(output)).toContain('Goodbye');
    }
  });

  test('a fault of ours ends the answer, not the conversation', async () => {
    const input = new PassThrough();
    const output = new PassThrough();
    input.end('convert 36/22\nquit\n');
    const broken = () => {
      throw new Error('a hidden cause');
    };
    await converse({ input, output, look: LOOK, ask: broken });
    output.end();
    const told = await text(output);
    expect(told).toMatch(/Something went wrong on our side \(id [0-9a-f]{8}\)/);
    expect(told).not.toContain('hidden');
    expect(told).toContain('Goodbye');
  });
});

describe('completion', () => {
  test('completes commands at the start, keys anywhere and choices after a key', () => {
    expect(complete('conv')).toEqual([['convert'], 'conv']);
    expect(complete('convert terr')).toEqual([['terrain='], 'terr']);
    expect(complete('convert 36/22,terrain=')[0]).toEqual(['terrain=hills', 'terrain=rolling', 'terrain=flat']);
    expect(complete('clutch=y')).toEqual([['clutch=yes'], 'clutch=y']);
    expect(complete('rings=3')).toEqual([[], 'rings=3']);
    expect(complete('convert conv')[0]).toEqual([]);
  });
});

const withPty = spawnSync('script', ['--version'], { encoding: 'utf8' }).stdout?.includes('util-linux') ?? false;

type Step = { readonly after: string; readonly type: string };

/** Types at the program on a pseudo-terminal, each step once the screen ends in what it waits for; gives what was shown. */
function typeAt(steps: readonly Step[]): Promise<{ readonly shown: string; readonly code: number | null }> {
  return new Promise((resolve, reject) => {
    const command = `stty cols 60; exec '${process.execPath}' '${PROGRAM}'`;
    const env = { ...process.env, RINGWRIGHT_DATA: DATA, TERM: 'xterm', SHELL: '/bin/sh', NO_COLOR: '' };
    const child = spawn('script', ['-qefc', command, '/dev/null'], { env });
    let shown = '';
    let answered = 0;
    let done = 0;
    child.on('error', reject);
    child.stdout.setEncoding('utf8').on('data', (chunk: string) => {
      shown += chunk;
      const step = steps[done];
      if (step === undefined || !stripVTControlCharacters(shown.slice(answered)).endsWith(step.after)) return;
      done += 1;
      answered = shown.length;
      child.stdin.write(step.type);
    });
    child.on('close', (code) => resolve({ shown, code }));
  });
}

describe.skipIf(!withPty)('at a pseudo-terminal (needs script from util-linux)', () => {
  test('the program greets, answers in colour, completes and leaves', async () => {
    const { shown, code } = await typeAt([
      { after: '> ', type: `${HILLS}\r` },
      { after: '> ', type: 'ring=34\r' },
      { after: '> ', type: 'qui\t' },
      { after: 'quit', type: '\r' },
    ]);
    expect(code).toBe(0);
    expect(shown).toContain('\u001b[1m');
    const told = stripVTControlCharacters(shown);
    expect(told).toContain('Tell me about your bike');
    expect(told.match(/^Read: /gm)).toHaveLength(2);
    expect(told).toContain('Goodbye');
  });

  test.each([
    ['Ctrl-C', '\u0003'],
    ['Ctrl-D', '\u0004'],
  ])('%s leaves calmly', async (_, key) => {
    const { shown, code } = await typeAt([{ after: '> ', type: key }]);
    expect(code).toBe(0);
    expect(shown).toContain('Goodbye');
  });
});
