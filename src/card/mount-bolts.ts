import type { MountPart } from '../commands/answer.ts';
import { type SharingRings, threadEngagement } from '../solve/ring-bolts.ts';
import { ENGAGEMENT, RING_BOLT, SINGLE_SLEEVES, TAB_THICKNESS } from '../tables/ring-bolts.ts';
import type { Block, CautionBlock, ChecklistBlock, TextBlock } from './card.ts';
import { orList } from './fit-reasons.ts';
import { length, plain } from './measures.ts';

const RING_TAB = `${plain(TAB_THICKNESS.ringTab.lowMm, 1)}–${plain(TAB_THICKNESS.ringTab.highMm, 1)} mm`;
const SLEEVES = orList(SINGLE_SLEEVES.map((row) => plain(row.lengthMm, 1)));
const LEAST_CLEAR_MM = RING_BOLT.leastClear.valueMm;
const STEEL_MM = plain(threadEngagement('steel').lowMm, 1);
const ALUMINIUM = threadEngagement('aluminium');

const CLICKING: CautionBlock = {
  kind: 'caution',
  section: 'mount',
  level: 'stop',
  text: 'Bolts feel tight but the ring clicks or moves? Stop riding: bolt and sleeve have met, and nothing is clamped.',
};

/** Stands even where there are no ring bolts. */
export const SHIFTING_RING: CautionBlock = {
  kind: 'caution',
  section: 'mount',
  level: 'care',
  text: 'Never run the old outer ring alone: its ramps and pins are made to shed the chain.',
};

const FITTING: ChecklistBlock = {
  kind: 'checklist',
  section: 'mount',
  title: 'Fitting the ring',
  items: [
    { text: 'Clean the crank tabs, the ring and the threads.' },
    {
      text: 'Threadlocker or grease, never both.',
      detail: "Medium strength, and whichever the ring's maker prints.",
    },
    {
      text: `Keys: ${plain(RING_BOLT.boltKey.valueMm, 0)} mm hex for the bolt, ${plain(RING_BOLT.sleeveKey.valueMm, 0)} mm hex or a two-pronged key for the sleeve.`,
    },
    { text: 'Tighten crosswise, in a star, in two passes.', detail: 'The torque is under Torque.' },
    { text: 'Turn the ring by hand: it must not wobble, click or touch the chainstay.' },
  ],
};

const ENGAGEMENT_LINES = [
  `Thread M${RING_BOLT.thread.valueMm} × ${RING_BOLT.threadPitch.valueMm} in steel: at least ${ENGAGEMENT.steel.lowTurns} full turns (${STEEL_MM} mm).`,
  `In aluminium ${ENGAGEMENT.aluminium.lowTurns} to ${ENGAGEMENT.aluminium.highTurns} (${plain(ALUMINIUM.lowMm, 2)}–${plain(ALUMINIUM.highMm, 2)} mm).`,
];

/** What to do about the old bolts, in one line; a count that only the ring sizes speak for is said to be that. */
export function boltLine(part: MountPart, sharing: SharingRings): string {
  if (sharing.kind === 'cannot')
    return 'Old bolts: for one ring on them today, reuse. For two, shorter bolts or a washer.';
  const { rings, from } = sharing;
  if (part.boltAdvice === 'reuse') {
    return from === 'geometry'
      ? 'Old bolts: reuse them; going by the ring sizes only one ring is on them.'
      : 'Old bolts: reuse them; only one ring is on them today.';
  }
  const there = from === 'geometry' ? `by size ${rings} are on them` : `${rings} are on them today`;
  return `Old bolts: too long for one ring, ${there}. Shorter bolts or a washer.`;
}

function washerLine(part: MountPart): string {
  return part.spacerMm === null
    ? `The washer is as thick as the ring that leaves, usually ${RING_TAB}: measure it at the bolt.`
    : `The washer is as thick as the ring that leaves: ${length(part.spacerMm)}.`;
}

function stackLines(part: MountPart): readonly string[] {
  if (part.stack === null) {
    const one = TAB_THICKNESS.oneRing;
    const two = TAB_THICKNESS.twoRings;
    return [
      `Grip is ring plus crank tab: about ${one.lowMm}–${one.highMm} mm for one ring, ${two.lowMm}–${two.highMm} for two.`,
      'Measure both and the sleeve: ringtab=3.5 spidertab=4 sleeve=6.5.',
    ];
  }
  const { gripMm, sleeveMm, clearanceMm, leastThreadMm, verdict } = part.stack;
  if (sleeveMm === null || clearanceMm === null) {
    return [`Grip ${length(gripMm)}: the sleeve must be shorter, ${length(gripMm - LEAST_CLEAR_MM)} at most.`];
  }
  if (verdict === 'holds') {
    return [`Grip ${length(gripMm)}, sleeve ${length(sleeveMm)}: ${plain(clearanceMm, 1)} mm clear, it holds.`];
  }
  if (verdict === 'short') {
    return [
      `Sleeve ${length(sleeveMm)}: shorter than the ${plain(leastThreadMm, 2)} mm of thread that must hold.`,
      longerSleeve(gripMm - LEAST_CLEAR_MM, leastThreadMm),
    ];
  }
  return [
    `Grip ${length(gripMm)}, sleeve ${length(sleeveMm)}: the sleeve bottoms.`,
    `A shorter sleeve, or a washer of at least ${length(LEAST_CLEAR_MM - clearanceMm)}.`,
  ];
}

function longerSleeve(mostMm: number, leastThreadMm: number): string {
  return mostMm < leastThreadMm
    ? `Take a longer one, and a washer of at least ${length(leastThreadMm - mostMm)}.`
    : `Take a longer one, ${length(mostMm)} at most.`;
}

/** A sleeve that leaves the ring loose, or too little thread to hold it. */
function wrongSleeve({ stack }: MountPart): CautionBlock | null {
  if (stack?.verdict !== 'bottoms' && stack?.verdict !== 'short') return null;
  const why =
    stack.verdict === 'bottoms'
      ? `the grip is ${plain(stack.gripMm, 1)} mm and the sleeve takes it up, so the ring stays loose.`
      : `at least ${plain(stack.leastThreadMm, 2)} mm of thread must hold, and the sleeve is shorter.`;
  return { kind: 'caution', section: 'mount', level: 'stop', text: `Do not ride with this sleeve: ${why}` };
}

/** The bolts to get; whether the old ones do is told above. */
function boltText(part: MountPart, telling: 'all' | 'plan'): TextBlock {
  const lines = part.boltAdvice === 'reuse' ? [] : [washerLine(part)];
  lines.push(
    `Two sleeves, ${SLEEVES} mm, are both sold as "single": ask for the length.`,
    'A thick ring without a counterbore can need the longer one.',
    ...stackLines(part),
  );
  if (telling === 'all') lines.push(...ENGAGEMENT_LINES);
  if (part.boltAdvice === 'reuse') lines.push('Was there a bash guard on the same bolts? Then they are too long now.');
  lines.push('Bolts screwed straight into the crank arm have no sleeve: take one along to the shop.');
  return { kind: 'text', section: 'mount', title: 'Bolts', lines };
}

/** Everything about ring bolts, cautions first. A plan has the steps of fitting in its order of work, so here not again. */
export function boltBlocks(part: MountPart, telling: 'all' | 'plan'): readonly Block[] {
  const wrong = wrongSleeve(part);
  const cautions = wrong === null ? [CLICKING, SHIFTING_RING] : [wrong, CLICKING, SHIFTING_RING];
  const text = boltText(part, telling);
  return telling === 'all' ? [...cautions, text, FITTING] : [...cautions, text];
}
