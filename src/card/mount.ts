import type { SettledBike } from '../bike/settled.ts';
import type { BoltCircleCandidate, MountPart } from '../commands/answer.ts';
import {
  holeSpacingMm,
  innerCirclesMm,
  nextButOneSpacingMm,
  otherGapMm,
  outerCirclesMm,
} from '../solve/bolt-circle.ts';
import type { CrankCircle } from '../solve/crank-circle.ts';
import type { SharingRings } from '../solve/ring-bolts.ts';
import { ringSeat } from '../solve/smallest-ring.ts';
import { BOLT_CIRCLES, UNEVEN_PATTERNS } from '../tables/bolt-circles.ts';
import { SCREW_INTERFACES } from '../tables/direct-mount.ts';
import { OVAL_FACTS } from '../tables/oval-rings.ts';
import type { Block, CautionBlock, ChecklistBlock, TableBlock, TextBlock } from './card.ts';
import { circleName, diameters, orList } from './fit-reasons.ts';
import { fittedRingCautions } from './fitted-ring.ts';
import { length, plain } from './measures.ts';
import { boltBlocks, boltLine, SHIFTING_RING } from './mount-bolts.ts';
import { mountWorking } from './mount-working.ts';

/** What the words need besides the machine-readable part. */
export type MountFacts = {
  readonly circle: CrankCircle;
  readonly sharing: SharingRings;
};

const MEASURE: ChecklistBlock = {
  kind: 'checklist',
  section: 'mount',
  title: 'Measuring the bolt circle',
  items: [
    { text: 'Look at the back of the ring: the figure is often stamped there.' },
    { text: 'Four bolts: one hole to the opposite one, same edge to same edge, is the circle.' },
    {
      text: 'Else: one hole to its neighbour, same edge to same edge: gap=64.7mm and bolts=5.',
      detail: 'Times 1.155 with 3 holes, 1.414 with 4, 1.701 with 5.',
    },
    {
      text: 'Measure a second pair beside it: gap=64.7/64.7.',
      detail: 'Two different gaps mean an uneven pattern.',
    },
  ],
};

const DRIVE_UNIT_LINES = [
  'On its splines, under a lockring, or on a spider of its own: look, or ask its maker.',
  'Nothing is taken for granted here: no bolt circle, no bolts and no torque of ordinary cranks.',
  "What fits is on the drive unit maker's list, by model.",
];

const MIXED_SPIDERS: CautionBlock = {
  kind: 'caution',
  section: 'mount',
  level: 'care',
  text: "Uneven spiders do not mix: a ring for even holes, or for another maker's uneven ones, does not go on, though the figure on it is the same. Ask the crank's maker for the name of its pattern.",
};

const DIRECT_LINES = [
  'The ring sits on the crank itself, on splines or screws.',
  'Interfaces do not interchange: look for the name on the crank, or take the ring along.',
  `${orList(SCREW_INTERFACES.map((row) => `${row.screws}`))} screws are two different patterns.`,
];

const RIVETED_LINES = [
  'The plan is a new crank, made for a single ring, on an axle that fits the frame.',
  'Tell its bolt circle instead of "riveted" (or mount=direct), and the rest follows.',
];

const OVAL: TextBlock = {
  kind: 'text',
  section: 'mount',
  title: 'Oval ring',
  lines: [OVAL_FACTS.clocking.fact, OVAL_FACTS.secondHand.fact, OVAL_FACTS.nominal.fact],
};

/** The answer in one line, complete on its own. */
export function mountHeadline(part: MountPart, facts: MountFacts): string {
  const held = heldLine(part, facts);
  if (facts.circle.kind !== 'found' || part.driveUnit === 'certain' || part.boltAdvice === 'ask') return held;
  return `${held} The old bolts ${part.boltAdvice === 'reuse' ? 'can be used again' : 'are too long for one ring'}.`;
}

/** How the ring is held, and the smallest it takes; the bolts have a line of their own. */
function heldLine(part: MountPart, facts: MountFacts): string {
  if (part.driveUnit === 'certain') return 'A motor holds this ring its own way: its maker says which rings fit.';
  if (part.mount === 'riveted') return 'Riveted rings do not come apart: a single ring needs a new crank.';
  if (part.mount === 'direct') return "Direct mount: no bolt circle. Find the crank's interface and the ring's offset.";
  const { circle } = facts;
  if (circle.kind === 'found') {
    const name = circleName({ bcdMm: circle.bcdMm, bolts: circle.bolts });
    if (circle.uneven) return `${name}, uneven holes: narrow-wide from ${part.smallestEvenTeeth}T up.`;
    return `${name}: the smallest even ring is ${part.smallestEvenTeeth}T.`;
  }
  switch (circle.reason) {
    case 'unknown':
      return 'Bolt circle unknown: read it off the back of a ring, or measure the gap between two bolts.';
    case 'several':
      return `This gap can be ${diameters(circle.circles)}: measure again, or read the stamp on the ring.`;
    case 'told-is-a-gap':
      return `No circle has that figure; as the gap between neighbouring bolts it is ${diameters(circle.circles)}.`;
    case 'uneven-pattern':
      return 'The two gaps differ: an uneven hole pattern, and the label alone does not promise a fit.';
    case 'uneven-label-unknown':
      return 'Uneven holes: one gap does not give the circle. Read the stamp, or measure opposite holes.';
    case 'told-and-gap-disagree':
      return 'The bolt circle and the measured gap do not belong together: one of the two is misread.';
    case 'no-listed-circle': {
      const sums = circle.computed.map((each) => `${plain(each.bcdMm, 1)} mm on ${each.bolts} bolts`);
      return `No listed circle has this gap; it would make ${orList(sums)}. Measure again.`;
    }
  }
}

