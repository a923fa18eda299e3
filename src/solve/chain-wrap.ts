import { SPROCKET_GEOMETRY } from '../tables/sprocket-geometry.ts';

const PITCH_MM = SPROCKET_GEOMETRY.pitch.value;
const FOUR_PI_SQUARED = 4 * Math.PI * Math.PI;
/** Newton's steps square the error and start within 0.06 pitch: four are plenty, the limit only keeps the loop finite. */
const MAX_STEPS = 12;

/** Radius of the pitch circle in pitches. */
function radiusPitches(teeth: number): number {
  return 0.5 / Math.sin(Math.PI / teeth);
}

function wrapAt(ringTeeth: number, sprocketTeeth: number, radiusGap: number, centre: number): number {
  const turn = Math.asin(radiusGap / centre) / Math.PI;
  const straight = Math.sqrt(centre * centre - radiusGap * radiusGap);
  return 2 * straight + ringTeeth * (0.5 + turn) + sprocketTeeth * (0.5 - turn);
}

/**
 * Bare length of a chain around a ring and a sprocket, drawn straight from one to the other past the derailleur.
 *
 * L = 2√(C² − (R − r)²) + N(½ + α/π) + n(½ − α/π), α = asin((R − r)/C), R = 1/(2 sin(π/N)), r likewise
 *
 * Valid for wheels that stand clear of each other, C > R + r; outside that, and where C < |R − r| (not a number), it
 * means nothing. Agrees with the journal's worked example, 63 and 20 teeth at C = 36 pitches, to its printed digit.
 *
 * @param ringTeeth number of ring teeth [1], 9 to 70
 * @param sprocketTeeth number of sprocket teeth [1], 9 to 70
 * @param centreMm distance between the axles [mm], over 300
 * @returns bare wrap in pitches of 12.7 mm [1], no allowance in it
 * @example wrapPitches(32, 36, 440) // 103.303
 * @see MechJournalChain, worked example, 63 and 20 teeth
 */
export function wrapPitches(ringTeeth: number, sprocketTeeth: number, centreMm: number): number {
  const radiusGap = radiusPitches(ringTeeth) - radiusPitches(sprocketTeeth);
  return wrapAt(ringTeeth, sprocketTeeth, radiusGap, centreMm / PITCH_MM);
}

/**
 * The textbook's shorter sum for the bare wrap, which a reader can check with a pencil.
 *
 * L = 2C + (N + n)/2 + (N − n)²/(4π²C), C in pitches
 *
 * Valid where {@link wrapPitches} is. Agrees with it to 0.03 pitch for bicycle rings, sprockets and stays from 380 mm.
 *
 * @param ringTeeth number of ring teeth [1], 9 to 70
 * @param sprocketTeeth number of sprocket teeth [1], 9 to 70
 * @param centreMm distance between the axles [mm], over 300
 * @returns approximate bare wrap in pitches of 12.7 mm [1]
 * @example approximateWrapPitches(32, 36, 440) // 103.303
 * @see MechJournalChain, worked example, 63 and 20 teeth
 */
export function approximateWrapPitches(ringTeeth: number, sprocketTeeth: number, centreMm: number): number {
  const centre = centreMm / PITCH_MM;
  const difference = ringTeeth - sprocketTeeth;
  return 2 * centre + (ringTeeth + sprocketTeeth) / 2 + (difference * difference) / (FOUR_PI_SQUARED * centre);
}

/**
 * Axle distance at which a chain of a given bare length just spans a ring and a sprocket.
 *
 * C = (L′ + √(L′² − 2(N − n)²/π²))/4, L′ = L − (N + n)/2, then Newton's steps on the tangent model
 *
 * Valid for a chain long enough that the wheels stand clear of each other, C > R + r; null for a shorter one. Agrees
 * with the journal's 35.6 pitches for 114 pitches on 63 and 20 teeth, and undoes the bare wrap to 1e-9 both ways.
 *
 * @param ringTeeth number of ring teeth [1], 9 to 70
 * @param sprocketTeeth number of sprocket teeth [1], 9 to 70
 * @param barePitches bare wrap in pitches of 12.7 mm [1], 50 to 300
 * @returns distance between the axles [mm], or null where the chain is too short for the two wheels
 * @example centreMmForWrap(32, 36, 104) // 444.43
 * @see MechJournalChain, worked example, 114 pitches
 */
export function centreMmForWrap(ringTeeth: number, sprocketTeeth: number, barePitches: number): number | null {
  const ringRadius = radiusPitches(ringTeeth);
  const sprocketRadius = radiusPitches(sprocketTeeth);
  const radiusGap = ringRadius - sprocketRadius;
  const toothGap = ringTeeth - sprocketTeeth;
  const straightPart = barePitches - (ringTeeth + sprocketTeeth) / 2;
  const root = straightPart * straightPart - (8 * toothGap * toothGap) / FOUR_PI_SQUARED;
  const clear = ringRadius + sprocketRadius;
  if (straightPart <= 0 || root < 0) return null;
  let centre = Math.max((straightPart + Math.sqrt(root)) / 4, clear);
  for (let step = 0; step < MAX_STEPS; step += 1) {
    const straight = Math.sqrt(centre * centre - radiusGap * radiusGap);
    const slope = (2 * centre - (toothGap * radiusGap) / (Math.PI * centre)) / straight;
    const change = (wrapAt(ringTeeth, sprocketTeeth, radiusGap, centre) - barePitches) / slope;
    centre -= change;
    if (centre < clear) return null;
    if (Math.abs(change) <= 1e-13 * centre) break;
  }
  return centre * PITCH_MM;
}
