import type { Question } from '../bike/reading.ts';
import type { TorqueRow } from '../commands/answer.ts';
import type { Basis } from '../tables/row.ts';
import { SOURCES } from '../tables/sources.ts';
import type { TorqueCaution, TorqueStep } from '../tables/torques.ts';
import { sourceWords } from './basis.ts';
import type { Block, CautionBlock, WorkingStep } from './card.ts';
import { plain, torqueRange } from './measures.ts';

type Item = { readonly text: string; readonly detail?: string };

/** What a caution key of the torque table says. */
export const CAUTION_WORDS: Readonly<Record<TorqueCaution, string>> = {
  star: 'Tighten in a star, in two passes.',
  bottoming: 'Tight, but the ring clicks or rattles? The bolts are too long: stop riding.',
  alternate: 'Tighten the two bolts by turns, in small steps.',
  'cap-first': 'The cap comes first, the pinch bolts after it.',
  'by-hand': 'Only until all play is gone and the crank still spins freely.',
  'own-bolt': "Use the crank's own bolts; one from a drawer may be too weak.",
  'second-person': 'Have a second person check this one.',
  'maker-only': "Only the maker's figure counts; guides disagree even on the driver.",
  'twin-angle': 'Same angle and reach as the other lever. It holds in use, yet turns in a fall.',
  'small-screw': 'A small screw ruins its thread first: go gently.',
  carbon: 'On carbon: assembly paste and the low end.',
  'only-if-moved': 'Only if you moved it.',
};

/** When a row counts, as long as it is not certain that it does. */
export const CONDITION_WORDS: Readonly<Record<TorqueStep, string>> = {
  'ring-bolts-aluminium': 'if a magnet does not stick to the bolts',
  'ring-bolts-steel': 'if a magnet sticks to the bolts',
  'drive-unit': 'if the motor sits at the cranks, instead of the rows for ring and crank',
  'hub-motor': 'only if the wheel with the motor comes out',
  'direct-mount': 'if the ring sits direct on the crank',
  'crank-pinch': 'if two pinch bolts hold the crank arm',
  'crank-taper': 'if the crank sits on a square taper',
  'crank-splined': 'if one bolt holds the crank on a splined axle',
  'rear-derailleur': 'only if you took it off for the chain',
  'new-cassette': 'only with a new cassette',
  'flat-bar': 'if the bar is flat',
  'drop-bar': 'if the bar is a drop bar',
  'going-back': 'only when going back to two or three rings',
  'only-if-loosened': 'only if you loosened it',
};

function sentence(words: string): string {
  return `${words.charAt(0).toUpperCase()}${words.slice(1)}.`;
}

type PrintedRange = { readonly lowNm: number; readonly highNm: number } & Basis;

/** Other ranges for a fastener with who printed them, for readers who want every word of it. */
export function elsewhereWords(ranges: readonly PrintedRange[]): string | null {
  if (ranges.length === 0) return null;
  return ranges.map((each) => `${torqueRange(each.lowNm, each.highNm)}, ${sourceWords(each)}`).join('; ');
}

/** One row to tick off: what to set, then when it counts, what to watch, what others print and who says so. */
export function torqueItem(
  row: TorqueRow,
  elsewhere: readonly PrintedRange[],
  rangesApart: boolean,
  source: string,
): Item {
  const range =
    row.lowNm === null || row.highNm === null ? "the maker's figure only" : torqueRange(row.lowNm, row.highNm);
  const detail: string[] = [];
  if (row.condition !== undefined) detail.push(sentence(row.condition));
  // The star stands among the safety words of every card.
  detail.push(...row.cautions.filter((caution) => caution !== CAUTION_WORDS.star));
  if (elsewhere.length > 0) {
    const others = elsewhere
      .map((each) => `${torqueRange(each.lowNm, each.highNm)}${each.basis === 'memory' ? ' (memory)' : ''}`)
      .join(', ');
    detail.push(rangesApart ? `Elsewhere ${others}: the two do not meet, ask the maker.` : `Elsewhere ${others}.`);
  }
  detail.push(`From ${source}.`);
  return { text: `${row.fastener}, ${row.material}: ${range}`, detail: detail.join(' ') };
}

