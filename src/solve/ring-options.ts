import { type GearRange, gearRange } from './gears.ts';

export type Terrain = 'hills' | 'rolling' | 'flat';

/** Whether a ring can be fitted, and what speaks against it. */
export type RingFit = { readonly fit: 'fits' | 'check' | 'no'; readonly reasons: readonly string[] };

export type RingOption = GearRange & {
  readonly teeth: number;
  readonly fit: RingFit['fit'];
  readonly reasons: readonly string[];
  /** Per cent above (harder, +) or below the lowest gear of today. */
  readonly lowestChangePct: number;
  /** Per cent above (faster, +) or below the highest gear of today. */
  readonly highestChangePct: number;
  readonly cost: number;
  readonly recommended: boolean;
};

export type RingChoice = {
  /** Smallest first. */
  readonly options: readonly RingOption[];
  /** The least-cost ring that fits; null when none is sure to fit. */
  readonly recommended: number | null;
  /** Where none is sure to fit: the ring that may fit and shares the loss between both ends as the terrain weighs them. */
  readonly provisional: number | null;
  /** What would be recommended on each terrain. */
  readonly byTerrain: Readonly<Record<Terrain, number | null>>;
};

type Ends = { readonly smallestTeeth: number; readonly largestTeeth: number };

/** What a lost step of gear weighs at the low and at the high end. Our own judgement; it only ranks rings. */
export const TERRAIN_WEIGHTS = {
  hills: { low: 2, high: 1 },
  rolling: { low: 1, high: 1 },
  flat: { low: 1, high: 2 },
} as const satisfies Record<Terrain, { readonly low: number; readonly high: number }>;

const SMALLEST_TEETH = 20;
const LARGEST_TEETH = 60;
const EVEN_TEETH: readonly number[] = Array.from(
  { length: (LARGEST_TEETH - SMALLEST_TEETH) / 2 + 1 },
  (_, index) => SMALLEST_TEETH + 2 * index,
);
const TIE = 1e-9;

const ODD_REASONS: readonly string[] = [
  'odd counts cannot alternate; every second turn a wide tooth meets a narrow gap',
];

/**
 * What each single ring would do to the gears of today, and which of those that fit costs least.
 *
 * cost = wLow · max(0, ln(new lowest / lowest now)) + wHigh · max(0, ln(highest now / new highest))
 *
 * Valid for every even count from 20 to 60 and the wanted ring; outside, odd counts are refused, because wide and narrow
 * teeth must alternate. Equal costs are equal to the last bit, and the smaller ring is taken; the cost is zero exactly
 * when no gear is lost. Agrees with three answers riders got in public threads to the tooth.
 *
 * @param input `rings` [1], ends of the cassette `now` and of the one to come `after` [1], `wantedTeeth` [1] or null, `terrain` [—], `circumferenceMm` [mm] or null, `cadenceRpm` [rpm], `fitOf` [—] whether a ring fits
 * @returns options smallest first with ratios [1], speeds [km/h], developments [m], changes [%] and `cost` [1]; the `recommended` teeth [1] or null
 * @example ringOptions({ rings: [36, 26], now: { smallestTeeth: 11, largestTeeth: 36 }, after: { smallestTeeth: 10, largestTeeth: 42 }, wantedTeeth: null, terrain: 'rolling', circumferenceMm: null, cadenceRpm: 90, fitOf: () => ({ fit: 'fits', reasons: [] }) }).recommended // 32
 * @see QA, 26/36 with 11–36 to 10–42
 */
export function ringOptions(input: {
  readonly rings: readonly number[];
  readonly now: Ends;
  readonly after: Ends;
  readonly wantedTeeth: number | null;
  readonly terrain: Terrain;
  readonly circumferenceMm: number | null;
  readonly cadenceRpm: number;
  readonly fitOf: (teeth: number) => RingFit;
}): RingChoice {
  const { now, after, terrain, wantedTeeth } = input;
  const smallestRing = Math.min(...input.rings);
  const largestRing = Math.max(...input.rings);
  const nowLowest = smallestRing / now.largestTeeth;
  const nowHighest = largestRing / now.smallestTeeth;
  const candidates = candidateTeeth(wantedTeeth).map((teeth) => {
    const { fit, reasons } = teeth % 2 === 0 ? input.fitOf(teeth) : { fit: 'no' as const, reasons: ODD_REASONS };
    return { teeth, fit, reasons, ...lossesWith(teeth, input) };
  });
  const byTerrain = {
    hills: leastCost(candidates, 'hills'),
    rolling: leastCost(candidates, 'rolling'),
    flat: leastCost(candidates, 'flat'),
  };
  const recommended = byTerrain[terrain];
  const options = candidates.map(({ teeth, fit, reasons, lowLoss, highLoss }): RingOption => {
    const range = gearRange({
      largestRingTeeth: teeth,
      smallestRingTeeth: teeth,
      smallestSprocketTeeth: after.smallestTeeth,
      largestSprocketTeeth: after.largestTeeth,
      circumferenceMm: input.circumferenceMm,
      cadenceRpm: input.cadenceRpm,
    });
    return {
      teeth,
      fit,
      reasons,
      lowestRatio: range.lowestRatio,
      highestRatio: range.highestRatio,
      lowestChangePct: (range.lowestRatio / nowLowest - 1) * 100,
      highestChangePct: (range.highestRatio / nowHighest - 1) * 100,
      rangePct: range.rangePct,
      lowestSpeedKmh: range.lowestSpeedKmh,
      highestSpeedKmh: range.highestSpeedKmh,
      lowestDevelopmentM: range.lowestDevelopmentM,
      highestDevelopmentM: range.highestDevelopmentM,
      cost: costOf(lowLoss, highLoss, terrain),
      recommended: teeth === recommended,
    };
  });
  const provisional = recommended === null ? mostBalanced(candidates, terrain) : null;
  return { options, recommended, provisional, byTerrain };
}

