import { OBJECTION_LIMITS } from '../tables/objection-limits.ts';

/** Why not to convert this bike, or not before something is settled. */
export type ObjectionKind = 'riveted' | 'drive-unit' | 'few-sprockets-in-hills' | 'no-room' | 'small-wheel';

const FEW_SPROCKETS = OBJECTION_LIMITS.fewSprockets.value;
const SMALL_BEAD_SEAT_MM = OBJECTION_LIMITS.smallBeadSeat.value;

/**
 * The reasons against a conversion that show in what is known of the bike.
 *
 * riveted rings; a motor at the cranks; nine sprockets or fewer in hills, on a tandem unless more sprockets or no hills
 * are told; largest ring the frame takes < smallest ring the crank takes; bead seat ≤ 349 mm
 *
 * Valid for whatever has been told; a fact not known (null) raises no objection, and others that cannot be seen from
 * here (warranty, rental) are the card's to name.
 *
 * @param input `mount` [—], `midDrive` [—], `sprocketCount` [1], `hilly` [—], `tandem` [—], `maxRingTeeth` [1], `smallestRingTeeth` [1], `beadSeatMm` [mm]; null where not known
 * @returns kinds of objection [—], the hardest first
 * @example objections({ mount: 'riveted', midDrive: false, sprocketCount: 10, hilly: true, tandem: false, maxRingTeeth: null, smallestRingTeeth: null, beadSeatMm: 622 }) // ["riveted"]
 * @see common practice
 */
export function objections(input: {
  readonly mount: 'bolted' | 'direct' | 'riveted' | null;
  readonly midDrive: boolean;
  readonly sprocketCount: number | null;
  readonly hilly: boolean | null;
  readonly tandem: boolean;
  readonly maxRingTeeth: number | null;
  readonly smallestRingTeeth: number | null;
  readonly beadSeatMm: number | null;
}): readonly ObjectionKind[] {
  const kinds: ObjectionKind[] = [];
  if (input.mount === 'riveted') kinds.push('riveted');
  if (input.midDrive) kinds.push('drive-unit');
  const { maxRingTeeth, smallestRingTeeth, sprocketCount, beadSeatMm } = input;
  if (maxRingTeeth !== null && smallestRingTeeth !== null && maxRingTeeth < smallestRingTeeth) kinds.push('no-room');
  const few = sprocketCount !== null && sprocketCount <= FEW_SPROCKETS;
  const manyTold = sprocketCount !== null && !few;
  const unsafeOnTandem = input.tandem && !manyTold && input.hilly !== false;
  if ((input.hilly === true && few) || unsafeOnTandem) kinds.push('few-sprockets-in-hills');
  if (beadSeatMm !== null && beadSeatMm <= SMALL_BEAD_SEAT_MM) kinds.push('small-wheel');
  return kinds;
}
