import { describe, expect, it } from 'vitest';
import { KEYS } from '../../src/bike/keys.ts';
import { ask } from '../../src/workbench.ts';
import { cardText } from '../support/card-text.ts';
import { answered, refused } from '../support/replies.ts';

describe('numbers that are none', () => {
  it.each([
    'ring=NaN',
    'ring=1e309',
    'ring=-32',
    'ring=0x20',
    'ring=32.5',
    'ring=',
    'ring=Infinity',
    'ring=٣٢٫٥',
    'ring=1',
    'ring=999',
  ])('%s gets one calm refusal with field, range and example', (told) => {
    const reply = refused(`36/22 11-36 2x10 104bcd ${told}`);
    expect(reply.refusal.field).toBe('ring');
    expect(reply.refusal.allowed).toMatch(/18/);
    expect(reply.refusal.allowed).toMatch(/70/);
    expect(reply.refusal.example).toBe('ring=32');
    expect(JSON.stringify(reply)).not.toMatch(/\bInfinity\b|\binf\b|Error|at \//);
  });

  const measured = Object.entries(KEYS).filter(([, key]) => 'low' in key);

  it('are looked for in every key that takes a number', () => expect(measured.length).toBeGreaterThan(20));

  it.each(measured)(
    '%s= refuses them naming itself, its range with a reason, and an example that reads',
    (name, key) => {
      for (const value of ['NaN', '1e309', '-32', '0x20', '', 'Infinity', '9'.repeat(50)]) {
        const { refusal, card } = refused(`${name}=${value}`);
        expect(refusal.field, `${name}=${value}`).toBe(name);
        expect(refusal.allowed).toMatch(/\d to \d.*: \S/);
        expect(refusal.example).toBe(key.example);
        expect(cardText(card)).not.toMatch(/Infinity|\binf\b|undefined|\bat .*:\d/);
        expect(ask({ command: 'convert', setup: refusal.example }).kind).not.toBe('refused');
      }
    },
  );

  it.each(['', '   ', '\u0000\u0001', '\u202e', 'x'.repeat(10_000), '9'.repeat(10_000), '= = = ='])(
    'line %# is answered calmly',
    (line) => {
      const reply = ask({ command: 'convert', setup: line });
      expect(reply.kind).not.toBe('answered');
      expect(reply.card.answer.length).toBeLessThanOrEqual(120);
      expect(cardText(reply.card).length).toBeLessThan(4000);
    },
  );
});

describe('mentions and hidden characters among valid fields', () => {
  const bicycles = '\u{1f6b2}'.repeat(200);
  const hostile = `@everyone <!channel> <@&1> **x** [go](javascript:1) \`\`\` \u202e @\u200beveryone ${bicycles} דראג'ה`;

  it('still answers from the valid fields and echoes no hidden character', () => {
    const reply = answered(`36/22 11-36 2x10 104bcd ${hostile}`);
    expect(reply.read.rings).toEqual([36, 22]);
    // What was not understood is shown, cut: no word of more than 40 characters, no line of more than a screenful.
    expect(reply.unread.length).toBeGreaterThan(0);
    for (const word of reply.unread) expect([...word].length).toBeLessThanOrEqual(40);
    expect(reply.card.readBack.length).toBeLessThan(600);
    // biome-ignore lint/suspicious/noControlCharactersInRegex: these are the characters that must not come back
    expect(cardText(reply.card).replaceAll('\n', ' ')).not.toMatch(/[\u0000-\u001f\u200b\u202a-\u202e\u2066-\u2069]/);
  });
});
