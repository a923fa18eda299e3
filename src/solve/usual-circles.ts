import { BOLT_CIRCLES } from '../tables/bolt-circles.ts';
import type { ListedCircle } from './bolt-circle.ts';
import { smallestRing } from './smallest-ring.ts';

/** Circles worth offering to somebody who has not measured, with the ring sizes they are usual for, largest first. */
const USUAL = BOLT_CIRCLES.flatMap(({ bcdMm, bolts, usualLargestTeeth }) =>
  usualLargestTeeth === null
    ? []
    : [
        {
          circle: { bcdMm, bolts } as ListedCircle,
          smallestTeeth: smallestRing({ bcdMm, bolts }).teeth,
          usualLargestTeeth,
        },
      ],
).sort((a, b) => b.circle.bcdMm - a.circle.bcdMm);

/**
 * Circles that are usual on cranks whose largest ring has a given size: what is possible as long as nobody has measured.
 *
 * smallest ring ≤ least ring on the outer circle; largest ring of today ≤ usual largest ring
 *
 * Valid as a list to choose from, never as an answer: rarer circles are left out, and a measured gap overrides it. The
 * smallest ring is the printed one; the usual largest is common practice.
 *
 * @param input `largestRingTeeth` largest ring fitted today [1] or null, `outerLeastTeeth` smallest of today's rings known to share the outer circle [1] or null; `bolts` number of bolts [1] or null
 * @returns [—] circles as `bcdMm` [mm] and `bolts` [1], largest first
 * @example usualCircles({ largestRingTeeth: 53, outerLeastTeeth: null, bolts: 5 }) // [{"bcdMm":130,"bolts":5},{"bcdMm":110,"bolts":5}]
 * @example usualCircles({ largestRingTeeth: 44, outerLeastTeeth: 32, bolts: 4 }) // [{"bcdMm":104,"bolts":4}]
 * @see common practice
 */
export function usualCircles(input: {
  readonly largestRingTeeth: number | null;
  readonly outerLeastTeeth: number | null;
  readonly bolts: number | null;
}): readonly ListedCircle[] {
  const { largestRingTeeth: largest, bolts } = input;
  const least = input.outerLeastTeeth ?? largest;
  return USUAL.filter(
    (each) =>
      (bolts === null || each.circle.bolts === bolts) &&
      (least === null || each.smallestTeeth <= least) &&
      (largest === null || largest <= each.usualLargestTeeth),
  ).map((each) => each.circle);
}
