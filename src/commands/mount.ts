import type { Bike } from '../bike/bike.ts';
import type { Assumption, Question } from '../bike/reading.ts';
import type { SettledBike } from '../bike/settled.ts';
import { driveUnitQuestion } from '../card/assist.ts';
import { boltStackFigure } from '../card/bolt-stack-figure.ts';
import { fitReasonWords } from '../card/fit-reasons.ts';
import { type MountFacts, mountBlocks, mountHeadline, mountLines } from '../card/mount.ts';
import { boltsQuestion, circleQuestion, sharingQuestion, unevenGapsQuestion } from '../card/mount-questions.ts';
import { type Circle, listedBolts, outerCirclesMm } from '../solve/bolt-circle.ts';
import type { CrankCircle } from '../solve/crank-circle.ts';
import { derailleurVerdict } from '../solve/derailleur.ts';
import { boltStack, ringsSharing, type SharingRings } from '../solve/ring-bolts.ts';
import { type FitReason, ringFit } from '../solve/ring-fit.ts';
import type { RingFit } from '../solve/ring-options.ts';
import { smallestRing } from '../solve/smallest-ring.ts';
import type { MountPart } from './answer.ts';
import type { Command, Outcome } from './command.ts';
import { driveParts, driveUnitOf } from './drive-parts.ts';
import { assumptionsOf, candidatesOf, circleOf, isUneven, sharingAssumed } from './mount-circle.ts';

/** Judges one ring size on one bike: whether it fits, and why not or only with a check, in words. */
export type FitOf = (teeth: number) => RingFit;

/** Everything the plan needs of how the ring is held. */
export type MountFindings = {
  readonly part: MountPart;
  readonly facts: MountFacts;
  readonly fitOf: FitOf;
  readonly assumed: readonly Assumption[];
  /** The most telling first. */
  readonly asks: readonly Question[];
};

function mountOf(bike: SettledBike): MountPart['mount'] {
  // How a motor holds its ring is asked, a told circle or not.
  if (bike.mount !== undefined || bike.assist === 'mid-drive') return bike.mount ?? null;
  return bike.bcdMm !== undefined || bike.gapsMm !== undefined || bike.bolts !== undefined ? 'bolted' : null;
}

/** Only where several rings are fitted can a small circle be the wrong one of two. */
function outerOf(bike: SettledBike, circle: Circle): readonly number[] {
  return (bike.rings?.length ?? 0) > 1 ? outerCirclesMm(circle) : [];
}

/** Fit of every ring on this bike if its bolt circle were this one; for laying candidates side by side. */
export function fitOnCircle(bike: SettledBike, circle: Circle): FitOf {
  return fitWith(bike, 'bolted', [circle], 'measured', false, []);
}

function fitWith(
  bike: SettledBike,
  mount: MountPart['mount'],
  circles: readonly Circle[],
  circlesAre: 'measured' | 'usual',
  unevenPattern: boolean,
  outerMm: readonly number[],
): FitOf {
  const cassette = bike.newCassette ?? bike.cassette;
  const verdict = cassette && derailleurVerdict(cassette, limitsOf(bike));
  const judge = ringFit({
    mount,
    driveUnit: driveUnitOf(bike),
    circles,
    circlesAre,
    unevenPattern,
    outerCirclesMm: outerMm,
    maxRingTeeth: bike.maxRingTeeth ?? null,
    ovalityPct: bike.ovalityPct ?? null,
    largestRingTeeth: bike.rings?.[0] ?? null,
    cassetteProblems: verdict?.problems ?? [],
  });
  // The circles that take a ring only become more with its teeth, so their number tells which they are; the phrase is
  // the longest of all and most sizes share it.
  const phrases = new Map<number, string>();
  const wordsOf = (teeth: number, reason: FitReason): string => {
    if (reason.kind !== 'depends-on-circle' || reason.special) return fitReasonWords(teeth, reason);
    const known = phrases.get(reason.circles.length);
    if (known !== undefined) return known;
    const phrase = fitReasonWords(teeth, reason);
    phrases.set(reason.circles.length, phrase);
    return phrase;
  };
  return (teeth) => {
    const { fit, reasons } = judge(teeth);
    return { fit, reasons: reasons.map((reason) => wordsOf(teeth, reason)) };
  };
}

