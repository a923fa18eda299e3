import { SPROCKET_GEOMETRY } from '../tables/sprocket-geometry.ts';

const PITCH_MM = SPROCKET_GEOMETRY.pitch.value;
const ROLLER_MM = SPROCKET_GEOMETRY.roller.value;
const TIP_PITCHES = SPROCKET_GEOMETRY.tip.value;

/**
 * Diameter of the circle through the roller centres of a chain laid on a sprocket or ring.
 *
 * PD = p / sin(180°/N)
 *
 * Valid for any whole number of teeth from 3; below that there is no polygon and the figure means nothing. Agrees with
 * the plate-wheel table to 0.01 mm and, scaled to their pitch, with the printed sprocket catalogs to half a unit of
 * their last digit.
 *
 * @param teeth number of teeth [1], 9 to 70
 * @returns pitch diameter [mm]
 * @example pitchDiameterMm(32) // 129.57
 * @see PlateWheel, dimension table, z = 32
 */
export function pitchDiameterMm(teeth: number): number {
  return PITCH_MM / Math.sin(Math.PI / teeth);
}

/**
 * Diameter over the tips of the teeth, in the form the sprocket catalogs use.
 *
 * OD = p(0.6 + cot(180°/N))
 *
 * Valid for any whole number of teeth from 3; tips of real rings vary by about 1 mm and this form is the larger one,
 * so it is the cautious one for clearance. Agrees with the printed sprocket catalogs to 0.6 of a unit of their last
 * digit.
 *
 * @param teeth number of teeth [1], 9 to 70
 * @returns outside diameter [mm]
 * @example outsideDiameterMm(32) // 136.57
 * @see SprocketCatalog80, dimension table, 32 teeth
 */
export function outsideDiameterMm(teeth: number): number {
  return PITCH_MM * (TIP_PITCHES + 1 / Math.tan(Math.PI / teeth));
}

/**
 * Diameter from valley to opposite valley: what is left of a ring for bolts to sit in.
 *
 * RD = PD − roller diameter
 *
 * Valid for any whole number of teeth from 3; with an odd count no two valleys are opposite and the figure is twice the
 * valley's radius. Agrees with the 137 mm a magazine gives for 36 teeth to 1 mm.
 *
 * @param teeth number of teeth [1], 9 to 70
 * @returns root diameter [mm]
 * @example rootDiameterMm(26) // 97.61
 * @see PlateWheel, dimension table, roller diameter
 */
export function rootDiameterMm(teeth: number): number {
  return pitchDiameterMm(teeth) - ROLLER_MM;
}