/**
 * Every even count in the order of what it costs, for where only the cheapest that fits is asked for.
 *
 * cost as for all options; of rings that cost the same the smaller one first
 *
 * Valid for every even count from 20 to 60, whether it fits or not; an odd count is never recommended, and outside there
 * is no ring. Agrees with what is recommended among all options: the first of these that fits.
 *
 * @param input `rings` [1], ends of the cassette `now` and of the one to come `after` [1], `terrain` [—]
 * @returns teeth [1], the cheapest first
 * @example ringsByCost({ rings: [36, 26], now: { smallestTeeth: 11, largestTeeth: 36 }, after: { smallestTeeth: 10, largestTeeth: 42 }, terrain: 'rolling' })[0] // 32
 * @see QA, 26/36 with 11–36 to 10–42
 */
export function ringsByCost(
  input: Pick<Parameters<typeof ringOptions>[0], 'rings' | 'now' | 'after' | 'terrain'>,
): readonly number[] {
  return EVEN_TEETH.map((teeth) => {
    const { lowLoss, highLoss } = lossesWith(teeth, input);
    return { teeth, cost: costOf(lowLoss, highLoss, input.terrain) };
  })
    .sort((one, other) => one.cost - other.cost)
    .map(({ teeth }) => teeth);
}

/** How far an end of the gears moves, as a fraction of whole numbers; over 1 it is lost. */
type Loss = { readonly over: number; readonly under: number };

function lossesWith(
  teeth: number,
  { rings, now, after }: { readonly rings: readonly number[]; readonly now: Ends; readonly after: Ends },
): { readonly lowLoss: Loss; readonly highLoss: Loss } {
  return {
    lowLoss: { over: teeth * now.largestTeeth, under: Math.min(...rings) * after.largestTeeth },
    highLoss: { over: Math.max(...rings) * after.smallestTeeth, under: teeth * now.smallestTeeth },
  };
}

type Candidate = RingFit & { readonly teeth: number; readonly lowLoss: Loss; readonly highLoss: Loss };

function candidateTeeth(wantedTeeth: number | null): readonly number[] {
  if (wantedTeeth === null || EVEN_TEETH.includes(wantedTeeth)) return EVEN_TEETH;
  return [...EVEN_TEETH, wantedTeeth].sort((a, b) => a - b);
}

/**
 * The weighted sum of both logarithms as the logarithm of one fraction: its terms are whole numbers small enough to be
 * exact, so rings that cost the same come out the same, and no rounding decides between them.
 */
function costOf(low: Loss, high: Loss, terrain: Terrain): number {
  const weights = TERRAIN_WEIGHTS[terrain];
  let over = 1;
  let under = 1;
  if (low.over > low.under) {
    over *= low.over ** weights.low;
    under *= low.under ** weights.low;
  }
  if (high.over > high.under) {
    over *= high.over ** weights.high;
    under *= high.under ** weights.high;
  }
  return Math.log(over / under);
}

function leastCost(candidates: readonly Candidate[], terrain: Terrain): number | null {
  let teeth: number | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const candidate of candidates) {
    if (candidate.fit !== 'fits') continue;
    const cost = costOf(candidate.lowLoss, candidate.highLoss, terrain);
    if (cost < least) {
      least = cost;
      teeth = candidate.teeth;
    }
  }
  return teeth;
}

function mostBalanced(candidates: readonly Candidate[], terrain: Terrain): number | null {
  const weights = TERRAIN_WEIGHTS[terrain];
  let teeth: number | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const candidate of candidates) {
    if (candidate.fit === 'no') continue;
    const { lowLoss, highLoss } = candidate;
    const low = weights.low * Math.log(lowLoss.over / lowLoss.under);
    const tilt = Math.abs(low - weights.high * Math.log(highLoss.over / highLoss.under));
    if (tilt < least - TIE) {
      least = tilt;
      teeth = candidate.teeth;
    }
  }
  return teeth;
}