function smallestLine(part: MountPart): string {
  const margin = plain(part.marginMm ?? 0, 1);
  return part.smallestFrom === 'table'
    ? `Smallest ring as printed: ${part.smallestTeeth}T, with ${margin} mm between bolts and valleys.`
    : `No smallest ring is printed; by geometry ${part.smallestTeeth}T, with ${margin} mm between bolts and valleys.`;
}

/** The few facts that matter most; at most five. */
export function mountLines(part: MountPart, facts: MountFacts): readonly string[] {
  if (part.driveUnit === 'certain') return driveUnitLines(part, facts);
  if (part.mount === 'riveted') return RIVETED_LINES;
  if (part.mount === 'direct') return DIRECT_LINES;
  const { circle, sharing } = facts;
  if (circle.kind === 'cannot') {
    const lines = [boltLine(part, sharing)];
    if (circle.circles.length > 0) lines.unshift(`Possible: ${diameters(circle.circles)}. Confirm before you buy.`);
    return lines;
  }
  const lines = [smallestLine(part)];
  if (part.smallestSpecialEvenTeeth !== null) {
    const seat = ringSeat(part.smallestSpecialEvenTeeth, circle.bcdMm, part.smallestTeeth ?? 0);
    lines.push(
      seat === 'special'
        ? `${part.smallestSpecialEvenTeeth}T only as a special ring, with its own threads or raised tabs.`
        : `${part.smallestSpecialEvenTeeth}T is below what is printed, though there is room: measure first.`,
    );
  }
  lines.push(boltLine(part, sharing));
  if (part.unevenPattern) lines.push("Uneven pattern: buy the ring for this crank's own pattern.");
  else if (circle.near) lines.push('The gap is a little off the listed one: measure it again before you buy.');
  else if (!isListed(circle)) {
    const name = circleName({ bcdMm: circle.bcdMm, bolts: circle.bolts });
    lines.push(`${name}: no listed crank has that. Read it off or measure it again before you buy.`);
  }
  if (part.innerBcdMm !== null) {
    const both = `${plain(circle.bcdMm, 1)}/${plain(part.innerBcdMm, 1)}`;
    lines.push(`Two circles, ${both}: the single ring goes on the outer one; the inner holes stay empty.`);
    return lines;
  }
  const outer = outerCirclesMm(circle);
  const inner = innerCirclesMm(circle);
  if (outer.length > 0) {
    const both = outer.map((mm) => `${mm}/${circle.bcdMm}`);
    lines.push(`On a ${orList(both)} crank this is the inner circle: the single ring goes on the outer one.`);
  } else if (inner.length > 0) {
    lines.push(`If the crank has an inner circle too (${inner.join(', ')} mm), it stays empty.`);
  }
  return lines;
}

function isListed({ bcdMm, bolts }: Extract<CrankCircle, { kind: 'found' }>): boolean {
  return BOLT_CIRCLES.some((row) => row.bcdMm === bcdMm && (bolts === null || row.bolts === bolts));
}

function driveUnitLines(part: MountPart, { circle }: MountFacts): readonly string[] {
  if (part.mount === 'direct' || circle.kind === 'cannot') return DRIVE_UNIT_LINES;
  const name = circleName({ bcdMm: circle.bcdMm, bolts: circle.bolts });
  return [...DRIVE_UNIT_LINES, `By geometry ${name} takes ${part.smallestEvenTeeth}T and up, if its maker lists them.`];
}

/** What the inner holes of a crank with two circles are for. */
function innerText(innerMm: number): TextBlock {
  return {
    kind: 'text',
    section: 'mount',
    title: 'The inner circle',
    lines: [
      `The ${plain(innerMm, 1)} mm holes carried the smallest ring. It comes off; take its bolts out as well.`,
      'Many screw straight into the arm, without a sleeve: they do not fit the outer circle.',
      'Leave the holes empty. A single ring on them sits far in, and few sizes exist for it.',
    ],
  };
}

