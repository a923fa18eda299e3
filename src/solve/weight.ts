import { CHAIN_PITCH_MASSES, type MassRange, NARROW_WIDE_MASS, PART_MASSES, RING_MASSES } from '../tables/masses.ts';
import type { Row } from '../tables/row.ts';

export type PartKind =
  | 'front-derailleur'
  | 'shifter-pod'
  | 'cable-and-housing'
  | 'old-ring'
  | 'old-bolts'
  | 'chain'
  | 'new-ring'
  | 'new-direct-ring'
  | 'new-bolts';

/** One part on the scale: what it is, how many teeth or pitches, what it weighs and what that rests on. */
export type WeighedPart = Row<MassRange & { readonly part: PartKind; readonly count: number | null }>;

export type WeightInput = {
  readonly oldRings: readonly number[];
  /** Null while the size is open: any mountain size then. */
  readonly ringTeeth: number | null;
  readonly direct: boolean;
  /** False at a motor, whose own fixing is known to its maker alone: no bolts on either side of the sum. */
  readonly ringBolts: boolean;
  /** How many rings share the bolt circle today; with one, its bolts go back on. */
  readonly sharingRings: number | null;
  /** A front shifter in a pod of its own; in a drop-bar lever it stays on the bike. */
  readonly separateShifter: boolean;
  /** Over 0 taken out, under 0 put in; null while the chain is open. */
  readonly chainRemovedPitches: number | null;
  readonly speeds: number | null;
};

export type WeightSum = {
  readonly removed: readonly WeighedPart[];
  readonly added: readonly WeighedPart[];
  readonly savedLowG: number;
  readonly savedTypicalG: number;
  readonly savedHighG: number;
};

const ANY_CHAIN = CHAIN_PITCH_MASSES[CHAIN_PITCH_MASSES.length - 1] ?? CHAIN_PITCH_MASSES[0];

/** A tenth of a gram: finer than any kitchen scale, and it keeps the sums readable. */
function tenth(grams: number): number {
  return Math.round(grams * 10) / 10;
}

function part(kind: PartKind, count: number | null, mass: Row<MassRange>): WeighedPart {
  const range = { part: kind, count, lowG: mass.lowG, typicalG: mass.typicalG, highG: mass.highG };
  switch (mass.basis) {
    case 'published':
      return { ...range, basis: mass.basis, cite: mass.cite };
    case 'calculated':
      return mass.cite === undefined
        ? { ...range, basis: mass.basis }
        : { ...range, basis: mass.basis, cite: mass.cite };
    case 'common-practice':
    case 'memory':
      return { ...range, basis: mass.basis };
  }
}

/**
 * What an ordinary bolted ring weighs.
 *
 * m = m₁ + (m₂ − m₁)·(N − N₁)/(N₂ − N₁)
 *
 * Valid for 22 to 50 teeth between two rows of the table; smaller and larger rings follow the line of the nearest two
 * rows. Agrees with the printed single road rings of 44 to 50 teeth at its high end.
 *
 * @param teeth number of teeth [1], 18 to 70
 * @returns `lowG` [g], `typicalG` [g], `highG` [g], with the basis of the rows between
 * @example ringMass(36).highG // 65
 * @example ringMass(50).highG // 149
 * @see ShopCatalogue, single rings, five-hole 110
 */
export function ringMass(teeth: number): Row<MassRange> {
  const last = RING_MASSES.length - 1;
  let at = 1;
  while (at < last && (RING_MASSES[at]?.teeth ?? 0) < teeth) at += 1;
  const below = RING_MASSES[at - 1] ?? RING_MASSES[0];
  const above = RING_MASSES[at] ?? RING_MASSES[1];
  const share = (teeth - below.teeth) / (above.teeth - below.teeth);
  const between = (low: number, high: number) => tenth(low + (high - low) * share);
  const range = {
    lowG: between(below.lowG, above.lowG),
    typicalG: between(below.typicalG, above.typicalG),
    highG: between(below.highG, above.highG),
  };
  return above.basis === 'calculated'
    ? { ...range, basis: 'calculated', cite: above.cite }
    : { ...range, basis: 'memory' };
}

/**
 * What the new narrow-wide ring weighs.
 *
 * bolted: the range for 30 to 38 teeth, else {@link ringMass}; direct mount: m = m₃₀·N/30
 *
 * Valid for 18 to 70 teeth; with the size open, the range for 30 to 38 teeth, or 30 teeth on a direct mount. One printed
 * direct-mount ring of 30 teeth at 61 g lies in the middle of its range.
 *
 * @param teeth number of teeth [1], 18 to 70, or null while open
 * @param direct whether the ring mounts direct on the crank [—]
 * @returns `lowG` [g], `typicalG` [g], `highG` [g]
 * @example newRingMass(32, false).highG // 60
 * @example newRingMass(30, true).typicalG // 61
 * @see CrankChart, direct-mount ring, 30 teeth
 */
