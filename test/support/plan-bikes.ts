import fc from 'fast-check';
import type { Bike } from '../../src/bike/bike.ts';
import type { Reply } from '../../src/request.ts';
import { ask } from '../../src/workbench.ts';

type Answered = Extract<Reply, { readonly kind: 'answered' }>;

const teeth = (min: number, max: number) => fc.integer({ min, max });
const ends = fc.record({ smallestTeeth: teeth(9, 14), largestTeeth: teeth(21, 52) });

/** Circles with their bolts; none of them is an inner circle, and none has two bolt counts. */
const circle = fc.constantFrom(
  { bcdMm: 104, bolts: 4 },
  { bcdMm: 96, bolts: 4 },
  { bcdMm: 120, bolts: 4 },
  { bcdMm: 110, bolts: 5 },
  { bcdMm: 130, bolts: 5 },
  { bcdMm: 94, bolts: 5 },
);

/** Bikes that a plan can be made for: rings and cassette are told and nothing contradicts; all else is told or not. */
export const planBike: fc.Arbitrary<Bike> = fc
  .tuple(
    fc.uniqueArray(teeth(20, 56), { minLength: 2, maxLength: 3 }),
    ends,
    fc.option(circle),
    fc.record(
      {
        newCassette: ends,
        ringTeeth: teeth(18, 70),
        maxRingTeeth: teeth(24, 60),
        terrain: fc.constantFrom('hills' as const, 'rolling' as const, 'flat' as const),
        allowancePitches: fc.constantFrom(2 as const, 4 as const, 6 as const),
        stayMm: teeth(380, 470),
        suspension: fc.constantFrom('none' as const, 'rear' as const),
        chainPitches: teeth(45, 80).map((pairs) => 2 * pairs),
        maxSprocketTeeth: teeth(28, 52),
        capacityTeeth: teeth(10, 45),
        wheel: fc.constant({ kind: 'tyre' as const, beadSeatMm: 622, widthMm: 57 }),
        hubMm: fc.constantFrom(135, 142, 148),
        chainlineMm: teeth(45, 56),
        innerBcdMm: fc.constantFrom(64, 74, 80),
        pattern: fc.constantFrom('even' as const, 'uneven' as const),
        assist: fc.constantFrom('none' as const, 'hub' as const, 'mid-drive' as const, 'yes' as const),
        tandem: fc.boolean(),
        units: fc.constantFrom('metric' as const, 'imperial' as const),
      },
      { requiredKeys: [] },
    ),
    fc.option(teeth(0, 25)),
  )
  .map(([rings, cassette, on, rest, growthMm]) => ({
    ...rest,
    rings: rings.toSorted((one, other) => other - one),
    cassette,
    ...(on === null ? {} : on),
    ...(growthMm === null || rest.stayMm === undefined || rest.suspension !== 'rear'
      ? {}
      : { longestMm: rest.stayMm + growthMm }),
  }));

/** The whole plan of such a bike, through the same door as everybody's. */
export function planOf(bike: Bike): Answered {
  const reply = ask({ command: 'convert', setup: '', known: bike });
  if (reply.kind !== 'answered') throw new Error(`${reply.kind}: ${reply.card.answer} ${reply.card.readBack}`);
  return reply;
}
