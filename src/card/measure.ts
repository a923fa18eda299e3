import type { KeyName } from '../bike/keys.ts';
import type { Refusal } from '../bike/reading.ts';
import type { MeasureFigure } from '../draw/figure.ts';
import { holeSpacingMm } from '../solve/bolt-circle.ts';
import { elongationMm } from '../solve/chain-wear.ts';
import { frontLineMm } from '../solve/chainline.ts';
import { MEASURED_LINE } from '../tables/chainlines.ts';
import { RING_BOLT } from '../tables/ring-bolts.ts';
import { SPROCKET_GEOMETRY } from '../tables/sprocket-geometry.ts';
import { WEAR_LIMITS, WEAR_MARKS } from '../tables/wear-limits.ts';
import type { Block, Section } from './card.ts';
import { length, plain } from './measures.ts';

/** One thing to measure: three steps and a picture. */
type Topic = {
  readonly name: string;
  readonly also: readonly string[];
  /** What it tells of the bike: a question about one of these is answered by measuring. */
  readonly fields: readonly KeyName[];
  readonly section: Section;
  readonly answer: string;
  readonly steps: readonly [string, string, string];
  /** What to tell afterwards. */
  readonly tell: string;
  readonly alt: string;
  readonly figure: MeasureFigure;
};

const PITCH_MM = SPROCKET_GEOMETRY.pitch.value;
const OVER = WEAR_MARKS.measuredOver.value;
const NEW_MM = OVER * PITCH_MM;
const WEAR_PCTS = [...new Set([...WEAR_LIMITS.map((row) => row.replaceAtPct), WEAR_MARKS.cassetteToo.value])].sort();
const WEAR_ROWS = WEAR_PCTS.map((wearPct) => ({ wearPct, lengthMm: NEW_MM + elongationMm(wearPct) }));

const FOUR = { bolts: 4, bcdMm: 104, gapMm: holeSpacingMm(104, 4) } as const;
const FIVE = { bolts: 5, bcdMm: 110, gapMm: holeSpacingMm(110, 5) } as const;

const { tubeMm: TUBE_MM, gapMm: GAP_MM } = MEASURED_LINE;
const LINE_MM = frontLineMm(TUBE_MM, GAP_MM);

