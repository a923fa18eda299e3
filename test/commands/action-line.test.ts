import { describe, expect, it } from 'vitest';
import { readAction } from '../../src/commands/action-line.ts';
import type { Action, KeptCommand } from '../../src/commands/kept.ts';

const nothing: Action['run'] = async () => ({
  kind: 'done',
  words: { answer: '', lines: [], blocks: [] },
  result: null,
});
const strike: Action = {
  name: 'strike',
  summary: 'Strike a row out',
  moderators: false,
  public: false,
  fields: [
    { name: 'job', label: 'Job', form: 'whole', required: true, example: '1' },
    { name: 'row', label: 'Row', form: 'whole', required: true, example: '4' },
    { name: 'why', label: 'Reason', form: 'text', required: true, example: 'why="not on this bike"' },
  ],
  run: nothing,
};
const list: Action = {
  ...strike,
  name: 'list',
  fields: [{ name: 'closed', label: 'Closed', form: 'yes-no', required: false, example: 'closed=yes' }],
};
const command: KeptCommand = { name: 'job', summary: 'Jobs', actions: [strike, list] };

function filled(line: string, options = {}) {
  const reading = readAction(command, line, options);
  if (reading.kind === 'refused') throw new Error(reading.refusal.message);
  return reading.filled;
}

function refusal(line: string, options = {}) {
  const reading = readAction(command, line, options);
  if (reading.kind === 'read') throw new Error('was read');
  return reading.refusal;
}

describe('an action line', () => {
  it.each([
    'strike 1 4 not on this bike',
    'strike 1 4 why=not on this bike',
    'strike 1 4 why="not on this bike"',
    'strike 1 4 why=“not on this bike”',
    'STRIKE row=4 job=1 not on this bike',
    'strike why=not on this bike job=1 row=4',
    'strike   1\t4  not on this bike  ',
  ])('%s says the same', (line) => {
    expect(filled(line)).toEqual({ job: '1', row: '4', why: 'not on this bike' });
  });

  it('takes typed options instead of the line', () => {
    expect(filled('', { action: 'strike', job: '1', row: '4', why: 'not on this bike' })).toEqual({
      job: '1',
      row: '4',
      why: 'not on this bike',
    });
  });

  it.each([
    ['strik 1 4', 'action', 'strike'],
    ['', 'action', 'strike'],
    ['strike', 'job', 'job'],
    ['strike 1 4', 'why', 'why'],
    ['strike 1.5 4 x', 'job', 'whole number'],
    ['strike 1 -4 x', 'row', 'whole number'],
    ['list closed=maybe', 'closed', 'yes or no'],
    ['list closed=yes and more', 'setup', 'closed'],
    [`strike ${'9'.repeat(5000)} 4 x`, 'job', 'whole number'],
  ])('%s is refused by name, with what is allowed', (line, field, allowed) => {
    const told = refusal(line);
    expect(told.field).toBe(field);
    expect(told.allowed).toContain(allowed);
    expect(told.message.length).toBeLessThan(200);
    expect(told.example).toMatch(/^job /);
  });
});
