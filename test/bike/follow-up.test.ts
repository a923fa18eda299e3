import { describe, expect, it } from 'vitest';
import { followUp } from '../../src/bike/follow-up.ts';

describe('a line that follows a bike', () => {
  it.each([
    ['what about 34?', 'ring=34'],
    ['and 30T', 'ring=30'],
    ['34', 'ring=34'],
    ['how about a 36', 'ring=36'],
    ['or 28 teeth?', 'ring=28'],
    ['what if stays=440mm', 'stays=440mm'],
    ['terrain=hills', 'terrain=hills'],
    ['104bcd', '104bcd'],
  ])('%s: %s', (line, meant) => {
    expect(followUp(line)).toBe(meant);
  });
});