const TOPICS: readonly Topic[] = [
  {
    name: 'bcd',
    also: ['gap', 'bolts', 'circle'],
    fields: ['bcd', 'gap', 'bolts'],
    section: 'mount',
    answer: 'Bolt circle: measure from one bolt hole to another, always the same edge of both.',
    steps: [
      'Look at the back of the ring first: the figure is often stamped there.',
      'Four bolts: opposite holes, same edge to same edge, are the circle. Five: measure neighbours.',
      'Measure a second pair. Two that differ mean an uneven pattern: tell both.',
    ],
    tell: 'bcd=104 bolts=4, or gap=64.7mm bolts=5, or two gaps: gap=64.7/64.7',
    alt: `Two rings from the side. Four bolts: opposite holes, edge to same edge, ${plain(FOUR.bcdMm, 1)} mm: that is the circle; neighbours are ${plain(FOUR.gapMm, 1)} mm apart. Five bolts: neighbours, edge to same edge, ${plain(FIVE.gapMm, 1)} mm, told as gap=${plain(FIVE.gapMm, 1)}mm, a ${plain(FIVE.bcdMm, 1)} mm circle.`,
    figure: { kind: 'measure', what: 'gap', opposite: FOUR, neighbours: FIVE },
  },
  {
    name: 'chainline',
    also: ['line'],
    fields: ['chainline'],
    section: 'chainline',
    answer: "Chainline: half the seat tube, plus the gap from the tube to the middle of the ring's teeth.",
    steps: [
      'Measure the seat tube across, just above the cranks, and halve it.',
      'Measure the gap from the side of the tube to the middle of a tooth.',
      'Add the two. Measure at the front and the back of the ring: a bent ring shows.',
    ],
    tell: 'chainline=49mm',
    alt: `From above: half of a ${plain(TUBE_MM, 1)} mm seat tube, ${plain(TUBE_MM / 2, 1)} mm, and the gap of ${plain(GAP_MM, 1)} mm to the middle of the ring make a chainline of ${plain(LINE_MM, 1)} mm from the middle of the frame.`,
    figure: { kind: 'measure', what: 'chainline', tubeMm: TUBE_MM, gapMm: GAP_MM, lineMm: LINE_MM },
  },
  {
    name: 'stays',
    also: ['stay', 'chainstay'],
    fields: ['stays'],
    section: 'chain',
    answer: 'Chainstay: middle of the crank axle to middle of the wheel axle.',
    steps: [
      'Wheel fully home in the dropouts.',
      'Lay the tape along the chainstay, from the middle of the crank axle.',
      'Read it at the middle of the wheel axle; a millimetre is near enough.',
    ],
    tell: 'stays=440mm, or stays=17.375in',
    alt: 'The back of a bicycle from its right side: the measure told as stays= runs from the middle of the wheel axle to the middle of the crank axle.',
    figure: { kind: 'measure', what: 'stays' },
  },
  {
    name: 'longest',
    also: ['suspension', 'growth'],
    fields: ['longest'],
    section: 'chain',
    answer: 'Longest axle distance: where crank axle and wheel axle are furthest apart in the travel.',
    steps: [
      'Let the air out of the shock, or take its spring off.',
      'Move the wheel slowly from hanging to pushed in, and watch the axle distance grow and shrink.',
      'Hold it where it is longest. Measure crank axle to wheel axle there.',
    ],
    tell: 'longest=452mm',
    alt: 'A swinging arm from the right side: on its way from hanging to pushed in the wheel axle comes to a place where it is furthest from the crank axle. The measure told as longest= runs between the two axles there.',
    figure: { kind: 'measure', what: 'longest' },
  },
  {
    name: 'count',
    also: ['chain', 'pitches'],
    fields: ['chain'],
    section: 'chain',
    answer: 'Chain count: every pin once round. One pitch is from one pin to the next.',
    steps: [
      'Mark one pin with tape or chalk.',
      'Count every pin once round, those of the joining link too.',
      'The count must be even. If it is odd, count again.',
    ],
    tell: 'chain=108',
    alt: `A piece of chain. 1 pitch, pin to pin, is ${length(PITCH_MM)}; 1 pair, inner and outer, is ${length(2 * PITCH_MM)}. From above: wide teeth stand between outer plates, narrow teeth between inner plates.`,
    figure: { kind: 'measure', what: 'count' },
  },
  {
    name: 'wear',
    also: ['stretch'],
    fields: ['wear'],
    section: 'wear',
    answer: `Chain wear: ${OVER} pitches, pin to pin, are ${length(NEW_MM)} when new; longer is worn.`,
    steps: [
      'Pull the chain tight. Keep off the joining link: it wears at its own pace.',
      `Lay the ruler on the middle of a pin and read ${OVER} pitches further on.`,
      'Do it in two or three places and believe the longest.',
    ],
    tell: 'wear=0.75',
    alt: `${OVER} pitches of chain on a ruler, pin to pin: ${plain(NEW_MM, 1)} mm (12 in) when new, ${WEAR_ROWS.map((row) => `${plain(row.lengthMm, 1)} mm at ${plain(row.wearPct, 2)} %`).join(', ')}.`,
    figure: { kind: 'measure', what: 'wear', pitches: OVER, newMm: NEW_MM, marks: WEAR_ROWS },
  },
  {
    name: 'stack',
    also: ['sleeve', 'ringtab', 'spidertab'],
    fields: ['ringtab', 'spidertab', 'sleeve'],
    section: 'mount',
    answer: `Bolt stack: crank tab and ring tab together must be ${plain(RING_BOLT.leastClear.valueMm, 1)} mm longer than the sleeve.`,
    steps: [
      'Crank tab: its thickness at the hole, inside any counterbore.',
      'Ring tab: the new ring at the bolt hole, inside its counterbore.',
      'Sleeve: its barrel only, without the flange. Calipers, to a tenth of a millimetre.',
    ],
    tell: 'spidertab=4mm ringtab=3.5mm sleeve=6.5mm',
    alt: 'Three parts cut along the middle, each with its measure: the crank tab, told as spidertab=, the ring tab, told as ringtab=, and the barrel of the sleeve with no flange, told as sleeve=.',
    figure: { kind: 'measure', what: 'stack' },
  },
];

const BY_WORD = new Map(TOPICS.flatMap((topic) => [topic.name, ...topic.also].map((word) => [word, topic])));
const BY_FIELD = new Map(TOPICS.flatMap((topic) => topic.fields.map((field) => [field, topic.name])));

/** The topic of `measure` that settles a question about a field; null where there is none. */
export function measureTopic(field: KeyName): string | null {
  return BY_FIELD.get(field) ?? null;
}

/** How to measure what is named, or all there is to choose from; null for a word that names nothing. */
export function measureWords(
  typed: string,
): { readonly answer: string; readonly lines: readonly string[]; readonly blocks: readonly Block[] } | null {
  const words = typed.trim().toLowerCase().split(' ');
  if (words[0] === '') return overview();
  const topic = words.map((word) => BY_WORD.get(word)).find((each) => each !== undefined);
  if (topic === undefined) return null;
  const { section, answer, steps, tell, alt, figure } = topic;
  return {
    answer,
    lines: [`Then tell it: ${tell}`],
    blocks: [
      { kind: 'checklist', section, title: 'Three steps', items: steps.map((text) => ({ text })) },
      { kind: 'figure', section, title: 'How to measure it', alt, figure },
    ],
  };
}

/** The refusal of a word that names nothing to measure. */
export function unknownMeasure(typed: string): Refusal {
  const shown = [...typed.trim()].slice(0, 40).join('');
  return {
    field: 'setup',
    message: `There is no measuring card for "${shown}".`,
    allowed: TOPICS.map((topic) => topic.name).join(', '),
    example: 'measure bcd',
  };
}

function overview() {
  const items = TOPICS.map((topic) => ({ text: `measure ${topic.name}`, detail: topic.answer }));
  const block: Block = { kind: 'checklist', section: 'help', title: 'What can be measured', items };
  return { answer: 'What would you like to measure? Each has three steps and a picture.', lines: [], blocks: [block] };
}
