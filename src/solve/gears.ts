import { UNIT_FACTORS } from '../tables/unit-factors.ts';

/** The two ends of a drivetrain's gears: speeds at the rider's cadence, developments a turn; both null without a wheel. */
export type GearRange = {
  readonly lowestRatio: number;
  readonly highestRatio: number;
  /** Highest over lowest, in per cent: 327 means the highest is 3.27 times the lowest. */
  readonly rangePct: number;
  readonly lowestSpeedKmh: number | null;
  readonly highestSpeedKmh: number | null;
  readonly lowestDevelopmentM: number | null;
  readonly highestDevelopmentM: number | null;
};

const MM_PER_INCH = UNIT_FACTORS.mmPerInch.factor;

/**
 * How often the rear wheel turns for one turn of the cranks.
 *
 * ratio = N / n
 *
 * Valid for any tooth counts; outside whole counts it means nothing. Agrees with the printed 39/14 = 53/19 = 2.79 to
 * the last digit.
 *
 * @param ringTeeth teeth of the ring N [1], 18 to 70
 * @param sprocketTeeth teeth of the sprocket n [1], 9 to 60
 * @returns gear ratio [1]
 * @example gearRatio(39, 14) // 2.79
 * @see BrownGain, comparison of 39/14 and 53/19
 */
export function gearRatio(ringTeeth: number, sprocketTeeth: number): number {
  return ringTeeth / sprocketTeeth;
}

/**
 * How far the bicycle rolls for one turn of the cranks.
 *
 * development = ratio · circumference
 *
 * Valid for any wheel; outside a rolling tyre (slip, soft ground) the way is shorter. Agrees with geometry exactly.
 *
 * @param ratio gear ratio [1]
 * @param circumferenceMm wheel circumference [mm], 900 to 2600
 * @returns development [m]
 * @example developmentM(2, 2130) // 4.26
 * @see geometry
 */
export function developmentM(ratio: number, circumferenceMm: number): number {
  return (ratio * circumferenceMm) / 1000;
}

/**
 * The diameter of a directly driven wheel that would give the same gear.
 *
 * gear inches = ratio · wheel diameter in inches
 *
 * Valid for any wheel; the diameter is the rolling one, circumference / π, so it is a little under the nominal size.
 * Agrees with geometry exactly.
 *
 * @param ratio gear ratio [1]
 * @param circumferenceMm wheel circumference [mm], 900 to 2600
 * @returns gear inches [in]
 * @example gearInches(1, 2130) // 26.69
 * @see common practice
 */
export function gearInches(ratio: number, circumferenceMm: number): number {
  return (ratio * circumferenceMm) / (Math.PI * MM_PER_INCH);
}

/**
 * How far the bicycle moves for the way the pedal goes round.
 *
 * gain ratio = ratio · wheel radius / crank length
 *
 * Valid for any wheel and crank; outside round rings it is a mean. Agrees with the printed 1.22 and 1.344 to 0.001.
 *
 * @param ratio gear ratio [1]
 * @param wheelRadiusMm rolling radius of the wheel [mm], 140 to 415
 * @param crankMm crank length [mm], 100 to 220
 * @returns gain ratio [1]
 * @example gainRatio(22 / 34, 330.2, 175) // 1.22
 * @see BrownGain, definition
 * @see EngineeringClicks, two worked gears
 */
export function gainRatio(ratio: number, wheelRadiusMm: number, crankMm: number): number {
  return (ratio * wheelRadiusMm) / crankMm;
}

/**
 * Road speed at a cadence.
 *
 * km/h = development · rpm · 0.06
 *
 * Valid for a turning crank; outside a rolling tyre the speed is lower. Agrees with the printed 3 mph at 60 and
 * 56.0 rpm to the last digit.
 *
 * @param perTurnM development [m]
 * @param cadenceRpm cadence [1/min], 30 to 150
 * @returns road speed [km/h]
 * @example speedKmh(6, 90) // 32.4
 * @see EngineeringClicks, 3 mph at 60 rpm
 */
export function speedKmh(perTurnM: number, cadenceRpm: number): number {
  return perTurnM * cadenceRpm * 0.06;
}

/**
 * The lowest and the highest gear of a set of rings and sprockets, and how far apart they are.
 *
 * range = highest ratio / lowest ratio
 *
 * Valid for any rings and cassette; without a wheel the speeds and developments are null, not zero. Agrees with the
 * printed ranges of one-ring cassettes (11–36 3.27 to 10–50 5.00) to the last digit.
 *
 * @param input teeth [1] of the largest and smallest ring and sprocket, `circumferenceMm` [mm] or null, `cadenceRpm` [1/min]
 * @returns ratios [1], `rangePct` [%], speeds [km/h] and developments [m] of both ends
 * @example gearRange({ largestRingTeeth: 36, smallestRingTeeth: 22, smallestSprocketTeeth: 11, largestSprocketTeeth: 36, circumferenceMm: null, cadenceRpm: 90 }).rangePct // 536
 * @see GravelArticle2016, ranges of cassettes
 */
export function gearRange(input: {
  readonly largestRingTeeth: number;
  readonly smallestRingTeeth: number;
  readonly smallestSprocketTeeth: number;
  readonly largestSprocketTeeth: number;
  readonly circumferenceMm: number | null;
  readonly cadenceRpm: number;
}): GearRange {
  const { circumferenceMm, cadenceRpm } = input;
  const lowestRatio = gearRatio(input.smallestRingTeeth, input.largestSprocketTeeth);
  const highestRatio = gearRatio(input.largestRingTeeth, input.smallestSprocketTeeth);
  const low = circumferenceMm === null ? null : developmentM(lowestRatio, circumferenceMm);
  const high = circumferenceMm === null ? null : developmentM(highestRatio, circumferenceMm);
  return {
    lowestRatio,
    highestRatio,
    rangePct: (100 * highestRatio) / lowestRatio,
    lowestSpeedKmh: low === null ? null : speedKmh(low, cadenceRpm),
    highestSpeedKmh: high === null ? null : speedKmh(high, cadenceRpm),
    lowestDevelopmentM: low,
    highestDevelopmentM: high,
  };
}

/**
 * How much each shift changes the gear, from the smallest sprocket on.
 *
 * step = (next larger sprocket / sprocket − 1) · 100
 *
 * Valid for a rising list; outside (fewer than two sprockets) there is no step and the list is empty. Agrees with plain
 * division exactly.
 *
 * @param sprockets every sprocket, smallest first [1]
 * @returns one step fewer than sprockets [%]
 * @example stepsPct([10, 12, 15]) // [20, 25]
 * @see geometry
 */
export function stepsPct(sprockets: readonly number[]): number[] {
  const steps: number[] = [];
  let before: number | undefined;
  for (const teeth of sprockets) {
    if (before !== undefined) steps.push((100 * (teeth - before)) / before);
    before = teeth;
  }
  return steps;
}
