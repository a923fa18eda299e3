import { CAGE_CAPACITIES } from '../tables/derailleurs.ts';

export type Cage = 'short' | 'medium' | 'long';

/**
 * Teeth of chain that a rear derailleur has to take up.
 *
 * capacity = (largest − smallest ring) + (largest − smallest sprocket)
 *
 * Valid for one ring or more, when only the cassette counts. Agrees with the printed examples exactly.
 *
 * @param rings teeth of the rings [1], one or more
 * @param smallestTeeth smallest sprocket [1]
 * @param largestTeeth largest sprocket [1]
 * @returns capacity needed [1], in teeth
 * @example capacityNeeded([22, 32, 42], 12, 34) // 42
 * @example capacityNeeded([32], 10, 52) // 42
 * @see CapacityPages, 22/32/42 with 12-34
 */
export function capacityNeeded(rings: readonly number[], smallestTeeth: number, largestTeeth: number): number {
  const front = rings.length > 1 ? Math.max(...rings) - Math.min(...rings) : 0;
  return front + largestTeeth - smallestTeeth;
}

/**
 * Capacity that a cage of given length typically has, over everything known of such cages.
 *
 * [least low, greatest high] of the table's rows
 *
 * Valid as a hint only: makers draw the line between short and long differently, and the printed figure decides. Spans
 * the printed table of the 8 to 10-speed era and the remembered ranges.
 *
 * @param cage short, medium or long [—]
 * @returns [—] `lowTeeth` and `highTeeth` [1]
 * @example cageCapacity('short') // {"lowTeeth":28,"highTeeth":32}
 * @see CapacityTable, short, medium and long
 */
export function cageCapacity(cage: Cage): { readonly lowTeeth: number; readonly highTeeth: number } {
  return CAGE_RANGES[cage];
}

const CAGE_RANGES = { short: rangeOf('short'), medium: rangeOf('medium'), long: rangeOf('long') };

function rangeOf(cage: Cage): { readonly lowTeeth: number; readonly highTeeth: number } {
  const rows = CAGE_CAPACITIES.filter((row) => row.cage === cage);
  return {
    lowTeeth: Math.min(...rows.map((row) => row.lowTeeth)),
    highTeeth: Math.max(...rows.map((row) => row.highTeeth)),
  };
}

/** Why a rear derailleur does not take a cassette. */
export type CassetteProblem =
  | { readonly kind: 'largest-over'; readonly largestTeeth: number; readonly maxTeeth: number }
  | { readonly kind: 'largest-under'; readonly largestTeeth: number; readonly minTeeth: number }
  | { readonly kind: 'capacity-over'; readonly needed: number; readonly capacityTeeth: number }
  | { readonly kind: 'cage-over'; readonly needed: number; readonly cage: Cage; readonly highTeeth: number };

/** Whether a rear derailleur takes a cassette on one ring; null where its figures are not known. */
export type DerailleurVerdict = {
  readonly needed: number;
  readonly capacityFits: boolean | null;
  readonly largestFits: boolean | null;
  readonly problems: readonly CassetteProblem[];
};

/**
 * Whether a rear derailleur takes a cassette behind a single ring.
 *
 * largest − smallest sprocket ≤ capacity, and least ≤ largest sprocket ≤ greatest, each a limit of its own
 *
 * Valid for one ring. A cage told by its word alone is judged only where its whole typical range agrees; otherwise the
 * verdict is null. Agrees with the printed 42 teeth for 10-52.
 *
 * @param input `smallestTeeth`, `largestTeeth` of the cassette [1]
 * @param limits `capacityTeeth`, `maxSprocketTeeth`, `minSprocketTeeth` [1] or null; `cage` or null [—]
 * @returns [—] `needed` [1]; `capacityFits` and `largestFits`, null when unknown; `problems` in teeth [1]
 * @example derailleurVerdict({ smallestTeeth: 11, largestTeeth: 46 }, { capacityTeeth: null, maxSprocketTeeth: 36, minSprocketTeeth: null, cage: 'short' }).problems.length // 2
 * @see CapacityPages, largest sprocket as a separate limit
 */
export function derailleurVerdict(
  input: { readonly smallestTeeth: number; readonly largestTeeth: number },
  limits: {
    readonly capacityTeeth: number | null;
    readonly maxSprocketTeeth: number | null;
    readonly minSprocketTeeth: number | null;
    readonly cage: Cage | null;
  },
): DerailleurVerdict {
  const { largestTeeth } = input;
  const { capacityTeeth, maxSprocketTeeth: maxTeeth, minSprocketTeeth: minTeeth, cage } = limits;
  const needed = capacityNeeded([], input.smallestTeeth, largestTeeth);
  const problems: CassetteProblem[] = [];

  const over = maxTeeth !== null && largestTeeth > maxTeeth;
  const under = minTeeth !== null && largestTeeth < minTeeth;
  if (over) problems.push({ kind: 'largest-over', largestTeeth, maxTeeth });
  if (under) problems.push({ kind: 'largest-under', largestTeeth, minTeeth });
  const largestFits = over || under ? false : maxTeeth === null ? null : true;

  let capacityFits: boolean | null = null;
  if (capacityTeeth !== null) {
    capacityFits = needed <= capacityTeeth;
    if (!capacityFits) problems.push({ kind: 'capacity-over', needed, capacityTeeth });
  } else if (cage !== null) {
    const { lowTeeth, highTeeth } = CAGE_RANGES[cage];
    if (needed <= lowTeeth) capacityFits = true;
    if (needed > highTeeth) {
      capacityFits = false;
      problems.push({ kind: 'cage-over', needed, cage, highTeeth });
    }
  }
  return { needed, capacityFits, largestFits, problems };
}