/** What the rider told of the rear derailleur's limits. */
export function limitsOf(bike: SettledBike) {
  return {
    capacityTeeth: bike.capacityTeeth ?? null,
    maxSprocketTeeth: bike.maxSprocketTeeth ?? null,
    minSprocketTeeth: bike.minSprocketTeeth ?? null,
    cage: bike.cage ?? null,
  };
}

function sharingOf(bike: Bike, circle: CrankCircle): SharingRings {
  const known = circle.kind === 'found' ? { bcdMm: circle.bcdMm, bolts: circle.bolts } : null;
  return ringsSharing({
    sharingRings: bike.sharingRings ?? null,
    rings: bike.rings ?? null,
    circle: known,
    isInner: known !== null && outerCirclesMm(known).length > 0,
  });
}

function stackOf(bike: SettledBike): MountPart['stack'] {
  const { ringTabMm, spiderTabMm, sleeveMm = null, boltMaterial: material = null } = bike;
  if (ringTabMm === undefined || spiderTabMm === undefined) return null;
  return { ...boltStack({ ringTabMm, spiderTabMm, sleeveMm, material }), sleeveMm };
}

/** How many rings the ring bolts hold today, null where it is neither told nor to be seen from the sizes. */
export function ringsOnBolts(bike: Bike): { readonly rings: number | null; readonly assumed: readonly Assumption[] } {
  const sharing = sharingOf(bike, circleOf(bike));
  return { rings: sharing.kind === 'found' ? sharing.rings : null, assumed: sharingAssumed(sharing) };
}

function asksOf(bike: SettledBike, circle: CrankCircle, sharing: SharingRings): readonly Question[] {
  const asks: Question[] = [];
  if (bike.assist === 'mid-drive') return bike.mount === undefined ? [driveUnitQuestion()] : [];
  if (circle.kind === 'cannot') asks.push(circleQuestion(circle));
  else {
    const listed = listedBolts(circle.bcdMm);
    const unlisted = circle.bolts !== null && listed.length > 0 && !listed.includes(circle.bolts);
    if (unlisted) asks.push(boltsQuestion(circle.bcdMm, circle.bolts, listed));
  }
  if (isUneven(circle) && bike.gapsMm?.length !== 2) asks.push(unevenGapsQuestion());
  if (sharing.kind === 'cannot') asks.push(sharingQuestion(bike.rings?.length ?? 2));
  if (circle.kind === 'found' && circle.bolts === null && circle.circles.length > 1) {
    asks.push(boltsQuestion(circle.bcdMm, null, listedBolts(circle.bcdMm)));
  }
  return asks;
}

const NO_CIRCLE: CrankCircle = { kind: 'cannot', reason: 'unknown', circles: [], computed: [] };

function withoutBolts(bike: SettledBike, mount: 'direct' | 'riveted'): MountFindings {
  const part: MountPart = {
    mount,
    driveUnit: driveUnitOf(bike),
    bcdMm: null,
    innerBcdMm: null,
    bolts: null,
    bcdFrom: null,
    candidates: [],
    unevenPattern: false,
    smallestTeeth: null,
    smallestEvenTeeth: null,
    smallestSpecialEvenTeeth: null,
    smallestFrom: null,
    marginMm: null,
    boltAdvice: 'ask',
    spacerMm: null,
    stack: null,
  };
  return {
    part,
    facts: { circle: NO_CIRCLE, sharing: { kind: 'cannot', reason: 'not-told' } },
    fitOf: fitWith(bike, mount, [], 'usual', false, []),
    assumed: [],
    asks: [],
  };
}

