import { describe, expect, it } from 'vitest';
import { readExposition } from '../support/exposition.ts';

const HEAD = '# HELP asked_total Questions.\n# TYPE asked_total counter\n';
const BUCKETS = '# HELP took_seconds Time.\n# TYPE took_seconds histogram\n';

describe('the reader of counts', () => {
  it('reads a count with its labels, quotes and all', () => {
    const read = readExposition(
      `${HEAD}asked_total{command="gears",how="a \\"b\\""} 3\nasked_total{command="chain"} 1\n`,
    );
    expect(read.value('asked_total', { command: 'gears' })).toBe(3);
    expect(read.sum('asked_total')).toBe(4);
    expect(read.value('asked_total', { command: 'wear' })).toBe(0);
  });

  it.each([
    ['a line that is nothing', `${HEAD}asked_total 3 apples now\n`],
    ['a sample of no family', 'asked_total 3\n'],
    ['a sample said twice', `${HEAD}asked_total 3\nasked_total 3\n`],
    ['a label without quotes', `${HEAD}asked_total{command=gears} 3\n`],
    ['a value that is no number', `${HEAD}asked_total three\n`],
    ['a type that is none', '# HELP a b\n# TYPE a counters\n'],
    ['no end of the last line', `${HEAD}asked_total 3`],
    [
      'buckets that fall',
      `${BUCKETS}took_seconds_bucket{le="1"} 2\ntook_seconds_bucket{le="+Inf"} 1\ntook_seconds_count 1\n`,
    ],
    ['buckets without a last one', `${BUCKETS}took_seconds_bucket{le="1"} 2\ntook_seconds_count 2\n`],
  ])('refuses %s', (_, text) => {
    expect(() => readExposition(text)).toThrow();
  });
});
