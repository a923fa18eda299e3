import type { Bike } from './bike.ts';
import type { Assumption } from './reading.ts';

/** A bike whose harmless gaps are filled with the stated defaults; every other field is still as told, or absent. */
export type SettledBike = Bike & {
  readonly cadenceRpm: number;
  readonly terrain: 'hills' | 'rolling' | 'flat';
  /** Set where nobody told the terrain, so that it can be asked for and is not asked twice. */
  readonly terrainAssumed?: true;
  readonly allowancePitches: 2 | 4 | 6;
  readonly suspension: 'none' | 'rear';
  /** Set where nobody told that there is none: then it is mentioned where it would change the chain. */
  readonly suspensionAssumed?: true;
};

/**
 * Fills the gaps that have a stated default and lists what was filled: cadence 90 rpm, rolling terrain, an allowance of
 * 2 pitches, no rear suspension. Lengths, counts, bolt circles and wheels are never filled: unknown is not zero.
 */
export function settle(bike: Bike): { readonly bike: SettledBike; readonly assumed: readonly Assumption[] } {
  const assumed: Assumption[] = [];
  if (bike.suspension === undefined) {
    const basis =
      bike.longestMm === undefined
        ? 'not said; with rear suspension measure at its longest before cutting'
        : 'a longest axle distance was given';
    assumed.push({ field: 'suspension', value: bike.longestMm === undefined ? 'none' : 'rear', basis });
  }
  if (bike.terrain === undefined)
    assumed.push({ field: 'terrain', value: 'rolling', basis: 'default: low and high gears count alike' });
  if (bike.cadenceRpm === undefined) assumed.push({ field: 'cadence', value: 90, basis: 'default, common practice' });
  if (bike.allowancePitches === undefined) {
    assumed.push({ field: 'allowance', value: 2, basis: "default: one pair; the derailleur maker's figure wins" });
  }
  return {
    assumed,
    bike: {
      ...bike,
      suspension: bike.suspension ?? (bike.longestMm === undefined ? 'none' : 'rear'),
      ...(bike.suspension === undefined ? { suspensionAssumed: true as const } : {}),
      terrain: bike.terrain ?? 'rolling',
      ...(bike.terrain === undefined ? { terrainAssumed: true as const } : {}),
      cadenceRpm: bike.cadenceRpm ?? 90,
      allowancePitches: bike.allowancePitches ?? 2,
    },
  };
}
