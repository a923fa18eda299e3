import { SMALLEST_USUAL_DIRECT } from '../tables/direct-mount.ts';
import type { Circle } from './bolt-circle.ts';
import type { CassetteProblem } from './derailleur.ts';
import { boltMarginMm, ringSeat, type SmallestRing, smallestRing } from './smallest-ring.ts';

/** Why a ring fits only with a condition, or not at all. Lengths in millimetres. */
export type FitReason =
  | CassetteProblem
  | { readonly kind: 'odd-count' }
  | { readonly kind: 'drive-unit'; readonly certain: boolean }
  | { readonly kind: 'riveted' }
  | { readonly kind: 'no-room-for-bolts'; readonly valleyMm: number; readonly bcdMm: number }
  | { readonly kind: 'special-ring-only'; readonly bcdMm: number }
  | { readonly kind: 'below-printed'; readonly smallestTeeth: number; readonly marginMm: number }
  | { readonly kind: 'uneven-pattern'; readonly bcdMm: number }
  | { readonly kind: 'inner-circle'; readonly bcdMm: number; readonly outerMm: readonly number[] }
  | { readonly kind: 'depends-on-circle'; readonly circles: readonly Circle[]; readonly special: boolean }
  | { readonly kind: 'no-usual-circle' }
  | { readonly kind: 'circle-unknown' }
  | { readonly kind: 'own-interface' }
  | { readonly kind: 'small-for-direct'; readonly usualTeeth: number }
  | { readonly kind: 'frame-room'; readonly maxRingTeeth: number; readonly acrossTeeth: number }
  | { readonly kind: 'larger-than-today'; readonly largestRingTeeth: number };

/** How a ring fits, with the reasons as facts: the words for them are the card's. */
export type FitJudgement = { readonly fit: 'fits' | 'check' | 'no'; readonly reasons: readonly FitReason[] };

/** Whether a motor sits at the cranks: it does, or it may because an assist is told and not where. */
export type DriveUnit = 'certain' | 'possible' | null;

type Crank = {
  readonly mount: 'bolted' | 'direct' | 'riveted' | null;
  readonly driveUnit: DriveUnit;
  /** One circle, or several it may be; empty when nothing at all is known. */
  readonly circles: readonly Circle[];
  /** Whether the circles come from the crank itself, so that one of them it is, or are only usual. */
  readonly circlesAre: 'measured' | 'usual';
  readonly unevenPattern: boolean;
  /** Outer circles the same crank has, when the told one is an inner circle. */
  readonly outerCirclesMm: readonly number[];
  readonly maxRingTeeth: number | null;
  readonly ovalityPct: number | null;
  readonly largestRingTeeth: number | null;
  readonly cassetteProblems: readonly CassetteProblem[];
};

/**
 * Prepares the judgement of single rings on one bike: for each size whether it fits, needs a check or cannot be.
 *
 * fits when the circle takes it, the frame has room for teeth · (1 + ovality/2), and the derailleur takes the cassette
 *
 * Valid for rings of 18 to 70 teeth. An unknown circle never gives more than a check; an odd count never fits, because
 * wide and narrow teeth alternate. At a motor in the cranks its maker's list decides, so nothing simply fits. Agrees
 * with the printed smallest rings of every circle in the table.
 *
 * @param crank `mount`, `driveUnit` [—]; `circles` with `bcdMm` [mm] and `bolts` [1]; `maxRingTeeth`, `largestRingTeeth` [1]; `ovalityPct` [%]
 * @returns [—] a function of the ring's teeth [1] that gives the fit and its reasons, lengths in [mm]
 * @example ringFit({ mount: 'bolted', driveUnit: null, circles: [{ bcdMm: 104, bolts: 4 }], circlesAre: 'measured', unevenPattern: false, outerCirclesMm: [], maxRingTeeth: null, ovalityPct: null, largestRingTeeth: 36, cassetteProblems: [] })(26).fit // "no"
 * @see BrownBCD, crib sheet, smallest rings
 */