/** How the ring is held on this bike: circle, smallest ring, bolts, and the fit of any ring. */
export function mountPart(bike: SettledBike): MountFindings {
  const mount = mountOf(bike);
  if (mount === 'direct' || mount === 'riveted') return withoutBolts(bike, mount);
  const driveUnit = driveUnitOf(bike);
  const seen = circleOf(bike);
  // Circles usual on ordinary cranks say nothing of a motor's.
  const circle = driveUnit === 'certain' && seen.kind === 'cannot' ? { ...seen, circles: [], computed: [] } : seen;
  const sharing = sharingOf(bike, circle);
  const found = circle.kind === 'found' ? circle : null;
  const smallest = found && smallestRing({ bcdMm: found.bcdMm, bolts: found.bolts });
  const boltAdvice =
    sharing.kind === 'cannot' || driveUnit === 'certain' ? 'ask' : sharing.rings === 1 ? 'reuse' : 'shorter-or-spacer';
  const unevenPattern = isUneven(circle);
  const part: MountPart = {
    mount,
    driveUnit,
    bcdMm: found?.bcdMm ?? null,
    innerBcdMm: bike.innerBcdMm ?? null,
    bolts: found?.bolts ?? bike.bolts ?? null,
    bcdFrom: found?.from ?? null,
    candidates: candidatesOf(circle),
    unevenPattern,
    smallestTeeth: smallest?.teeth ?? null,
    smallestEvenTeeth: smallest?.evenTeeth ?? null,
    smallestSpecialEvenTeeth: smallest?.specialEvenTeeth ?? null,
    smallestFrom: smallest?.from ?? null,
    marginMm: smallest?.marginMm ?? null,
    boltAdvice,
    spacerMm: boltAdvice === 'shorter-or-spacer' ? (bike.ringTabMm ?? null) : null,
    stack: stackOf(bike),
  };
  const measured = circle.kind === 'found' || circle.reason === 'several';
  const outerMm = found === null ? [] : outerOf(bike, { bcdMm: found.bcdMm, bolts: found.bolts });
  return {
    part,
    facts: { circle, sharing },
    fitOf: fitWith(bike, mount, circle.circles, measured ? 'measured' : 'usual', unevenPattern, outerMm),
    assumed: driveUnit === 'certain' ? [] : assumptionsOf(circle, sharing),
    asks: asksOf(bike, circle, sharing),
  };
}

/** A wanted ring that does not simply fit comes before everything else. */
function headline(findings: MountFindings, ringTeeth: number | null): string {
  const usual = mountHeadline(findings.part, findings.facts);
  if (ringTeeth === null || findings.part.smallestEvenTeeth === null) return usual;
  const { fit, reasons } = findings.fitOf(ringTeeth);
  const [reason] = reasons;
  if (fit === 'fits' || reason === undefined) return usual;
  const named = reason.startsWith(`${ringTeeth}T`) ? reason : `${ringTeeth}T: ${reason}`;
  const whole = `${named}. Smallest even ring: ${findings.part.smallestEvenTeeth}T.`;
  return whole.length <= 120 ? whole : `${named}.`;
}

function answer(bike: SettledBike): Outcome {
  const findings = mountPart(bike);
  const { part, facts, assumed, asks } = findings;
  const ringTeeth = bike.ringTeeth ?? null;
  const figure = boltStackFigure(part.stack, bike);
  const drive = driveParts(bike);
  const words = {
    answer: headline(findings, ringTeeth),
    lines: mountLines(part, facts),
    blocks: [
      ...drive.cautions,
      ...mountBlocks(part, facts, bike, ringTeeth),
      ...(figure === null ? [] : [figure]),
      ...drive.notes,
    ],
  };
  const allAsks = [...drive.asks, ...asks];
  if (part.mount === null && bike.rings === undefined) return { kind: 'asks', words, asks: allAsks };
  return { kind: 'answered', answer: { mount: part, ...drive.parts }, words, assumed, asks: allAsks };
}

export const mount: Command = {
  name: 'mount',
  summary: 'Bolt circle, the smallest ring it takes, and whether the old bolts can be used again',
  keys: [
    'bcd',
    'bolts',
    'gap',
    'pattern',
    'innerbcd',
    'sharing',
    'rings',
    'ring',
    'mount',
    'maxring',
    'ringtab',
    'spidertab',
    'sleeve',
    'oval',
    'cassette',
    'newcassette',
    'maxcog',
    'mincog',
    'capacity',
    'cage',
    'assist',
    'tandem',
    'boltmaterial',
  ],
  examples: ['rings=36/22 bcd=104 bolts=4 ring=32', 'rings=50/34 bolts=5 gap=64.7mm sharing=2'],
  answer,
};
