import { gearRatio } from './gears.ts';

export type LostGear = {
  readonly ringTeeth: number;
  readonly sprocketTeeth: number;
  readonly ratio: number;
  readonly end: 'low' | 'high';
};

/** Which sprockets of one old ring go: those of `fromTeeth` or more (too low), those of `toTeeth` or fewer (too high). */
export type LostSpan = {
  readonly ringTeeth: number;
  readonly fromTeeth: number | null;
  readonly toTeeth: number | null;
};

const SAME = 1e-9;

/**
 * Exactly the gears of today that the single ring would take away.
 *
 * lost when N / n < new lowest, or N / n > new highest
 *
 * Valid for a known list of sprockets; outside, with only the ends known, the end gears are listed and the spans still
 * say which sprockets of each ring go. Gears within 1e-9 of an end are kept. Agrees with plain division exactly.
 *
 * @param input `rings` [1], `sprockets` [1] smallest first or null, `smallestTeeth` and `largestTeeth` [1], `newLowestRatio` and `newHighestRatio` [1]
 * @returns `avoid`: lost gears with `ratio` [1], low end first; `spans`: sprocket counts [1] from and up to which they are lost
 * @example lostGears({ rings: [36, 22], sprockets: [11, 13, 15, 17, 19, 21, 24, 28, 32, 36], smallestTeeth: 11, largestTeeth: 36, newLowestRatio: 32 / 36, newHighestRatio: 32 / 11 }).avoid.map((gear) => gear.sprocketTeeth) // [36, 32, 28, 11]
 * @see geometry
 */
export function lostGears(input: {
  readonly rings: readonly number[];
  readonly sprockets: readonly number[] | null;
  readonly smallestTeeth: number;
  readonly largestTeeth: number;
  readonly newLowestRatio: number;
  readonly newHighestRatio: number;
}): { readonly avoid: readonly LostGear[]; readonly spans: readonly LostSpan[] } {
  const { newLowestRatio, newHighestRatio, smallestTeeth, largestTeeth } = input;
  const ends = smallestTeeth === largestTeeth ? [smallestTeeth] : [smallestTeeth, largestTeeth];
  const sprockets = input.sprockets ?? ends;
  const rings = [...input.rings].sort((a, b) => a - b);
  const low: LostGear[] = [];
  const high: LostGear[] = [];
  const spans: LostSpan[] = [];
  for (const ringTeeth of rings) {
    for (const sprocketTeeth of sprockets) {
      const ratio = gearRatio(ringTeeth, sprocketTeeth);
      if (ratio < newLowestRatio - SAME) low.push({ ringTeeth, sprocketTeeth, ratio, end: 'low' });
      else if (ratio > newHighestRatio + SAME) high.push({ ringTeeth, sprocketTeeth, ratio, end: 'high' });
    }
    const from = Math.max(smallestTeeth, Math.floor(ringTeeth / newLowestRatio + SAME) + 1);
    const to = Math.min(largestTeeth, Math.ceil(ringTeeth / newHighestRatio - SAME) - 1);
    if (from <= largestTeeth || to >= smallestTeeth) {
      spans.push({
        ringTeeth,
        fromTeeth: from <= largestTeeth ? from : null,
        toTeeth: to >= smallestTeeth ? to : null,
      });
    }
  }
  const byRatio = (a: LostGear, b: LostGear) => a.ratio - b.ratio;
  return { avoid: [...low.sort(byRatio), ...high.sort(byRatio).reverse()], spans };
}
