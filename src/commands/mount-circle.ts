import type { Bike } from '../bike/bike.ts';
import type { Assumption } from '../bike/reading.ts';
import { holeSpacingMm, type ListedCircle } from '../solve/bolt-circle.ts';
import { type CrankCircle, crankCircle } from '../solve/crank-circle.ts';
import type { SharingRings } from '../solve/ring-bolts.ts';
import { smallestRing } from '../solve/smallest-ring.ts';
import type { BoltCircleCandidate } from './answer.ts';

/** What is known of the bolt circle of this bike's crank. */
export function circleOf(bike: Bike): CrankCircle {
  return crankCircle({
    bcdMm: bike.bcdMm ?? null,
    innerMm: bike.innerBcdMm ?? null,
    bolts: bike.bolts ?? null,
    gapsMm: bike.gapsMm ?? [],
    pattern: bike.pattern ?? null,
    largestRingTeeth: bike.rings?.[0] ?? null,
    // The two larger rings of a triple share the outer circle (common practice).
    outerLeastTeeth: bike.rings?.length === 3 ? (bike.rings[1] ?? null) : null,
  });
}

function candidateOf(circle: ListedCircle, isUneven: boolean): BoltCircleCandidate {
  const { teeth, evenTeeth } = smallestRing(circle);
  return {
    bcdMm: circle.bcdMm,
    bolts: circle.bolts,
    spacingMm: isUneven ? null : holeSpacingMm(circle.bcdMm, circle.bolts),
    smallestTeeth: teeth,
    smallestEvenTeeth: evenTeeth,
    recommendedTeeth: null,
  };
}

/** Whether its holes are not all equally far apart. */
export function isUneven(circle: CrankCircle): boolean {
  if (circle.kind === 'found') return circle.uneven;
  return circle.reason === 'uneven-pattern' || circle.reason === 'uneven-label-unknown';
}

/** Circles that are left possible, each with the smallest ring on it. */
export function candidatesOf(circle: CrankCircle): readonly BoltCircleCandidate[] {
  if (circle.kind === 'found' && circle.circles.length < 2) return [];
  return circle.circles.flatMap((each) =>
    each.bolts === null ? [] : [candidateOf({ bcdMm: each.bcdMm, bolts: each.bolts }, isUneven(circle))],
  );
}

/** What was taken for granted of how many rings the bolts hold. */
export function sharingAssumed(sharing: SharingRings): readonly Assumption[] {
  if (sharing.kind === 'cannot' || sharing.from === 'told') return [];
  const basis =
    sharing.from === 'one-ring'
      ? 'one ring is fitted'
      : 'a ring without room for these bolts has a circle of its own; the others share (common practice)';
  return [{ field: 'sharing', value: sharing.rings, basis }];
}

const BOLTS_FROM = {
  told: 'told',
  gap: 'from the measured gap',
  listed: 'the only count listed for this circle',
  pattern: 'uneven patterns are listed with four arms',
} as const;

/** What was taken for granted of the circle and its bolts. */
export function assumptionsOf(circle: CrankCircle, sharing: SharingRings): readonly Assumption[] {
  const assumed: Assumption[] = [];
  if (circle.kind === 'found' && circle.from === 'gap') {
    const basis = circle.near ? 'nearest listed circle to the measured gap' : 'listed circle of the measured gap';
    assumed.push({ field: 'bcd', value: circle.bcdMm, basis });
  }
  if (circle.kind === 'found' && circle.bolts !== null && circle.boltsFrom !== 'told') {
    const basis = BOLTS_FROM[circle.boltsFrom ?? 'listed'];
    assumed.push({ field: 'bolts', value: circle.bolts, basis });
  }
  assumed.push(...sharingAssumed(sharing));
  return assumed;
}