export function newRingMass(teeth: number | null, direct: boolean): Row<MassRange> {
  if (direct) {
    const ring = PART_MASSES.directMountRing30;
    const scale = (teeth ?? 30) / 30;
    return {
      lowG: tenth(ring.lowG * scale),
      typicalG: tenth(ring.typicalG * scale),
      highG: tenth(ring.highG * scale),
      basis: 'memory',
    };
  }
  const within = teeth === null || (teeth >= NARROW_WIDE_MASS.fromTeeth && teeth <= NARROW_WIDE_MASS.toTeeth);
  return within ? NARROW_WIDE_MASS : ringMass(teeth);
}

/**
 * What a stretch of chain weighs.
 *
 * m = pitches · mass of one pitch
 *
 * Valid for 10 to 12 sprockets from printed chains; any other count, or none told, takes the lightest and heaviest
 * pitch in print.
 *
 * @param pitches number of pitches [1], 0 and over
 * @param speeds sprockets on the cassette [1], or null
 * @returns `lowG` [g], `typicalG` [g], `highG` [g]
 * @example chainMass(2, 10).highG // 4.9
 * @see ShopCatalogue, chains, mass over pitches
 */
export function chainMass(pitches: number, speeds: number | null): Row<MassRange> {
  const row = CHAIN_PITCH_MASSES.find((each) => each.speeds === speeds) ?? ANY_CHAIN;
  return {
    lowG: tenth(pitches * row.lowG),
    typicalG: tenth(pitches * row.typicalG),
    highG: tenth(pitches * row.highG),
    basis: row.basis,
    cite: row.cite,
  };
}

/**
 * What comes off, what goes on, and the difference.
 *
 * saved, low = Σ removed, low − Σ added, high; saved, high = Σ removed, high − Σ added, low
 *
 * Valid for a conversion that keeps the crank and the cassette: both are left out of the sum. Bolts that go back on are
 * on neither side. With one ring today there is no front derailleur to take off. The 358 g somebody weighed lie inside.
 *
 * @param input `oldRings` [1], `ringTeeth` [1], `direct` [—], `ringBolts` [—], `sharingRings` [1], `separateShifter` [—], `chainRemovedPitches` [1], `speeds` [1]
 * @returns `removed` and `added` part by part, `savedLowG` [g], `savedTypicalG` [g], `savedHighG` [g]
 * @example weightSaved({ oldRings: [36, 22], ringTeeth: 32, direct: false, ringBolts: true, sharingRings: 1, separateShifter: true, chainRemovedPitches: null, speeds: 10 }).savedHighG // 509
 * @see HomeMechanic2013, parts on the scale
 */
export function weightSaved(input: WeightInput): WeightSum {
  const removed: WeighedPart[] = [];
  const added: WeighedPart[] = [];
  if (input.oldRings.length > 1) {
    removed.push(part('front-derailleur', null, PART_MASSES.frontDerailleur));
    if (input.separateShifter) removed.push(part('shifter-pod', null, PART_MASSES.shifterPod));
    removed.push(part('cable-and-housing', null, PART_MASSES.cableAndHousing));
  }
  for (const teeth of input.oldRings) removed.push(part('old-ring', teeth, ringMass(teeth)));
  // Where the big ring has its circle to itself its bolts go back on; only those of a small ring beside it come off.
  const bolted = !input.direct && input.ringBolts;
  const newBolts = bolted && input.sharingRings !== 1;
  if (newBolts || (bolted && input.oldRings.length > 1))
    removed.push(part('old-bolts', null, PART_MASSES.ringBoltsOld));

  added.push(
    part(input.direct ? 'new-direct-ring' : 'new-ring', input.ringTeeth, newRingMass(input.ringTeeth, input.direct)),
  );
  if (newBolts) added.push(part('new-bolts', null, PART_MASSES.ringBoltsShort));

  const pitches = input.chainRemovedPitches ?? 0;
  if (pitches > 0) removed.push(part('chain', pitches, chainMass(pitches, input.speeds)));
  if (pitches < 0) added.push(part('chain', -pitches, chainMass(-pitches, input.speeds)));

  let [savedLowG, savedTypicalG, savedHighG] = [0, 0, 0];
  for (const each of removed) {
    savedLowG += each.lowG;
    savedTypicalG += each.typicalG;
    savedHighG += each.highG;
  }
  for (const each of added) {
    savedLowG -= each.highG;
    savedTypicalG -= each.typicalG;
    savedHighG -= each.lowG;
  }
  return {
    removed,
    added,
    savedLowG: tenth(savedLowG),
    savedTypicalG: tenth(savedTypicalG),
    savedHighG: tenth(savedHighG),
  };
}
