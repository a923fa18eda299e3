import { describe, expect, test } from 'vitest';
import { runProgram, runShell } from '../support/program.ts';

const HILLS = 'hill-country hardtail 29er 2x10, 36/22, 11-36, 104 BCD, clutch on, stays 440 mm';
const CONFLICT = '2x10 hardtail 42/32/24, 140 mm rear shock';

/** Nothing of the inner workings: no stack, no path, no exception's name. */
const INNARDS = /\bat .*:\d+:\d+|node:internal|\/adapters\/|\/src\/|TypeError|RangeError|ZodError|undefined|Infinity/;
const UNSAFE = /\p{Cc}|[\u202a-\u202e\u2066-\u2069\u200b-\u200f]/u;

describe('one question as arguments', () => {
  test('is answered with the whole card and exit code 0', async () => {
    const { code, stdout, stderr } = await runProgram(['convert', HILLS]);
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
    expect(stdout.split('\n')[0]).toMatch(/\b3[024]T?\b/);
    expect(stdout).toMatch(/^Read: /m);
    expect(stdout).toMatch(/^(STOP|Take care): /m);
    expect(stdout).not.toContain('\u001b');
  });

  test('needs no command, and the words may be many arguments', async () => {
    const whole = await runProgram(['convert', HILLS, '--json']);
    expect(await runProgram([...HILLS.split(' '), '--json'])).toEqual(whole);
    expect(await runProgram([HILLS, '--json'])).toEqual(whole);
  });

  test('gives one JSON object with the fields a machine needs', async () => {
    const { code, stdout } = await runProgram(['convert', HILLS, '--json']);
    expect(code).toBe(0);
    expect(stdout.trimEnd()).not.toContain('\n');
    const reply = JSON.parse(stdout);
    expect(reply).toMatchObject({ command: 'convert', read: { rings: [36, 22] }, asks: expect.any(Array) });
    expect(Object.keys(reply)).toEqual(expect.arrayContaining(['read', 'assumed', 'asks', 'answer', 'card']));
    expect(reply).not.toHaveProperty('refusal');
  });

  test('a contradiction is a question back with exit code 2', async () => {
    const text = await runProgram(['convert', CONFLICT]);
    expect(text.code).toBe(2);
    const json = await runProgram(['convert', CONFLICT, '--json']);
    expect(json.code).toBe(2);
    const reply = JSON.parse(json.stdout);
    expect(reply.refusal).toMatchObject({ field: expect.any(String), message: expect.any(String) });
    expect(reply.asks.length).toBeGreaterThan(0);
    expect(reply).not.toHaveProperty('answer');
    for (const asked of reply.asks) expect(bare(text.stdout)).toContain(bare(asked.question));
  });

  test('--plain has the same facts without anything for the eye', async () => {
    const { code, stdout } = await runProgram(['convert', HILLS, '--plain']);
    expect(code).toBe(0);
    expect(stdout.replaceAll('\n', '')).not.toMatch(/[─│\p{Cc}]|\[ \]| {2}/u);
  });

  test.each(['40', '100'])('--width %s is kept by every line', async (width) => {
    const { stdout } = await runProgram(['convert', HILLS, '--width', width]);
    expect(Math.max(...stdout.split('\n').map((line) => [...line].length))).toBeLessThanOrEqual(Number(width));
  });

  test('is told what is wrong with the set-up where its receipt could never be kept', async () => {
    const { code, stdout, stderr } = await runProgram(['convert', HILLS], '', { DATABASE_URL: 'gopher://club/kept' });
    expect({ code, stdout }).toEqual({ code: 1, stdout: '' });
    expect(stderr).toBe('DATABASE_URL must begin with postgres:// or postgresql://.\n');
  });

  test('--help and help say the same and how the terminal is used', async () => {
    const help = await runProgram(['help']);
    expect(help.code).toBe(0);
    expect(help.stdout).toContain('--json');
    expect(await runProgram(['--help'])).toEqual(help);
    expect((await runProgram(['help', 'chain'])).stdout).not.toContain('--json');
  });
});