/** Short names for the narrow first column of the table of pulls. */
const PULL_NAMES: Partial<Readonly<Record<TorqueStep, string>>> = {
  'crank-pinch': 'Pinch',
  'crank-taper': 'Taper',
  'flat-bar': 'Lever',
  'rear-derailleur': 'Cable',
};

/** What a row's torque does to its bolt, as table cells; null where the standard does not cover the bolt. */
export function pullCells(row: TorqueRow, step: TorqueStep): readonly string[] | null {
  const pull = row.preloadN;
  if (pull?.shares === undefined || pull.thread === undefined) return null;
  const shares = pull.shares.map((each) => `${plain(each.lowPct, 0)}–${plain(each.highPct, 0)} %`);
  return [
    `${PULL_NAMES[step] ?? 'Bolt'}, ${pull.thread}`,
    `${(pull.lowN / 1000).toFixed(1)}–${(pull.highN / 1000).toFixed(1)} kN`,
    ...shares,
  ];
}

function rangeOf(rows: readonly TorqueRow[], fastener: string, material?: string): string | null {
  const row = rows.find((each) => each.fastener === fastener && (material === undefined || each.material === material));
  if (row === undefined || row.lowNm === null || row.highNm === null) return null;
  return `${plain(row.lowNm, 1)}–${plain(row.highNm, 1)} N·m`;
}

/** The checklist in one line: the ring, then the crank. */
export function torqueAnswer(
  rows: readonly TorqueRow[],
  mount: 'bolted' | 'direct' | 'riveted' | null,
  midDrive: boolean,
): string {
  if (midDrive) return "Ring and cranks sit on the motor: the drive unit maker's figures only, none from here.";
  const crank = crankWords(rows);
  if (mount === 'riveted') return `Riveted rings have no bolts to tighten. ${sentence(crank)}`;
  if (mount === 'direct') return `Direct-mount ring: the maker's figure only. ${sentence(crank)}`;
  const aluminium = rangeOf(rows, 'Ring bolts', 'aluminium');
  const steel = rangeOf(rows, 'Ring bolts', 'steel');
  const ring =
    aluminium !== null && steel !== null
      ? `${aluminium} in aluminium, ${steel} in steel`
      : (aluminium ?? steel ?? "the maker's figure");
  return `Ring bolts: ${ring}. ${sentence(crank)}`;
}

function crankWords(rows: readonly TorqueRow[]): string {
  const pinch = rangeOf(rows, 'Crank pinch bolts (two)');
  const taper = rangeOf(rows, 'Crank bolt, square taper');
  const splined = rangeOf(rows, 'Crank bolt, splined axle');
  if (pinch !== null && taper !== null) return 'crank: three kinds listed, say which is yours';
  if (pinch !== null) return `crank pinch bolts: ${pinch}, by turns`;
  return `crank bolt: ${taper ?? splined ?? "the maker's figure"}`;
}

/** What matters most beside the rows. */
export function torqueLines(rows: readonly TorqueRow[], factor: number | null): readonly string[] {
  const lines = ["The figure on the part or in its maker's manual wins."];
  if (factor !== null) {
    const times = factor.toFixed(3);
    const same = 'At that angle your extension changes nothing: set the figure itself.';
    lines.push(times === '1.000' ? same : `With your extension: set ${times} times the figure.`);
  }
  if (rangeOf(rows, 'Ring bolts', 'steel') !== null) {
    lines.push('Steel ring bolts: the printed ranges do not meet. Ask the maker.');
  }
  if (rows.some((row) => row.fastener === 'Ring bolts' && row.condition !== undefined))
    lines.push('Magnet test: it sticks to steel bolts, not to aluminium.');
  if (rangeOf(rows, 'Crank pinch bolts (two)') !== null) {
    lines.push('Pinch bolts: cap by hand first, then both bolts by turns.');
  }
  return lines;
}

