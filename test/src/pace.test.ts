import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { openPaces, type PaceState, pace } from '../../src/pace.ts';

const THREE = { burst: 3, everyMs: 2000 };

describe('a pace', () => {
  it('lets a burst through and then says when the next question is free', () => {
    let state: PaceState = null;
    for (let count = 0; count < 3; count += 1) {
      const paced = pace(state, 1000, THREE);
      expect(paced.kind).toBe('go');
      state = paced.state;
    }
    expect(pace(state, 1000, THREE)).toMatchObject({ kind: 'wait', retryMs: 2000 });
    // Half a question came back in a second, the other half takes one more.
    expect(pace(state, 2000, THREE)).toMatchObject({ kind: 'wait', retryMs: 1000 });
    expect(pace(state, 3000, THREE).kind).toBe('go');
  });

  it('is kept by whoever waits as long as they were told, whatever the times', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 0, max: 10_000 }), { maxLength: 40 }),
        fc.record({ burst: fc.integer({ min: 1, max: 9 }), everyMs: fc.integer({ min: 1, max: 9000 }) }),
        (waits, rule) => {
          let nowMs = 0;
          let state: PaceState = null;
          let gone = 0;
          for (const waitMs of waits) {
            nowMs += waitMs;
            const paced = pace(state, nowMs, rule);
            state = paced.state;
            if (paced.kind === 'go') gone += 1;
            else expect(pace(state, nowMs + paced.retryMs, rule).kind).toBe('go');
          }
          // Never more than the burst and what came back since the beginning.
          expect(gone).toBeLessThanOrEqual(rule.burst + nowMs / rule.everyMs + 1e-6);
        },
      ),
    );
  });

  it('is not moved by a clock that is set back', () => {
    const { state } = pace(null, 10_000, { burst: 1, everyMs: 1000 });
    expect(pace(state, 5000, { burst: 1, everyMs: 1000 })).toMatchObject({ kind: 'wait', retryMs: 1000 });
  });
});

describe('paces of people and places', () => {
  const person = (key: string) => ({ key, pace: { burst: 2, everyMs: 1000 } });
  const place = { key: 'club', pace: { burst: 3, everyMs: 500 } };

  it('hold a question to both, and take nothing from either while it waits', () => {
    const ask = openPaces(10);
    expect(ask([person('ann'), place], 0)).toBe(0);
    expect(ask([person('ann'), place], 0)).toBe(0);
    expect(ask([person('ann'), place], 0)).toBe(1000);
    expect(ask([person('bob'), place], 0)).toBe(0);
    expect(ask([person('cem'), place], 0)).toBe(500);
    expect(ask([person('cem'), place], 500)).toBe(0);
  });

  it('remember only so many, and forget who was not heard of for longest', () => {
    const ask = openPaces(2);
    for (const key of ['ann', 'ann', 'bob', 'cem']) ask([person(key)], 0);
    expect(ask([person('cem')], 0)).toBe(0);
    expect(ask([person('cem')], 0)).toBe(1000);
    expect(ask([person('ann')], 0)).toBe(0);
  });

  it('make no difference by forgetting buckets that are full again', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.constantFrom('ann', 'bob', 'cem'), fc.nat(1500)), { maxLength: 60 }),
        (asked) => {
          const ask = openPaces(1000);
          const states = new Map<string, PaceState>();
          let nowMs = 0;
          for (const [key, waitMs] of asked) {
            nowMs += waitMs;
            const { pace: rule } = person(key);
            const expected = pace(states.get(key) ?? null, nowMs, rule);
            if (expected.kind === 'go') states.set(key, expected.state);
            expect(ask([person(key)], nowMs)).toBe(expected.kind === 'go' ? 0 : expected.retryMs);
          }
        },
      ),
    );
  });
});