describe('what cannot be answered', () => {
  test.each([
    [['weigth', '36/22'], 'weight'],
    [['frobnicate'], 'convert'],
    [['conv', '36/22'], 'convert'],
  ])('%j is not a command and names those that are', async (args, near) => {
    const { code, stdout, stderr } = await runProgram(args);
    expect({ code, stderr }).toEqual({ code: 2, stderr: '' });
    expect(stdout).toContain('is not a command here');
    expect(stdout).toContain(near);
  });

  test.each([
    [['convert', 'ring=NaN']],
    [['convert', 'ring=1e309']],
    [['convert', 'ring=-32']],
    [['convert', 'ring=0x20']],
    [['convert', 'ring=32.5']],
    [['convert', '--ring=32']],
    [['convert', '--width', 'wide']],
    [['--json', '--nonsense']],
    [['convert', 'ring=\u001b[31m\u202e32']],
    [['convert', 'ring=@everyone']],
  ])('%j is refused in calm words with exit code 2', async (args) => {
    const { code, stdout, stderr } = await runProgram(args);
    expect({ code, stderr }).toEqual({ code: 2, stderr: '' });
    expect(stdout).not.toMatch(INNARDS);
    expect(stdout.replaceAll('\n', '')).not.toMatch(UNSAFE);
  });

  test.each(['', ' ', 'x'.repeat(10_000), '\u202e'.repeat(200), '@everyone <!channel> **x** [go](javascript:1) ```'])(
    'an odd setup (%#) neither fails nor harms the screen',
    async (setup) => {
      const { code, stdout, stderr } = await runProgram(['convert', setup]);
      expect([0, 2]).toContain(code);
      expect(stderr).toBe('');
      expect(stdout.length).toBeLessThan(20_000);
      expect(stdout).not.toMatch(INNARDS);
      expect(stdout.replaceAll('\n', '').replaceAll(/[\u2068\u2069]/g, '')).not.toMatch(UNSAFE);
    },
  );
});

describe('requests on standard input', () => {
  test('are answered one object a line, in order, and a bad one does not stop the rest', async () => {
    const requests = [
      '{"command":"convert","setup":"2x10 36/22 11-36","options":{"ring":32}}',
      'convert 2x10 36/22 11-36 to 30',
      '{"command":"convert"',
      '',
      '{"command":"convert","setup":"36/22","surprise":1}',
      '{"command":"convert","options":{"__proto__":"x","ring":"NaN"}}',
      `x${'y'.repeat(70_000)}`,
      'gears 2x10 36/22 11-36 ring=34',
    ];
    const { code, stdout, stderr } = await runProgram(['--json'], requests.join('\n'));
    expect({ code, stderr }).toEqual({ code: 2, stderr: '' });
    const replies = stdout
      .trimEnd()
      .split('\n')
      .map((line) => JSON.parse(line));
    expect(replies.map((reply) => reply.read?.ringTeeth ?? reply.refusal?.field)).toEqual([
      32,
      30,
      'setup',
      'setup',
      expect.any(String),
      'setup',
      34,
    ]);
    expect(replies.map((reply) => 'answer' in reply)).toEqual([true, true, false, false, false, false, true]);
  });

  test('give exit code 0 when all were answered', async () => {
    const { code } = await runProgram(['--json'], '{"command":"convert","setup":"2x10 36/22 11-36"}\n');
    expect(code).toBe(0);
  });

  test('are answered as text without --json', async () => {
    const { code, stdout } = await runProgram([], 'gears 2x10 36/22 11-36\n\nhelp\n');
    expect(code).toBe(0);
    expect(stdout.match(/^Read: /gm)).toHaveLength(1);
  });

  test('that hold nothing are told how to ask', async () => {
    expect(await runProgram([], '\n\n')).toEqual(await runProgram(['help']));
    expect(await runProgram(['--json'], '')).toEqual({ code: 0, stdout: '', stderr: '' });
  });

  test('a hundred answers pass a slow reader unharmed', async () => {
    const line = 'convert 2x10 36/22 11-36\n';
    const { code, stdout } = await runShell(
      `i=0; while [ $i -lt 100 ]; do echo '${line.trim()}'; i=$((i+1)); done | "$NODE" "$PROGRAM" --json | (sleep 1; cat)`,
    );
    expect(code).toBe(0);
    expect(stdout.trimEnd().split('\n')).toHaveLength(100);
  });
});

test('whoever stops reading early ends the program calmly', async () => {
  const { stdout, stderr } = await runShell(
    `i=0; while [ $i -lt 300 ]; do echo 'convert 2x10 36/22 11-36'; i=$((i+1)); done | { "$NODE" "$PROGRAM" --json; echo "code $?" >&2; } | head -1`,
  );
  expect(JSON.parse(stdout)).toHaveProperty('answer');
  expect(stderr).toBe('code 0\n');
});

function bare(text: string): string {
  return text.replaceAll(/\s/g, '');
}
