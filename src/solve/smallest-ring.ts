import { BOLT_CIRCLES, CIRCLE_RULES } from '../tables/bolt-circles.ts';
import { RING_BOLT } from '../tables/ring-bolts.ts';
import type { Circle } from './bolt-circle.ts';
import { rootDiameterMm } from './sprocket-diameters.ts';

const ORDINARY_MM = CIRCLE_RULES.ordinaryMargin.valueMm;
const SPECIAL_MM = CIRCLE_RULES.specialMargin.valueMm;
const LEAST_TEETH = 12;

/** Valley diameters by tooth count: every ring question asks for many of them. */
const VALLEYS_MM: readonly number[] = Array.from({ length: 101 }, (_, teeth) => rootDiameterMm(Math.max(teeth, 3)));

/**
 * Room for the bolts inside a ring's teeth.
 *
 * margin = root diameter − BCD
 *
 * Valid for 3 teeth and more; negative where the valleys lie inside the bolt circle. Agrees with the printed smallest
 * rings, which have 13.5 mm and more, and with 30 teeth on 104 mm as a special ring, which has 9.7.
 *
 * @param teeth teeth of the ring [1], 9 to 70
 * @param bcdMm bolt circle diameter [mm], over 0
 * @returns margin [mm]
 * @example boltMarginMm(32, 104) // 17.82
 * @see PlateWheel, dimension table, pitch and roller diameter
 */
export function boltMarginMm(teeth: number, bcdMm: number): number {
  return (VALLEYS_MM[teeth] ?? rootDiameterMm(teeth)) - bcdMm;
}

/**
 * Diameter over the heads of the ring bolts, which the chain has to clear.
 *
 * reach = BCD + head diameter
 *
 * Valid for heads 11 mm across; others run from 11 to 13. Agrees with the printed 141 mm on a 130 circle.
 *
 * @param bcdMm bolt circle diameter [mm], over 0
 * @returns diameter over the bolt heads [mm]
 * @example headReachMm(130) // 141
 * @see VeloFAQ, 36 teeth on a 130 circle
 */
export function headReachMm(bcdMm: number): number {
  return bcdMm + RING_BOLT.head.valueMm;
}

/** The smallest rings a circle takes. */
export type SmallestRing = {
  readonly teeth: number;
  readonly evenTeeth: number;
  /** The smallest even ring that goes on as a special ring only; null where there is none below `evenTeeth`. */
  readonly specialEvenTeeth: number | null;
  readonly from: 'table' | 'geometry';
  readonly marginMm: number;
};

/**
 * The smallest ring a bolt circle takes, from the printed table where it has the circle, else from geometry.
 *
 * root diameter − BCD ≥ 14 mm, or ≥ 9.5 mm for a ring with threads of its own or raised tabs
 *
 * Valid for circles of 50 to 160 mm. Agrees with the printed smallest rings to one tooth, except on 122 and 146 mm,
 * where two more are printed than geometry asks for; where they differ the table wins.
 *
 * @param circle `bcdMm` [mm]; `bolts` number of bolts [1] or null, when the most cautious row counts
 * @returns [—] `teeth`, `evenTeeth`, `specialEvenTeeth` [1]; `from` table or geometry; `marginMm` [mm]
 * @example smallestRing({ bcdMm: 104, bolts: 4 }).specialEvenTeeth // 30
 * @example smallestRing({ bcdMm: 120, bolts: 4 }).evenTeeth // 36
 * @see BrownBCD, crib sheet, smallest rings
 */
export function smallestRing(circle: Circle): SmallestRing {
  let printed = 0;
  for (const row of BOLT_CIRCLES) {
    if (row.bcdMm !== circle.bcdMm || (circle.bolts !== null && row.bolts !== circle.bolts)) continue;
    printed = Math.max(printed, row.smallestTeeth ?? 0);
  }
  const teeth = printed > 0 ? printed : leastTeeth(circle.bcdMm, ORDINARY_MM);
  const evenTeeth = teeth + (teeth % 2);
  const special = leastTeeth(circle.bcdMm, SPECIAL_MM);
  const specialEvenTeeth = special + (special % 2);
  return {
    teeth,
    evenTeeth,
    specialEvenTeeth: specialEvenTeeth < evenTeeth ? specialEvenTeeth : null,
    from: printed > 0 ? 'table' : 'geometry',
    marginMm: boltMarginMm(teeth, circle.bcdMm),
  };
}

/** How a ring sits on a circle: like every ring, below what is printed though there is room, as a special ring, or not. */
export type Seat = 'ordinary' | 'below-printed' | 'special' | 'impossible';

/**
 * How a ring of given size sits on a circle.
 *
 * ordinary from the smallest ring up; below it special from a margin of 9.5 mm; else impossible
 *
 * Valid for circles of 50 to 160 mm. Agrees with the magazine's 36 teeth on 130 mm: impossible.
 *
 * @param teeth teeth of the ring [1], 18 to 70
 * @param bcdMm bolt circle diameter [mm]
 * @param smallestTeeth the circle's smallest ring [1]
 * @returns [—] ordinary, below-printed, special or impossible
 * @example ringSeat(30, 104, 32) // "special"
 * @see VeloFAQ, 36 teeth on a 130 circle
 */
export function ringSeat(teeth: number, bcdMm: number, smallestTeeth: number): Seat {
  if (teeth >= smallestTeeth) return 'ordinary';
  const marginMm = boltMarginMm(teeth, bcdMm);
  if (marginMm >= ORDINARY_MM) return 'below-printed';
  return marginMm >= SPECIAL_MM ? 'special' : 'impossible';
}

function leastTeeth(bcdMm: number, marginMm: number): number {
  let teeth = LEAST_TEETH;
  while (boltMarginMm(teeth, bcdMm) < marginMm) teeth += 1;
  return teeth;
}
