import type { Refusal } from '../bike/reading.ts';
import type { MountPart } from '../commands/answer.ts';

/**
 * The refusal of a wanted ring that cannot be, for a bike of which nothing more is known. `usableTeeth` is the ring
 * nearest to it that may be, so that the example works.
 */
export function ringRefusal(
  ringTeeth: number,
  reasons: readonly string[],
  mount: MountPart,
  usableTeeth: number,
): Refusal {
  const [reason] = reasons;
  const named = reason?.startsWith(`${ringTeeth}T`) ? reason : `${ringTeeth}T: ${reason}`;
  const example = `ring=${usableTeeth}`;
  if (Math.abs(usableTeeth - ringTeeth) === 1) {
    return {
      field: 'ring',
      message: `${named}.`,
      allowed:
        `even counts: ${ringTeeth - 1}T climbs easier, ${ringTeeth + 1}T runs faster; ` +
        `a plain ${ringTeeth}T exists, but does not hold the chain by its teeth`,
      example,
    };
  }
  const { smallestEvenTeeth, smallestSpecialEvenTeeth, bcdMm } = mount;
  const from =
    mount.smallestFrom === 'table' ? 'Brown and Allen, bolt-circle table' : 'valley diameter less bolt circle';
  const special = smallestSpecialEvenTeeth === null ? '' : ` (${smallestSpecialEvenTeeth}T only as a special ring)`;
  return {
    field: 'ring',
    message: `${named}.`,
    allowed:
      smallestEvenTeeth === null
        ? 'another ring, a bigger cassette for the low gear, or another crank'
        : `${smallestEvenTeeth}T and up on ${bcdMm} mm${special}, by ${from}; or a bigger cassette for the low gear, or another crank`,
    example,
  };
}
