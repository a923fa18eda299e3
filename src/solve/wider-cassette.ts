import { CASSETTE_RANGES, CASSETTES } from '../tables/cassettes.ts';
import type { BasisName } from '../tables/row.ts';
import { gearRatio } from './gears.ts';

export type WiderCassette = {
  readonly smallestTeeth: number;
  readonly largestTeeth: number;
  readonly speeds: number;
  readonly lowestRatio: number;
  readonly lowestChangePct: number;
  readonly capacityNeeded: number;
  /** Null where the rider has not told the derailleur's figures. */
  readonly derailleurTakesIt: boolean | null;
  readonly basis: BasisName;
};

type Range = {
  readonly smallestTeeth: number;
  readonly largestTeeth: number;
  readonly speeds: number;
  readonly basis: BasisName;
};

/** Whole lists first: where a range stands in both tables, the one with the better ground is kept. */
const RANGES: readonly Range[] = [...CASSETTES.map(endsOf), ...CASSETTE_RANGES]
  .filter((row, index, all) => all.findIndex((other) => sameRange(other, row)) === index)
  .sort((a, b) => a.largestTeeth - b.largestTeeth || a.smallestTeeth - b.smallestTeeth || a.speeds - b.speeds);

function endsOf(row: (typeof CASSETTES)[number]): Range {
  return {
    smallestTeeth: Math.min(...row.sprockets),
    largestTeeth: Math.max(...row.sprockets),
    speeds: row.speeds,
    basis: row.basis,
  };
}

function sameRange(a: Range, b: Range): boolean {
  return a.speeds === b.speeds && a.smallestTeeth === b.smallestTeeth && a.largestTeeth === b.largestTeeth;
}

/**
 * The cassettes that would bring back low gears with a single ring, narrowest first.
 *
 * lowest = N / largest sprocket; capacity needed = largest − smallest sprocket
 *
 * Valid for the listed ranges with a larger largest sprocket and a smallest one no larger than today's; outside, a range
 * that is not listed here may still be sold. With the count of sprockets unknown every listed count is given. Agrees
 * with the published answer that 53 teeth need 11–40 to keep the lowest gear of 53/39 with 11–28.
 *
 * @param input `ringTeeth` [1], `nowLowestRatio` [1], ends of the cassette `smallestTeeth` and `largestTeeth` [1], `speeds` [1] or null, the derailleur's `capacityTeeth`, `maxSprocketTeeth` and `minSprocketTeeth` [1] or null
 * @returns ranges [1] with `lowestRatio` [1], `lowestChangePct` [%], `capacityNeeded` [1] and whether the derailleur takes it, null where its figures are not told
 * @example widerCassettes({ ringTeeth: 53, nowLowestRatio: 39 / 28, smallestTeeth: 11, largestTeeth: 28, speeds: 11, capacityTeeth: null, maxSprocketTeeth: null, minSprocketTeeth: null }).find((wider) => wider.lowestChangePct <= 0).largestTeeth // 40
 * @see QA, 53/39 with 11–28
 */
export function widerCassettes(input: {
  readonly ringTeeth: number;
  readonly nowLowestRatio: number;
  readonly smallestTeeth: number;
  readonly largestTeeth: number;
  readonly speeds: number | null;
  readonly capacityTeeth: number | null;
  readonly maxSprocketTeeth: number | null;
  readonly minSprocketTeeth: number | null;
}): WiderCassette[] {
  const wider: WiderCassette[] = [];
  for (const range of RANGES) {
    if (input.speeds !== null && range.speeds !== input.speeds) continue;
    if (range.largestTeeth <= input.largestTeeth || range.smallestTeeth > input.smallestTeeth) continue;
    const lowestRatio = gearRatio(input.ringTeeth, range.largestTeeth);
    wider.push({
      smallestTeeth: range.smallestTeeth,
      largestTeeth: range.largestTeeth,
      speeds: range.speeds,
      lowestRatio,
      lowestChangePct: (lowestRatio / input.nowLowestRatio - 1) * 100,
      capacityNeeded: range.largestTeeth - range.smallestTeeth,
      derailleurTakesIt: taken(range, input),
      basis: range.basis,
    });
  }
  return wider;
}

function taken(
  range: Range,
  limits: {
    readonly capacityTeeth: number | null;
    readonly maxSprocketTeeth: number | null;
    readonly minSprocketTeeth: number | null;
  },
): boolean | null {
  const { capacityTeeth, maxSprocketTeeth, minSprocketTeeth } = limits;
  if (capacityTeeth !== null && range.largestTeeth - range.smallestTeeth > capacityTeeth) return false;
  if (maxSprocketTeeth !== null && range.largestTeeth > maxSprocketTeeth) return false;
  if (minSprocketTeeth !== null && range.largestTeeth < minSprocketTeeth) return false;
  return capacityTeeth === null || maxSprocketTeeth === null ? null : true;
}

/**
 * The smallest largest sprocket with which a ring keeps a lowest gear.
 *
 * n ≥ N / lowest ratio
 *
 * Valid for any ring and gear; outside what is made (about 52 teeth) the number says that no cassette does it. Agrees
 * with plain division exactly.
 *
 * @param ringTeeth teeth of the ring [1], 18 to 70
 * @param lowestRatio the lowest gear to keep [1]
 * @returns teeth of the largest sprocket [1]
 * @example largestSprocketToKeep(32, 22 / 36) // 53
 * @see geometry
 */
export function largestSprocketToKeep(ringTeeth: number, lowestRatio: number): number {
  return Math.ceil(ringTeeth / lowestRatio - 1e-9);
}
