import type { SettledBike } from '../bike/settled.ts';
import type { ChainPart } from '../commands/answer.ts';
import type { ChecklistBlock, TextBlock } from './card.ts';
import { plain } from './measures.ts';

const LONGEST_LINES = [
  'Let the air out of the shock, or take its spring off.',
  'Move the rear wheel slowly through its whole travel.',
  'Measure crank axle to wheel axle where it is furthest: longest=452mm.',
];

/** How to measure a chainstay. */
export const MEASURE_STAYS: TextBlock = {
  kind: 'text',
  section: 'chain',
  title: 'Measuring the stays',
  lines: [
    'Middle of the crank axle to middle of the wheel axle, along the chainstay.',
    'A millimetre is near enough; tell it as stays=440mm.',
  ],
};

/** For a count that cannot be a loop. */
export const ODD_COUNT: TextBlock = {
  kind: 'text',
  section: 'chain',
  title: 'Count once more',
  lines: [
    'A closed loop has an even number: inner and outer take turns all the way round.',
    'Mark one pin and count every pin once round, those of the joining link too.',
    'Until then nothing to take out is named.',
  ],
};

/** How to measure the longest axle distance, after what it adds where that is known. */
export function suspensionBlock(part: ChainPart): TextBlock {
  const growth = growthLine(part);
  return {
    kind: 'text',
    section: 'chain',
    title: 'With rear suspension',
    lines: growth === null ? LONGEST_LINES : [growth, ...LONGEST_LINES],
  };
}

/** What the suspension adds; null where it adds nothing or nobody knows. */
export function growthLine(part: ChainPart): string | null {
  if (part.growthMm === null || part.growthPitches === null) return null;
  const { growthMm, growthPitches } = part;
  return `The suspension adds ${plain(growthMm, 1)} mm, ${plain(growthPitches, 1)} pitches: counted in.`;
}

/** How to find the length with the chain in hand. Numbers in words, so that it may stand beside a shut gate too. */
export function onTheBike(part: ChainPart, bike: SettledBike): ChecklistBlock {
  const items: { text: string; detail?: string }[] = [
    {
      text: `Lay the chain round the ${part.ringTeeth}T ring and the ${part.sprocketTeeth}T sprocket, past the derailleur.`,
    },
    { text: 'Pull the ends together: where they can first be joined is what just fits.' },
    { text: 'One pair more, inner and outer, is the shortest that may stay.' },
    { text: 'Count: a loop is even.' },
    {
      text: 'Through the derailleur, turn it by hand: largest sprocket, then smallest.',
      detail: 'In the largest the cage must still have room to move; in the smallest the chain must not sag.',
    },
  ];
  if (bike.suspension === 'rear') {
    items.unshift({ text: 'Shock without air or spring, axle held where it is furthest from the cranks.' });
  }
  return { kind: 'checklist', section: 'chain', title: 'Check it on the bike', items };
}
