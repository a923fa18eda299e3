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
  `Thread M${RING_BOLT.thread.valueMm} × ${RING_BOLT.threadPitch.valueMm}: at least ${ENGAGEMENT.steel.lowTurns} full turns in steel (${STEEL_MM} mm),`,
  `${ENGAGEMENT.aluminium.lowTurns} to ${ENGAGEMENT.aluminium.highTurns} in aluminium (${plain(ALUMINIUM.lowMm, 2)}–${plain(ALUMINIUM.highMm, 2)} mm).`,
];

/** What to do about the old bolts, in one line. */
export function boltLine(part: MountPart, sharing: SharingRings): string {
  if (sharing.kind === 'cannot')
    return 'Old bolts: for one ring on them today, reuse. For two, shorter bolts or a washer.';
  if (part.boltAdvice === 'reuse') return 'Only one ring on these bolts today: they can be used again.';
  return `${sharing.rings} rings on these bolts today: too long for one. Shorter bolts or a washer.`;
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
  const { gripMm, sleeveMm, clearanceMm, verdict } = part.stack;
  if (sleeveMm === null || clearanceMm === null) {
    return [`Grip ${length(gripMm)}: the sleeve must be shorter, ${length(gripMm - LEAST_CLEAR_MM)} at most.`];
  }
  if (verdict === 'holds') {
    return [`Grip ${length(gripMm)}, sleeve ${length(sleeveMm)}: ${plain(clearanceMm, 1)} mm clear, it holds.`];
  }
  return [
    `Grip ${length(gripMm)}, sleeve ${length(sleeveMm)}: the sleeve bottoms.`,
    `A shorter sleeve, or a washer of at least ${length(LEAST_CLEAR_MM - clearanceMm)}.`,
  ];
}

function bottoming(part: MountPart): CautionBlock | null {
  if (part.stack?.verdict !== 'bottoms') return null;
  return {
    kind: 'caution',
    section: 'mount',
    level: 'stop',
    text: `Do not ride with this sleeve: the grip is ${plain(part.stack.gripMm, 1)} mm and the sleeve takes it up, so the ring stays loose.`,
  };
}

function boltText(part: MountPart, sharing: SharingRings): TextBlock {
  const lines = [boltLine(part, sharing)];
  if (part.boltAdvice !== 'reuse') lines.push(washerLine(part));
  lines.push(
    `Two sleeves, ${SLEEVES} mm, are both sold as "single": ask for the length.`,
    'A thick ring without a counterbore can need the longer one.',
    ...stackLines(part),
    ...ENGAGEMENT_LINES,
    'Bolts screwed straight into the crank arm have no sleeve: take one along to the shop.',
  );
  return { kind: 'text', section: 'mount', title: 'Bolts', lines };
}

/** Everything about ring bolts, cautions first. */
export function boltBlocks(part: MountPart, sharing: SharingRings): readonly Block[] {
  const bottoms = bottoming(part);
  const cautions = bottoms === null ? [CLICKING, SHIFTING_RING] : [bottoms, CLICKING, SHIFTING_RING];
  return [...cautions, boltText(part, sharing), FITTING];
}
