import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Press, readPress, writePress } from '../../adapters/slack/press.ts';

const PRESSES: readonly Press[] = [
  { kind: 'see', view: 'chain', page: 3, command: 'convert', setup: '#7K3M9Q2A' },
  { kind: 'share', view: 'short', page: 0, command: 'answer', setup: 'show hills' },
  { kind: 'do', command: 'job', setup: 'tick 3 1 value= wrench=' },
  { kind: 'fix', command: 'convert', setup: '2x10 | 36/22 <&> "x"' },
  { kind: 'pick', what: 'ring', command: 'convert', setup: '#7K3M9Q2A' },
  { kind: 'tell', command: 'convert' },
  { kind: 'fill', command: 'job', action: 'tick', words: ['1', '2'] },
  { kind: 'fill', command: 'bike', action: 'save', words: [] },
  { kind: 'pin-text', channel: 'C1', message: '1.2' },
  { kind: 'pin-message', channel: 'C1', message: '1.2' },
  { kind: 'pin-topic', topic: 'chain-length' },
  { kind: 'post-page', command: 'job', setup: 'print 3 paper=letter' },
  { kind: 'reply', channel: 'C1', thread: '1.2' },
];

describe('a press', () => {
  it.each(PRESSES)('%j comes back as itself', (press) => {
    const text = writePress(press);
    expect(text).toMatch(/^[\w.!~*'()%|-]+$/);
    expect(readPress(text ?? '')).toEqual(press);
  });

  it('with any words comes back as itself', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme', minLength: 1, maxLength: 100 }), (setup) => {
        const press: Press = { kind: 'do', command: 'convert', setup: setup.toWellFormed() };
        expect(readPress(writePress(press) ?? '')).toEqual(press);
      }),
    );
  });

  it('that is too long to travel is none', () => {
    expect(writePress({ kind: 'do', command: 'convert', setup: 'x'.repeat(2001) })).toBeNull();
    expect(writePress({ kind: 'tell', command: 'convert' }, 10)).toBeNull();
  });

  it.each([
    '',
    'x',
    '0|tell|convert',
    '1',
    '1|see|nowhere|0|convert|x',
    '1|see|chain|-1|convert|x',
    '1|do',
    '1|post-page',
    '1|do|%',
    '1|fly|x',
  ])('%j of another program is none', (text) => {
    expect(readPress(text)).toBeNull();
  });

  it('survives any text', () => {
    fc.assert(fc.property(fc.string(), (text) => void readPress(`1|${text}`)));
  });
});
