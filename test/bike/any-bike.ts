import fc from 'fast-check';
import type { Bike, Cassette, Wheel } from '../../src/bike/bike.ts';
import { KEYS } from '../../src/bike/keys.ts';

type Range = { readonly low: number; readonly high: number };

const whole = ({ low, high }: Range) => fc.integer({ min: low, max: high });

/** A plain decimal within a range, to four places: no rider tells more, and sixteenths of an inch need no more. */
const measure = ({ low, high }: Range) =>
  fc.integer({ min: Math.ceil(low * 1e4), max: Math.floor(high * 1e4) }).map((value) => value / 1e4);

const teeth = (range: Range, few: number, many: number) =>
  fc.uniqueArray(whole(range), { minLength: few, maxLength: many });

const cassette: fc.Arbitrary<Cassette> = fc.oneof(
  teeth(KEYS.cassette, 2, 2).map((ends) => ({ smallestTeeth: Math.min(...ends), largestTeeth: Math.max(...ends) })),
  teeth(KEYS.cassette, 5, 13).map((sprockets) => ({
    smallestTeeth: Math.min(...sprockets),
    largestTeeth: Math.max(...sprockets),
    sprockets: sprockets.toSorted((one, other) => one - other),
  })),
);

const beadSeatMm = fc.integer({ min: 200, max: 700 });
const wheel: fc.Arbitrary<Wheel> = fc.oneof(
  measure({ low: 900, high: 2600 }).map((circumferenceMm) => ({ kind: 'rollout' as const, circumferenceMm })),
  fc
    .record({ beadSeatMm, widthMm: measure({ low: 18, high: 130 }) })
    .map((tyre) => ({ kind: 'tyre' as const, ...tyre })),
  beadSeatMm.map((seat) => ({ kind: 'rim' as const, beadSeatMm: seat })),
);

/** Any bike at all that the Bike object allows, contradictions included, each field told or not. */
export const anyBike: fc.Arbitrary<Bike> = fc.record(
  {
    rings: teeth(KEYS.rings, 1, 3).map((rings) => rings.toSorted((one, other) => other - one)),
    cassette,
    speeds: whole(KEYS.speeds),
    ringTeeth: whole(KEYS.ring),
    newCassette: cassette,
    bcdMm: measure(KEYS.bcd),
    innerBcdMm: measure(KEYS.innerbcd),
    bolts: whole(KEYS.bolts),
    gapsMm: fc.array(measure(KEYS.gap), { minLength: 1, maxLength: 2 }),
    pattern: fc.constantFrom(...KEYS.pattern.choices),
    sharingRings: whole(KEYS.sharing),
    mount: fc.constantFrom(...KEYS.mount.choices),
    offsetMm: measure(KEYS.offset),
    maxRingTeeth: whole(KEYS.maxring),
    wheel,
    stayMm: measure(KEYS.stays),
    longestMm: measure(KEYS.longest),
    suspension: fc.constantFrom(...KEYS.suspension.choices),
    chainPitches: whole(KEYS.chain),
    join: fc.constantFrom(...KEYS.join.choices),
    allowancePitches: fc.constantFrom(2 as const, 4 as const, 6 as const),
    chainlineMm: measure(KEYS.chainline),
    hubMm: measure(KEYS.hub),
    maxSprocketTeeth: whole(KEYS.maxcog),
    minSprocketTeeth: whole(KEYS.mincog),
    capacityTeeth: whole(KEYS.capacity),
    cage: fc.constantFrom(...KEYS.cage.choices),
    clutch: fc.boolean(),
    guide: fc.boolean(),
    ground: fc.constantFrom(...KEYS.ground.choices),
    terrain: fc.constantFrom(...KEYS.terrain.choices),
    riderKg: measure(KEYS.rider),
    bikeKg: measure(KEYS.bikeweight),
    powerW: measure(KEYS.power),
    cadenceRpm: measure(KEYS.cadence),
    crankMm: measure(KEYS.crank),
    crankType: fc.constantFrom(...KEYS.cranktype.choices),
    boltMaterial: fc.constantFrom(...KEYS.boltmaterial.choices),
    bar: fc.constantFrom(...KEYS.bar.choices),
    assist: fc.constantFrom(...KEYS.assist.choices),
    tandem: fc.boolean(),
    ovalityPct: measure(KEYS.oval),
    ringTabMm: measure(KEYS.ringtab),
    spiderTabMm: measure(KEYS.spidertab),
    sleeveMm: measure(KEYS.sleeve),
    wrenchMm: measure(KEYS.wrench),
    extensionMm: measure(KEYS.extension),
    angleDeg: measure(KEYS.angle),
    wearPct: measure(KEYS.wear),
    units: fc.constantFrom(...KEYS.units.choices),
  },
  { requiredKeys: [] },
);
