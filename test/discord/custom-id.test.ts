import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { customId, type Press, readCustomId } from '../../adapters/discord/custom-id.ts';

const word = fc.string({ unit: fc.constantFrom('a', '-', '#', '7', 'ü'), minLength: 1, maxLength: 12 });
const setup = fc.string({ unit: fc.constantFrom('a', ' ', '|', '=', '"', '#', '3'), maxLength: 30 });
const view = fc.constantFrom('short' as const, 'why' as const, 'torque' as const, 'kept' as const);
const page = fc.integer({ min: 0, max: 999 });

const press: fc.Arbitrary<Press> = fc.oneof(
  fc.record({ kind: fc.constantFrom('see' as const, 'share' as const), view, page, command: word, setup }),
  fc.record({ kind: fc.constantFrom('do' as const, 'fix' as const), command: word, setup }),
  fc.record({
    kind: fc.constant('pick' as const),
    what: fc.constantFrom('ring' as const, 'tell' as const, 'view' as const),
    command: word,
    setup,
  }),
  fc.record({ kind: fc.constant('tell' as const), command: word }),
  fc.record({
    kind: fc.constant('fill' as const),
    command: word,
    action: word,
    words: fc.array(word, { maxLength: 3 }),
  }),
  fc.record({ kind: fc.constantFrom('pin-text' as const, 'pin-message' as const), message: word }),
  fc.record({ kind: fc.constant('pin-topic' as const), topic: setup }),
  fc.record({ kind: fc.constant('reply' as const), message: word, author: word }),
);

describe('an id', () => {
  it('reads back as the press it stands for', () => {
    fc.assert(
      fc.property(press, (each) => {
        const id = customId(each);
        if (id !== null) expect(readCustomId(id)).toEqual(each);
      }),
    );
  });

  it('that would be too long is none', () => {
    expect(customId({ kind: 'do', command: 'convert', setup: 'x'.repeat(86) })).toHaveLength(99);
    expect(customId({ kind: 'do', command: 'convert', setup: 'x'.repeat(88) })).toBeNull();
  });

  it('of another make or version is nothing', () => {
    fc.assert(fc.property(fc.string({ maxLength: 40 }), (text) => readCustomId(`0|${text}`) === null));
    for (const id of [
      '',
      '1',
      '1|',
      '1|see|nowhere|0|convert|#A',
      '1|see|short|x|convert|#A',
      '1|pick|else|convert|#A',
    ]) {
      expect(readCustomId(id)).toBeNull();
    }
  });
});
