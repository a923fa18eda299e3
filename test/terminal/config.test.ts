import { expect, test } from 'vitest';
import { readConfig } from '../../adapters/terminal/config.ts';

const PIPE = { isTTY: false, columns: undefined };

function read(args: readonly string[], env = {}, screen: { isTTY: boolean; columns: number | undefined } = PIPE) {
  return readConfig({ args, env, screen });
}

test('words of the setup may come as one argument or as many', () => {
  expect(read(['convert', '2x10', '36/22'])).toMatchObject({ kind: 'run', words: ['convert', '2x10', '36/22'] });
  expect(read(['convert', '2x10 36/22'])).toMatchObject({ kind: 'run', words: ['convert', '2x10 36/22'] });
});

test('a pipe gets 80 columns without colour, a terminal its own', () => {
  expect(read(['x']).look).toEqual({ kind: 'screen', width: 80, colour: false });
  expect(read(['x'], {}, { isTTY: true, columns: 61 }).look).toEqual({ kind: 'screen', width: 61, colour: true });
  expect(read(['x'], {}, { isTTY: true, columns: 300 }).look).toMatchObject({ width: 120 });
  expect(read(['x'], {}, { isTTY: true, columns: 20 }).look).toMatchObject({ width: 32 });
});

test('colour is left out on request and on a terminal that has none', () => {
  const screen = { isTTY: true, columns: 80 };
  expect(read(['x'], { NO_COLOR: '1' }, screen).look).toMatchObject({ colour: false });
  expect(read(['x'], { TERM: 'dumb' }, screen).look).toMatchObject({ colour: false });
  expect(read(['x'], { NO_COLOR: '' }, screen).look).toMatchObject({ colour: true });
});

test('sentences are wrapped on a terminal and where a width is asked for, left whole in a pipe', () => {
  expect(read(['x', '--plain']).look).toEqual({ kind: 'spoken', width: null });
  expect(read(['x', '--plain', '--width', '40']).look).toEqual({ kind: 'spoken', width: 40 });
  expect(read(['x', '--plain'], {}, { isTTY: true, columns: 50 }).look).toEqual({ kind: 'spoken', width: 50 });
});

test('a width outside the limits is refused, not moved', () => {
  for (const width of ['31', '121', '1e2', '-40', 'wide', '', '40.5']) {
    expect(read(['x', `--width=${width}`]), width).toMatchObject({ kind: 'refused' });
  }
  expect(read(['x', '--width', '32'])).toMatchObject({ kind: 'run', look: { width: 32 } });
});

test('a bad flag is refused in the form that was asked for', () => {
  expect(read(['x', '--colour'])).toMatchObject({ kind: 'refused', output: 'text' });
  expect(read(['--json', '--colour'])).toMatchObject({ kind: 'refused', output: 'json' });
  expect(read(['--json', '--plain'])).toMatchObject({ kind: 'refused', output: 'json' });
  expect(read(['x', '--json=yes'])).toMatchObject({ refusal: { message: expect.stringContaining('does not take') } });
  expect(read(['x', '--ring=32'])).toMatchObject({ refusal: { message: expect.stringContaining('"--ring=32"') } });
});

test('a negative number is a word for the reader of setups, not a flag', () => {
  expect(read(['convert', '-32'])).toMatchObject({ kind: 'run', words: ['convert', '−32'] });
});

test('--help asks for help on what follows', () => {
  expect(read(['--help'])).toMatchObject({ words: ['help'] });
  expect(read(['chain', '-h'])).toMatchObject({ words: ['help', 'chain'] });
});
