import type { Bike } from './bike.ts';
import { KEYS, type KeyName } from './keys.ts';

/** Which property of a bike each key of the setup line fills. */
export const FIELDS = {
  rings: 'rings',
  cassette: 'cassette',
  speeds: 'speeds',
  ring: 'ringTeeth',
  newcassette: 'newCassette',
  bcd: 'bcdMm',
  innerbcd: 'innerBcdMm',
  bolts: 'bolts',
  gap: 'gapsMm',
  pattern: 'pattern',
  sharing: 'sharingRings',
  mount: 'mount',
  offset: 'offsetMm',
  maxring: 'maxRingTeeth',
  wheel: 'wheel',
  stays: 'stayMm',
  longest: 'longestMm',
  suspension: 'suspension',
  chain: 'chainPitches',
  join: 'join',
  allowance: 'allowancePitches',
  chainline: 'chainlineMm',
  hub: 'hubMm',
  maxcog: 'maxSprocketTeeth',
  mincog: 'minSprocketTeeth',
  capacity: 'capacityTeeth',
  cage: 'cage',
  clutch: 'clutch',
  guide: 'guide',
  ground: 'ground',
  terrain: 'terrain',
  rider: 'riderKg',
  bikeweight: 'bikeKg',
  power: 'powerW',
  cadence: 'cadenceRpm',
  crank: 'crankMm',
  cranktype: 'crankType',
  boltmaterial: 'boltMaterial',
  bar: 'bar',
  assist: 'assist',
  tandem: 'tandem',
  oval: 'ovalityPct',
  ringtab: 'ringTabMm',
  spidertab: 'spiderTabMm',
  sleeve: 'sleeveMm',
  wrench: 'wrenchMm',
  extension: 'extensionMm',
  angle: 'angleDeg',
  wear: 'wearPct',
  units: 'units',
} as const satisfies Record<KeyName, keyof Bike>;

/** What any key may hold. */
export type Value = NonNullable<Bike[keyof Bike]>;

export const KEY_NAMES = Object.keys(KEYS) as readonly KeyName[];

/** A bike out of what was told, its properties always in the same order, so that two spellings give the same bytes. */
export function assemble(told: ReadonlyMap<KeyName, Value>): Bike {
  const bike: Record<string, Value> = {};
  for (const key of KEY_NAMES) {
    const value = told.get(key);
    if (value !== undefined) bike[FIELDS[key]] = value;
  }
  return bike as Bike;
}

/** Whether two values of one key say the same. */
export function same(one: Value, other: Value): boolean {
  return one === other || (typeof one === 'object' && JSON.stringify(one) === JSON.stringify(other));
}