export function ringFit(crank: Crank): (teeth: number) => FitJudgement {
  const seats = crank.circles.map((circle) => ({ circle, smallest: smallestRing(circle) }));
  const stated = crank.cassetteProblems.filter((each) => each.kind !== 'cage-over');
  const typical = crank.cassetteProblems.filter((each) => each.kind === 'cage-over');
  const oval = 1 + (crank.ovalityPct ?? 0) / 200;
  return (teeth) => {
    // A cage told by a word has only a typical capacity: reason to look closer, not to refuse.
    const no: FitReason[] = stated.slice();
    const check: FitReason[] = typical.slice();
    const note: FitReason[] = [];
    if (crank.driveUnit !== null) check.push({ kind: 'drive-unit', certain: crank.driveUnit === 'certain' });
    if (teeth % 2 !== 0) no.push({ kind: 'odd-count' });

    if (crank.mount === 'riveted') no.push({ kind: 'riveted' });
    else if (crank.mount === 'direct') {
      const usualTeeth = SMALLEST_USUAL_DIRECT.teeth;
      if (teeth < usualTeeth) check.push({ kind: 'small-for-direct', usualTeeth });
      note.push({ kind: 'own-interface' });
    } else if (crank.driveUnit !== 'certain' || crank.circles.length > 0) seatOn(crank, seats, teeth, no, check);

    const acrossTeeth = teeth * oval;
    const { maxRingTeeth, largestRingTeeth } = crank;
    if (maxRingTeeth !== null) {
      if (acrossTeeth > maxRingTeeth) no.push({ kind: 'frame-room', maxRingTeeth, acrossTeeth });
    } else if (largestRingTeeth !== null && acrossTeeth > largestRingTeeth) {
      note.push({ kind: 'larger-than-today', largestRingTeeth });
    }
    if (no.length > 0) return { fit: 'no', reasons: no };
    return { fit: check.length > 0 ? 'check' : 'fits', reasons: [...check, ...note] };
  };
}

type SeatOfCircle = { readonly circle: Circle; readonly smallest: SmallestRing };

function seatOn(
  crank: Crank,
  seats: readonly SeatOfCircle[],
  teeth: number,
  no: FitReason[],
  check: FitReason[],
): void {
  const [first] = seats;
  if (first === undefined) {
    check.push({ kind: 'circle-unknown' });
    return;
  }
  const ordinary: Circle[] = [];
  const special: Circle[] = [];
  for (const { circle, smallest } of seats) {
    const seat = ringSeat(teeth, circle.bcdMm, smallest.teeth);
    if (seat === 'ordinary') ordinary.push(circle);
    else if (seat !== 'impossible') special.push(circle);
  }

  if (crank.circlesAre === 'usual') {
    if (ordinary.length > 0) check.push({ kind: 'depends-on-circle', circles: ordinary, special: false });
    else if (special.length > 0) check.push({ kind: 'depends-on-circle', circles: special, special: true });
    else no.push({ kind: 'no-usual-circle' });
    return;
  }

  const { bcdMm } = first.circle;
  if (ordinary.length + special.length === 0) {
    // With several circles the largest margin is the best the ring can hope for, and even that is too little.
    const easiestMm = Math.min(...seats.map((each) => each.circle.bcdMm));
    no.push({ kind: 'no-room-for-bolts', valleyMm: boltMarginMm(teeth, 0), bcdMm: easiestMm });
  } else if (ordinary.length === seats.length) {
    // Nothing to say: it sits like any ring.
  } else if (sameCircle(seats)) {
    const marginMm = boltMarginMm(teeth, bcdMm);
    const seat = ringSeat(teeth, bcdMm, first.smallest.teeth);
    if (seat === 'below-printed') {
      check.push({ kind: 'below-printed', smallestTeeth: first.smallest.teeth, marginMm });
    } else check.push({ kind: 'special-ring-only', bcdMm });
  } else if (ordinary.length > 0) check.push({ kind: 'depends-on-circle', circles: ordinary, special: false });
  else check.push({ kind: 'depends-on-circle', circles: special, special: true });

  if (crank.unevenPattern) check.push({ kind: 'uneven-pattern', bcdMm });
  if (crank.outerCirclesMm.length > 0) check.push({ kind: 'inner-circle', bcdMm, outerMm: crank.outerCirclesMm });
}

/** Several seats of one diameter differ in the number of bolts only. */
function sameCircle(seats: readonly SeatOfCircle[]): boolean {
  return seats.every((each) => each.circle.bcdMm === seats[0]?.circle.bcdMm);
}