/** What two gaps of an uneven pattern come to; a spacing by equal angles would be wrong there. */
function unevenCheck({ bcdMm, bolts }: Extract<CrankCircle, { kind: 'found' }>, gapsMm: readonly number[]): TextBlock {
  const [gapMm] = gapsMm;
  const other = bolts === 4 && gapMm !== undefined && gapsMm.length === 1 ? otherGapMm(bcdMm, gapMm) : null;
  // An odd count of arms has no hole opposite another.
  const label = bolts !== null && bolts % 2 !== 0 ? 'Told circle' : 'Opposite holes';
  const lines = [`${label}: ${length(bcdMm)}. Neighbouring holes are not all as far apart.`];
  if (other !== null && gapMm !== undefined) {
    lines.push(`Beside a gap of ${length(gapMm)} the other should measure ${length(other)}.`);
  }
  lines.push('Only a ring for that very pattern fits: compare both gaps before you buy.');
  return { kind: 'text', section: 'mount', title: 'Check the pattern', lines };
}

/** How to check a circle with a tape; nothing where neither the bolts nor the circle say what to measure. */
function checkTexts(
  circle: Extract<CrankCircle, { kind: 'found' }>,
  pattern: SettledBike['pattern'],
): readonly TextBlock[] {
  const { bcdMm, bolts } = circle;
  const lines: string[] = [];
  if (bolts !== null) {
    lines.push(`Neighbouring holes are ${length(holeSpacingMm(bcdMm, bolts))} apart, centre to centre.`);
    if (bolts === 5) lines.push(`With one between them: ${length(nextButOneSpacingMm(bcdMm, bolts))}.`);
    if (bolts === 4) lines.push(`Opposite holes: ${length(bcdMm)}.`);
  }
  if (pattern === undefined && UNEVEN_PATTERNS.some((row) => row.bcdMm === bcdMm && row.bolts === bolts)) {
    lines.push(
      `${plain(bcdMm, 1)} mm is also made with uneven arms: measure two neighbouring gaps.`,
      'If they differ, only a ring for that very pattern fits.',
    );
  }
  return lines.length === 0 ? [] : [{ kind: 'text', section: 'mount', title: 'Check the circle', lines }];
}

function candidateTable(candidates: readonly BoltCircleCandidate[]): TableBlock {
  const planned = candidates.some((each) => each.recommendedTeeth !== null);
  return {
    kind: 'table',
    section: 'mount',
    title: 'Circles it may be: confirm first',
    columns: ['Circle', 'Bolts', 'Gap', 'Smallest', ...(planned ? ['Best ring'] : [])],
    rows: candidates.map((each) => [
      `${plain(each.bcdMm, 1)} mm`,
      `${each.bolts}`,
      each.spacingMm === null ? 'uneven' : `${plain(each.spacingMm, 1)} mm`,
      `${each.smallestEvenTeeth}T`,
      ...(planned ? [each.recommendedTeeth === null ? 'none' : `${each.recommendedTeeth}T`] : []),
    ]),
  };
}

/** Everything about how the ring is held beyond headline and lines, cautions first; `ringTeeth` adds one ring's sums. */
export function mountBlocks(
  part: MountPart,
  facts: MountFacts,
  bike: SettledBike,
  ringTeeth: number | null,
): readonly Block[] {
  return blocksOf(part, facts, bike, ringTeeth, 'all');
}

/** How the ring is held as one section of a plan: each fact once, and how to measure left to whoever asks for it. */
export function mountSection(
  part: MountPart,
  facts: MountFacts,
  bike: SettledBike,
  ringTeeth: number | null,
): readonly Block[] {
  const held: TextBlock = {
    kind: 'text',
    section: 'mount',
    title: 'How the ring is held',
    lines: [heldLine(part, facts), ...mountLines(part, facts)],
  };
  return [held, ...blocksOf(part, facts, bike, ringTeeth, 'plan')];
}

function blocksOf(
  part: MountPart,
  facts: MountFacts,
  bike: SettledBike,
  ringTeeth: number | null,
  telling: 'all' | 'plan',
): readonly Block[] {
  const { circle } = facts;
  const oval = bike.ovalityPct !== undefined && bike.ovalityPct > 0 ? [OVAL] : [];
  const uneven = part.unevenPattern ? [MIXED_SPIDERS] : [];
  if (part.driveUnit === 'certain') return [SHIFTING_RING, ...uneven, ...oval];
  if (part.mount === 'riveted' || part.mount === 'direct') {
    return [SHIFTING_RING, ...(part.mount === 'direct' ? oval : [])];
  }
  const misread = telling === 'all' ? fittedRingCautions(part, bike, 'mount') : [];
  const blocks: Block[] = [...misread, ...uneven, ...boltBlocks(part, telling)];
  if (part.candidates.length > 0) blocks.push(candidateTable(part.candidates));
  if (circle.kind === 'found' && circle.uneven) blocks.push(unevenCheck(circle, bike.gapsMm ?? []));
  else if (circle.kind === 'found') blocks.push(...checkTexts(circle, bike.pattern));
  if (part.innerBcdMm !== null) blocks.push(innerText(part.innerBcdMm));
  const doubtful = circle.kind === 'cannot' || circle.near || circle.uneven;
  if (doubtful && telling === 'all') blocks.push(MEASURE);
  blocks.push(...oval);
  const steps = mountWorking(part, ringTeeth);
  if (steps.length > 0) blocks.push({ kind: 'working', section: 'mount', steps });
  return blocks;
}