export function crankTypeQuestion(): Question {
  return {
    field: 'cranktype',
    question: 'How is the crank arm held?',
    choices: [
      { label: 'Two pinch bolts', setup: 'cranktype=pinch' },
      { label: 'Square taper', setup: 'cranktype=taper' },
      { label: 'Splined axle', setup: 'cranktype=splined' },
    ],
  };
}

export function boltMaterialQuestion(): Question {
  return {
    field: 'boltmaterial',
    question: 'Does a magnet stick to the ring bolts?',
    choices: [
      { label: 'Yes: steel', setup: 'boltmaterial=steel' },
      { label: 'No: aluminium', setup: 'boltmaterial=aluminium' },
    ],
  };
}

/** The rows of one bike to tick off. */
export function jobChecklist(items: readonly Item[]): Block {
  return { kind: 'checklist', section: 'torque', title: 'Torque for this job', items };
}

/** What stands behind the rows: the pull in the bolts, and the bolts that this job leaves alone. */
export function wordsBehindRows(rows: {
  readonly pulls: readonly (readonly string[])[];
  readonly goingBack: readonly Item[];
  readonly ifLoosened: readonly Item[];
}): readonly Block[] {
  const blocks: Block[] = [];
  if (rows.pulls.length > 0) {
    blocks.push(
      {
        kind: 'table',
        section: 'torque',
        title: 'Pull in the bolt, and its share of the proof load',
        columns: ['Bolt', 'Pull', 'Class 8.8', 'Class 10.9', 'Class 12.9'],
        rows: rows.pulls,
      },
      {
        kind: 'text',
        section: 'torque',
        lines: [
          'From dry threads at the low figure to greased ones at the high figure.',
          'Proof load: the pull a bolt bears without a lasting stretch.',
          'Thread sizes are typical ones (memory); the class is marked on the head.',
          'Over 100 %: a bolt of that class is too weak, or its thread must stay dry.',
          'Aluminium and hollow bolts are outside that standard.',
        ],
      },
    );
  }
  blocks.push(
    { kind: 'checklist', section: 'torque', title: 'Only when going back', items: rows.goingBack },
    { kind: 'checklist', section: 'torque', title: 'Leave alone; only if you loosened it', items: rows.ifLoosened },
  );
  return blocks;
}

/** How the pull in a bolt is worked out, with the row's own numbers. */
export function preloadStep(row: TorqueRow, diameterMm: number): WorkingStep | null {
  const pull = row.preloadN;
  if (pull === null || row.lowNm === null || row.highNm === null) return null;
  const metres = plain(diameterMm / 1000, 3);
  return {
    quantity: `Pull in the bolt: ${row.fastener.toLowerCase()}`,
    formula: 'F = T/(K·d), K 0.20 dry, 0.15 lubricated',
    numbers: `${plain(row.lowNm, 1)}/(0.20·${metres}) to ${plain(row.highNm, 1)}/(0.15·${metres})`,
    result: `${plain(pull.lowN, 0)} to ${plain(pull.highN, 0)} N`,
    source: `${SOURCES.FastenerTable}; ${SOURCES['ISO898-1']}`,
  };
}

const care = (text: string): CautionBlock => ({ kind: 'caution', section: 'safety', level: 'care', text });

const SAFETY: readonly Block[] = [
  care("The figure on the part or in its maker's manual wins over every figure here."),
  care('Stop if a bolt turns without getting tighter. Do not ride: its thread is going.'),
  care('Clean and prepare threads as the maker says: grease or threadlocker, not both by guess.'),
  care('Ring bolts, and any bolts in a circle: tighten in a star, in two passes.'),
  care('Check every bolt again after the first ride.'),
  {
    kind: 'text',
    section: 'safety',
    title: 'Why a torque wrench',
    lines: [
      'By feel, five colleagues asked for 5 N·m (44 lbf·in) were all at least 20 % out.',
      `One was a professional (${SOURCES.TorqueTest2018}).`,
      'Use a wrench that is in calibration and whose range covers the figure.',
    ],
  },
  care(
    'A number in chat is not a sign-off. Brakes, cranks and steering are for a qualified mechanic when in doubt; local rules apply.',
  ),
];

/** What every plan ends with. */
export function safetyBlocks(): readonly Block[] {
  return SAFETY;
}
