import { describe, expect, it } from 'vitest';
import { retention } from '../../src/solve/retention.ts';

describe('what keeps the chain on', () => {
  it.each([
    ['smooth', null, null, 0],
    ['mixed', null, null, 1],
    ['mixed', true, null, 0],
    ['rough', true, null, 1],
    ['rough', null, null, 2],
    ['rough', true, true, 0],
    ['rough', false, true, 1],
  ] as const)('on %s ground with clutch %s and guide %s lacks %i', (ground, clutch, guide, missing) => {
    expect(retention({ ground, clutch, guide })).toMatchObject({ missing, enough: missing === 0 });
  });

  it('counts what nobody mentioned as none and names it', () => {
    expect(retention({ ground: 'mixed', clutch: null, guide: false })).toMatchObject({
      fitted: ['narrow-wide ring'],
      unknown: ['clutch'],
    });
  });

  it('has no verdict without the ground, but says what each asks for', () => {
    expect(retention({ ground: null, clutch: true, guide: null })).toMatchObject({
      needed: { smooth: 1, mixed: 2, rough: 3 },
      missing: null,
      enough: null,
    });
  });
});
