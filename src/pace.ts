/** How fast somebody may ask: `burst` questions at once, and one more every `everyMs` after that. */
export type Pace = { readonly burst: number; readonly everyMs: number };

/** What is left of a burst, as it stood at a moment; null for somebody who has not asked yet. */
export type PaceState = { readonly left: number; readonly atMs: number } | null;

export type Paced =
  | { readonly kind: 'go'; readonly state: Exclude<PaceState, null> }
  /** `retryMs` is when the next question is free; asking earlier costs nothing. */
  | { readonly kind: 'wait'; readonly retryMs: number; readonly state: Exclude<PaceState, null> };

/** Takes one question out of the bucket, if there is one. A clock that is set back gives nothing and takes nothing. */
export function pace(state: PaceState, nowMs: number, { burst, everyMs }: Pace): Paced {
  const passedMs = state === null ? 0 : Math.max(0, nowMs - state.atMs);
  const left = state === null ? burst : Math.min(burst, state.left + passedMs / everyMs);
  if (left >= 1) return { kind: 'go', state: { left: left - 1, atMs: nowMs } };
  return { kind: 'wait', retryMs: Math.ceil((1 - left) * everyMs), state: { left, atMs: nowMs } };
}

/** Whose bucket it is, and its pace. */
export type PacedKey = { readonly key: string; readonly pace: Pace };

type Bucket = { readonly state: Exclude<PaceState, null>; readonly pace: Pace };

function isFull({ state, pace: { burst, everyMs } }: Bucket, nowMs: number): boolean {
  return state.left + (nowMs - state.atMs) / everyMs >= burst;
}

/**
 * Keeps the buckets of many people and places, the latest asked last and at most `most` of them: whoever was not heard of
 * for longest is forgotten first, and starts anew with a full one; so a bucket that is full again need not be kept. A
 * question must find one left in each of its buckets, and costs nothing when it must wait.
 */
export function openPaces(most: number): (keys: readonly PacedKey[], nowMs: number) => number {
  const states = new Map<string, Bucket>();
  return (keys, nowMs) => {
    const taken = keys.map((each) => pace(states.get(each.key)?.state ?? null, nowMs, each.pace));
    const retryMs = taken.reduce(
      (longest, each) => (each.kind === 'wait' ? Math.max(longest, each.retryMs) : longest),
      0,
    );
    if (retryMs > 0) return retryMs;
    for (const [index, { key, pace }] of keys.entries()) {
      const state = taken[index]?.state;
      if (state === undefined) continue;
      states.delete(key);
      states.set(key, { state, pace });
    }
    for (const [key, bucket] of states) {
      if (states.size <= most && !isFull(bucket, nowMs)) break;
      states.delete(key);
    }
    return 0;
  };
}