/**
 * The two to four rings worth showing side by side: the one in question, its neighbours, and the recommended one.
 *
 * shown = wanted, recommended, and the nearest usable rings around the wanted one, else around the recommended one
 *
 * Valid for options that rise in teeth; a ring that cannot fit is shown only if it was wanted, and outside, where no
 * ring is usable, the wanted one alone is left or nothing. Agrees with the rule of the answer: two to four in all
 * wherever two are usable.
 *
 * @param options every ring looked at, smallest first [—]
 * @param recommended recommended teeth, or the provisional ones [1], or null
 * @param wanted wanted teeth [1], or null
 * @returns the options to show, smallest first [—]
 * @example shownRings([30, 32, 34, 36].map((teeth) => ({ teeth, fit: 'fits' })), 32, null).map((option) => option.teeth) // [30, 32, 34]
 * @see common practice
 */
export function shownRings<Option extends { readonly teeth: number; readonly fit: RingFit['fit'] }>(
  options: readonly Option[],
  recommended: number | null,
  wanted: number | null,
): Option[] {
  const usable = options.filter((option) => option.fit !== 'no');
  const wantedOption = wanted === null ? undefined : options.find((option) => option.teeth === wanted);
  const anchor = wantedOption !== undefined && wantedOption.fit !== 'no' ? wantedOption.teeth : null;
  const chosen = new Set<number>();
  if (wantedOption !== undefined) chosen.add(wantedOption.teeth);
  if (recommended !== null) chosen.add(recommended);
  if (anchor === null && wantedOption !== undefined && wantedOption.teeth % 2 !== 0) {
    // The rider asked between two sizes: both are the answer.
    for (const option of usable) if (Math.abs(option.teeth - wantedOption.teeth) === 1) chosen.add(option.teeth);
  }
  const centre = anchor ?? recommended;
  if (centre !== null) {
    const nearest = [...usable].sort((a, b) => Math.abs(a.teeth - centre) - Math.abs(b.teeth - centre)).slice(0, 3);
    for (const option of nearest) if (chosen.size < 4) chosen.add(option.teeth);
  }
  return options.filter((option) => chosen.has(option.teeth));
}

/**
 * The smallest and the largest of the fitting rings that cost exactly as little as the recommended one.
 *
 * cost of N = cost of the recommended ring
 *
 * Valid for any options; where low and high gears weigh the same, what one ring saves below the next saves above, so
 * most rings between the old ones are alike. Null where nothing is recommended or nothing is like it.
 *
 * @param options every ring looked at, smallest first, with `teeth` [1], `fit` [—] and `cost` [1]
 * @param recommended recommended teeth [1], or null
 * @returns `smallestTeeth` [1] and `largestTeeth` [1], or null
 * @example ringsAlike([30, 32, 34].map((teeth) => ({ teeth, fit: 'fits', cost: teeth === 30 ? 0.6 : 0.5 })), 32) // {"smallestTeeth":32,"largestTeeth":34}
 * @see common practice
 */
export function ringsAlike(
  options: readonly { readonly teeth: number; readonly fit: RingFit['fit']; readonly cost: number }[],
  recommended: number | null,
): { readonly smallestTeeth: number; readonly largestTeeth: number } | null {
  const best = options.find((option) => option.teeth === recommended);
  if (best === undefined) return null;
  const alike = options.filter((option) => option.fit === 'fits' && option.cost === best.cost);
  const [smallest] = alike;
  const largest = alike.at(-1);
  if (smallest === undefined || largest === undefined || smallest === largest) return null;
  return { smallestTeeth: smallest.teeth, largestTeeth: largest.teeth };
}

/**
 * The largest ring that keeps the lowest gear with a cassette, and the smallest that keeps the highest.
 *
 * N ≤ lowest ratio · largest sprocket; N ≥ highest ratio · smallest sprocket
 *
 * Valid for any gears; where the first count is the larger one, every ring between them keeps both ends, and outside
 * whole counts there is no ring. Agrees with the published answer 30 and 33 for 36/26 with 11–36 to 10–42.
 *
 * @param now `lowestRatio` [1] and `highestRatio` [1] of today
 * @param after `smallestTeeth` [1] and `largestTeeth` [1] of the cassette to come
 * @returns `lowestTeeth` [1], at most that for the lowest gear, and `highestTeeth` [1], at least that for the highest
 * @example ringsThatKeep({ lowestRatio: 26 / 36, highestRatio: 36 / 11 }, { smallestTeeth: 10, largestTeeth: 42 }).lowestTeeth // 30
 * @example ringsThatKeep({ lowestRatio: 26 / 36, highestRatio: 36 / 11 }, { smallestTeeth: 10, largestTeeth: 42 }).highestTeeth // 33
 * @see QA, 26/36 with 11–36 to 10–42
 */
export function ringsThatKeep(
  now: { readonly lowestRatio: number; readonly highestRatio: number },
  after: Ends,
): { readonly lowestTeeth: number; readonly highestTeeth: number } {
  return {
    lowestTeeth: Math.floor(now.lowestRatio * after.largestTeeth + TIE),
    highestTeeth: Math.ceil(now.highestRatio * after.smallestTeeth - TIE),
  };
}
