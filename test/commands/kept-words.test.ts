import { describe, expect, it } from 'vitest';
import { KEPT_COMMANDS } from '../../src/commands/kept-list.ts';
import { asksOfKept, KEPT_NAMES } from '../../src/commands/kept-words.ts';

describe('words that speak of something kept', () => {
  it('are the commands of the list, no more and no fewer', () => {
    expect([...KEPT_NAMES].sort()).toEqual(KEPT_COMMANDS.map((command) => command.name).sort());
  });

  it.each([
    [{ command: 'bike', setup: 'list' }, true],
    [{ command: 'convert', setup: '36/22 bike=winter' }, true],
    [{ command: 'convert', setup: 'bike="my winter bike", ring=34' }, true],
    [{ command: 'convert', setup: '#7K3M9Q2A ring=34' }, true],
    [{ command: 'convert', setup: '', options: { bike: 'winter' } }, true],
    [{ command: 'convert', setup: '36/22 11-36 bikeweight=13kg' }, false],
    [{ command: 'convert', setup: 'my bike has 36/22' }, false],
  ])('%j: %s', (request, speaks) => {
    expect(asksOfKept(request)).toBe(speaks);
  });
});
