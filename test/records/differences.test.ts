import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { canonicalJson, resultChanges } from '../../src/records/result-difference.ts';
import { textDifference } from '../../src/records/text-difference.ts';

describe('the difference of two texts', () => {
  it('shows words that went before words that came', () => {
    expect(textDifference('Use a 30 ring.\nMeasure first.', 'Use a 32 ring.\nMeasure first!')).toEqual([
      { kind: 'same', text: 'Use a ' },
      { kind: 'removed', text: '30' },
      { kind: 'added', text: '32' },
      { kind: 'same', text: ' ring.\nMeasure first' },
      { kind: 'removed', text: '.' },
      { kind: 'added', text: '!' },
    ]);
  });

  it('finds a line put in between', () => {
    expect(textDifference('one\nthree', 'one\ntwo\nthree')).toEqual([
      { kind: 'same', text: 'one\n' },
      { kind: 'added', text: 'two\n' },
      { kind: 'same', text: 'three' },
    ]);
  });

  it('gives both texts back, whatever they hold', () => {
    const word = fc.constantFrom('ring', 'bolt', ' ', '\n', '32', '.', '\u2028', '\ud800', '🚲', 'é');
    const text = fc.array(word, { maxLength: 60 }).map((words) => words.join(''));
    fc.assert(
      fc.property(fc.oneof(text, fc.string({ unit: 'binary' })), text, (old, now) => {
        const difference = textDifference(old, now);
        const without = (kind: string) =>
          difference
            .filter((stretch) => stretch.kind !== kind)
            .map((stretch) => stretch.text)
            .join('');
        expect(without('added')).toBe(old);
        expect(without('removed')).toBe(now);
      }),
    );
  });

  it('of equal texts is one stretch', () => {
    expect(textDifference('same text', 'same text')).toEqual([{ kind: 'same', text: 'same text' }]);
    expect(textDifference('', '')).toEqual([]);
  });
});

describe('a pinned result', () => {
  it('has the same bytes for the same value', () => {
    expect(canonicalJson({ b: [1, { d: 1, c: 2 }], a: null })).toBe('{"a":null,"b":[1,{"c":2,"d":1}]}');
    fc.assert(
      fc.property(fc.jsonValue(), (value) => {
        expect(canonicalJson(JSON.parse(canonicalJson(value)))).toBe(canonicalJson(value));
      }),
    );
  });

  it('is stale where a value changed, came or went', () => {
    const pinned = canonicalJson({ chain: { targetPitches: 106, removePitches: 2 }, rings: [{ teeth: 30 }] });
    const now = canonicalJson({ chain: { targetPitches: 108, growthMm: null }, rings: [{ teeth: 30 }, { teeth: 32 }] });
    expect(resultChanges(pinned, now)).toEqual([
      { path: 'chain.growthMm', was: undefined, is: null },
      { path: 'chain.removePitches', was: 2, is: undefined },
      { path: 'chain.targetPitches', was: 106, is: 108 },
      { path: 'rings[1]', was: undefined, is: { teeth: 32 } },
    ]);
  });

  it('is not stale for the last bits of a number', () => {
    expect(resultChanges('{"cost":0.3}', `{"cost":${0.1 + 0.2}}`)).toEqual([]);
    expect(resultChanges('{"cost":0.3}', '{"cost":0.30001}')).toHaveLength(1);
  });

  it('never changes against itself', () => {
    fc.assert(
      fc.property(fc.jsonValue(), fc.jsonValue(), (one, other) => {
        const [a, b] = [canonicalJson(one), canonicalJson(other)];
        expect(resultChanges(a, a)).toEqual([]);
        expect(resultChanges(a, b).map((change) => change.path)).toEqual(
          resultChanges(b, a).map((change) => change.path),
        );
      }),
    );
  });
});
