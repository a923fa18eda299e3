import { z } from 'zod';
import { KEYS } from './keys.ts';

const whole = (key: { readonly low: number; readonly high: number }) => z.int().min(key.low).max(key.high);
const measure = (key: { readonly low: number; readonly high: number }) => z.number().min(key.low).max(key.high);

/** A cassette: its ends, and every sprocket where the rider named them all, smallest first. */
export const Cassette = z
  .strictObject({
    smallestTeeth: whole(KEYS.cassette),
    largestTeeth: whole(KEYS.cassette),
    sprockets: z.array(whole(KEYS.cassette)).min(5).max(13).readonly().optional(),
  })
  .readonly();
export type Cassette = z.infer<typeof Cassette>;

/**
 * What is known of the rear wheel: a roll-out somebody measured, a tyre (rim and width), a rim alone, or the bead seats
 * that a trade name such as "16 in" may stand for.
 */
export const Wheel = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('rollout'), circumferenceMm: z.number().min(900).max(2600) }).readonly(),
  z
    .strictObject({
      kind: z.literal('tyre'),
      beadSeatMm: z.int().min(200).max(700),
      widthMm: z.number().min(18).max(130),
    })
    .readonly(),
  z.strictObject({ kind: z.literal('rim'), beadSeatMm: z.int().min(200).max(700) }).readonly(),
]);
export type Wheel = z.infer<typeof Wheel>;

/**
 * A bicycle as far as a rider has told it. Every field is optional: absent means unknown, never zero. Lengths in
 * millimetres, masses in kilograms, rings largest first.
 */
export const Bike = z
  .strictObject({
    rings: z.array(whole(KEYS.rings)).min(1).max(3).readonly(),
    cassette: Cassette,
    speeds: whole(KEYS.speeds),
    ringTeeth: whole(KEYS.ring),
    newCassette: Cassette,
    bcdMm: measure(KEYS.bcd),
    innerBcdMm: measure(KEYS.innerbcd),
    bolts: whole(KEYS.bolts),
    gapsMm: z.array(measure(KEYS.gap)).min(1).max(2).readonly(),
    pattern: z.enum(KEYS.pattern.choices),
    sharingRings: whole(KEYS.sharing),
    mount: z.enum(KEYS.mount.choices),
    offsetMm: measure(KEYS.offset),
    maxRingTeeth: whole(KEYS.maxring),
    wheel: Wheel,
    stayMm: measure(KEYS.stays),
    longestMm: measure(KEYS.longest),
    suspension: z.enum(KEYS.suspension.choices),
    chainPitches: whole(KEYS.chain),
    join: z.enum(KEYS.join.choices),
    allowancePitches: z.literal([2, 4, 6]),
    chainlineMm: measure(KEYS.chainline),
    hubMm: measure(KEYS.hub),
    maxSprocketTeeth: whole(KEYS.maxcog),
    minSprocketTeeth: whole(KEYS.mincog),
    capacityTeeth: whole(KEYS.capacity),
    cage: z.enum(KEYS.cage.choices),
    clutch: z.boolean(),
    guide: z.boolean(),
    ground: z.enum(KEYS.ground.choices),
    terrain: z.enum(KEYS.terrain.choices),
    riderKg: measure(KEYS.rider),
    bikeKg: measure(KEYS.bikeweight),
    powerW: measure(KEYS.power),
    cadenceRpm: measure(KEYS.cadence),
    crankMm: measure(KEYS.crank),
    crankType: z.enum(KEYS.cranktype.choices),
    boltMaterial: z.enum(KEYS.boltmaterial.choices),
    bar: z.enum(KEYS.bar.choices),
    assist: z.enum(KEYS.assist.choices),
    tandem: z.boolean(),
    ovalityPct: measure(KEYS.oval),
    ringTabMm: measure(KEYS.ringtab),
    spiderTabMm: measure(KEYS.spidertab),
    sleeveMm: measure(KEYS.sleeve),
    wrenchMm: measure(KEYS.wrench),
    extensionMm: measure(KEYS.extension),
    angleDeg: measure(KEYS.angle),
    wearPct: measure(KEYS.wear),
    units: z.enum(KEYS.units.choices),
  })
  .partial()
  .readonly();
export type Bike = z.infer<typeof Bike>;
