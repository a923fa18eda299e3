import { ROAD_POWER } from '../tables/climbing.ts';

const G = ROAD_POWER.gravity.value;
const AIR_DENSITY = ROAD_POWER.airDensity.value;
const WHEEL_DRAG_AREA_M2 = ROAD_POWER.wheelDragArea.value;
const WHEEL_MASS_KG = ROAD_POWER.wheelInertia.value / ROAD_POWER.wheelRadius.value ** 2;
const EFFICIENCY = ROAD_POWER.efficiency.value;
const BEARING_CONSTANT = ROAD_POWER.bearingConstant.value;
const BEARING_PER_SPEED = ROAD_POWER.bearingPerSpeed.value;

export type RoadPower = {
  readonly airW: number;
  readonly rollingW: number;
  readonly bearingsW: number;
  readonly gravityW: number;
  readonly kineticW: number;
  /** The sum of the terms, at the wheel. */
  readonly wheelW: number;
  /** What the rider must give: the sum with the drivetrain's loss added. */
  readonly riderW: number;
};

/**
 * The power a rider needs on the road, term by term.
 *
 * P = [½ρ(CdA + Fw)·va²·v + Crr·m·g·cosθ·v + v(91 + 8.7v)·10⁻³ + m·g·sinθ·v + ½(m + I/r²)(vf² − vi²)/t] / Ec
 *
 * Valid for 7 to 12 m/s on nearly level road, where it was checked (R² 0.97, standard error 2.7 W); outside, on climbs,
 * it is extrapolated. Agrees with the printed worked example term by term to 0.05 W, 208.2 W at the wheel.
 *
 * @param input `speedMs` and `airSpeedMs` [m/s], `massKg` [kg], `gradePct` rise over run [%], `dragAreaM2` [m²], `rollingCoefficient` [1], `change` of speed `fromMs`, `toMs` [m/s] in `seconds` [s] or null
 * @returns the terms, their sum and the rider's power [W]
 * @example roadPower({ speedMs: 8.36, airSpeedMs: 10.91, massKg: 90, gradePct: 0.3, dragAreaM2: 0.2565, rollingCoefficient: 0.0032, change: { fromMs: 8.28, toMs: 8.45, seconds: 56.42 } }).wheelW // 208.2
 * @see Martin1998, worked example
 */
export function roadPower(input: {
  readonly speedMs: number;
  readonly airSpeedMs: number;
  readonly massKg: number;
  readonly gradePct: number;
  readonly dragAreaM2: number;
  readonly rollingCoefficient: number;
  readonly change: { readonly fromMs: number; readonly toMs: number; readonly seconds: number } | null;
}): RoadPower {
  const { speedMs, airSpeedMs, massKg, change } = input;
  const angle = Math.atan(input.gradePct / 100);
  const airW = 0.5 * AIR_DENSITY * (input.dragAreaM2 + WHEEL_DRAG_AREA_M2) * airSpeedMs ** 2 * speedMs;
  const rollingW = input.rollingCoefficient * massKg * G * Math.cos(angle) * speedMs;
  const bearingsW = speedMs * (BEARING_CONSTANT + BEARING_PER_SPEED * speedMs);
  const gravityW = massKg * G * Math.sin(angle) * speedMs;
  const kineticW =
    change === null ? 0 : (0.5 * (massKg + WHEEL_MASS_KG) * (change.toMs ** 2 - change.fromMs ** 2)) / change.seconds;
  const wheelW = airW + rollingW + bearingsW + gravityW + kineticW;
  return { airW, rollingW, bearingsW, gravityW, kineticW, wheelW, riderW: wheelW / EFFICIENCY };
}

export type SteepestGrade =
  | { readonly kind: 'found'; readonly gradePct: number }
  | { readonly kind: 'cannot'; readonly reason: 'no-such-slope' };

/**
 * The steepest slope on which a rider holds a speed with a power, without wind.
 *
 * sinθ + Crr·cosθ = [P·Ec/v − ½ρ(CdA + Fw)·v² − (91 + 8.7v)·10⁻³] / (m·g), so θ = asin(that / √(1 + Crr²)) − atan(Crr)
 *
 * Valid for a steady speed above zero; a power too small for the level road gives a slope below zero, and outside, a
 * power or a drag beyond any slope has no answer. The model was checked at 7 to 12 m/s near the level, so a climb is an
 * extrapolation. Agrees with the power formula it inverts to 1e-9.
 *
 * @param input `powerW` [W], 30 to 1000, `speedMs` [m/s], `massKg` rider and bicycle [kg], `dragAreaM2` [m²], `rollingCoefficient` [1]
 * @returns `gradePct` rise over run [%]; or why there is none [—]
 * @example steepestGrade({ powerW: 210, speedMs: 2, massKg: 88, dragAreaM2: 0.5, rollingCoefficient: 0.008 }).gradePct // 10.99
 * @see Martin1998, power model
 */
export function steepestGrade(input: {
  readonly powerW: number;
  readonly speedMs: number;
  readonly massKg: number;
  readonly dragAreaM2: number;
  readonly rollingCoefficient: number;
}): SteepestGrade {
  const { speedMs, rollingCoefficient } = input;
  const forceN =
    (input.powerW * EFFICIENCY) / speedMs -
    0.5 * AIR_DENSITY * (input.dragAreaM2 + WHEEL_DRAG_AREA_M2) * speedMs ** 2 -
    (BEARING_CONSTANT + BEARING_PER_SPEED * speedMs);
  const sine = forceN / (input.massKg * G) / Math.hypot(1, rollingCoefficient);
  if (Math.abs(sine) >= 1) return { kind: 'cannot', reason: 'no-such-slope' };
  const angle = Math.asin(sine) - Math.atan(rollingCoefficient);
  if (angle <= -Math.PI / 2) return { kind: 'cannot', reason: 'no-such-slope' };
  return { kind: 'found', gradePct: 100 * Math.tan(angle) };
}
