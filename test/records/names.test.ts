import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { editDistance, letterPairs, nameKey, nearMisses, searchWords, topicOf } from '../../src/records/names.ts';

describe('a name is the same name', () => {
  it('in any letter case, width and spacing', () => {
    const spellings = ['Winter bike', 'winter BIKE', '  winter \t bike ', 'Ｗinter bike', 'win\u200bter bi\u202eke'];
    expect(new Set(spellings.map(nameKey))).toEqual(new Set(['winter bike']));
  });

  it('and none at all when nothing visible is left', () => {
    expect(nameKey(' \u200b\u202e\n')).toBe('');
  });

  it('however often it is folded', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), (name) => {
        const key = nameKey(name);
        expect(nameKey(key)).toBe(key);
      }),
    );
  });
});

describe('a topic', () => {
  it('is the words of what was written', () => {
    expect(topicOf('32 vs 30 on Club Hills!')).toBe('32-vs-30-on-club-hills');
    expect(topicOf('Ritzel für Übersetzung')).toBe('ritzel-fur-ubersetzung');
  });

  it('needs a letter or a digit', () => {
    expect(topicOf('@#!')).toBeNull();
  });

  it('folds to itself', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme' }), (text) => {
        const topic = topicOf(text);
        if (topic !== null) expect(topicOf(topic)).toBe(topic);
      }),
    );
  });
});

describe('words looked for', () => {
  it('lose case, accents and a plural s', () => {
    expect(searchWords('Kürzere Bolts, GLASS 32T')).toEqual(['kurzere', 'bolt', 'glass', '32t']);
  });

  it('hold no sign that a query language could read', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), (text) => {
        for (const word of searchWords(text)) expect(word).toMatch(/^[\p{L}\p{N}]{1,40}$/u);
      }),
    );
  });
});

describe('near misses', () => {
  const names = ['chain-length', 'chainline', 'bolt-length', 'torque', 'bcd'];

  it('puts the nearest name first', () => {
    expect(nearMisses('chian lenght', names, 3)[0]).toBe('chain-length');
    expect(nearMisses('torqe', names, 3)).toEqual(['torque']);
    expect(nearMisses('bdc', names, 3)).toEqual(['bcd']);
  });

  it('takes a beginning for the whole', () => {
    expect(nearMisses('chai', names, 3)).toEqual(['chainline', 'chain-length']);
  });

  it('suggests nothing for something else', () => {
    expect(nearMisses('saddle', names, 3)).toEqual([]);
  });

  it('shares a pair of letters with a name misspelt by one swap', () => {
    expect(letterPairs('bdc').filter((pair) => letterPairs('bcd').includes(pair))).toEqual(['b']);
  });

  it('counts letters put in, taken out, changed and swapped', () => {
    expect(editDistance('ring', 'rings')).toBe(1);
    expect(editDistance('ring', 'rng')).toBe(1);
    expect(editDistance('ring', 'rung')).toBe(1);
    expect(editDistance('ring', 'rnig')).toBe(1);
    // In Levenshtein's own example three letters change: k to s, e to i, and a g put in.
    expect(editDistance('kitten', 'sitting')).toBe(3);
  });

  it('is the same distance both ways, and none only for equal names', () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 12 }), fc.string({ maxLength: 12 }), (a, b) => {
        expect(editDistance(a, b)).toBe(editDistance(b, a));
        expect(editDistance(a, b) === 0).toBe(a === b);
      }),
    );
  });
});
