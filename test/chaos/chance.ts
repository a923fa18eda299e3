/** Chance that comes from a seed, so that a run that failed can be run again. */
export type Chance = {
  /** From 0 up to, but not, 1. */
  readonly next: () => number;
  /** A whole number from `low` to `high`, both included. */
  readonly between: (low: number, high: number) => number;
  readonly pick: <Each>(list: readonly Each[]) => Each;
  /** True as often as `share` says. */
  readonly happens: (share: number) => boolean;
  /** Chance of its own for one part of a run, so that parts do not take each other's numbers. */
  readonly apart: (name: string) => Chance;
};

/** A small generator of 32 bits (mulberry32, in the public domain): enough to choose by, and no more. */
export function openChance(seed: number): Chance {
  let state = seed >>> 0;
  const next = () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 0x1_0000_0000;
  };
  const between = (low: number, high: number) => low + Math.floor(next() * (high - low + 1));
  return {
    next,
    between,
    pick: (list) => {
      const picked = list[between(0, list.length - 1)];
      if (picked === undefined) throw new Error('nothing to choose from');
      return picked;
    },
    happens: (share) => next() < share,
    apart: (name) => openChance([...name].reduce((mixed, letter) => Math.imul(mixed, 31) + letter.charCodeAt(0), seed)),
  };
}
