import { describe, expect, it } from 'vitest';
import { KEYS } from '../../src/bike/keys.ts';
import { readSetup } from '../../src/bike/read-setup.ts';

describe('a key whose equals sign was left out', () => {
  it.each(Object.values(KEYS).map((key) => key.example))('reads the example %s all the same', (example) => {
    expect(readSetup(example.replace('=', ' '))).toEqual(readSetup(example));
  });

  it('leaves a value out of its range to a question, and guesses nothing', () => {
    expect(readSetup('36/22 11-36 bikeweight 200')).toMatchObject({
      kind: 'read',
      bike: { rings: [36, 22] },
      conflicts: [{ question: expect.stringContaining('What is 200?') }],
    });
  });
});
