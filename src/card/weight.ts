import type { Question, Refusal } from '../bike/reading.ts';
import type { WeightItem, WeightPart } from '../commands/answer.ts';
import type { PartKind } from '../solve/weight.ts';
import { CHAIN_PITCH_MASSES, REPORTED_SAVINGS } from '../tables/masses.ts';
import { shortSource, sourceWords } from './basis.ts';
import type { Block } from './card.ts';
import { mass, plain } from './measures.ts';

const WEIGHED = REPORTED_SAVINGS.weighed;
const TYPICAL = REPORTED_SAVINGS.typical;
const OTHER_CRANKSET = REPORTED_SAVINGS.otherCrankset;

/** A part by its full name. */
export function partName(part: PartKind, count: number | null): string {
  switch (part) {
    case 'front-derailleur':
      return 'Front derailleur';
    case 'shifter-pod':
      return 'Front shifter pod';
    case 'cable-and-housing':
      return 'Cable and housing';
    case 'old-ring':
      return `${count ?? ''}T ring`;
    case 'old-bolts':
      return 'Ring bolts';
    case 'chain':
      return `Chain, ${count ?? ''} pitches`;
    case 'new-ring':
    case 'new-direct-ring':
      return count === null ? 'New ring' : `New ${count}T ring`;
    case 'new-bolts':
      return 'Single-ring bolts';
  }
}

/** What a narrow column has room for, where that is less than the full name. */
const SHORT_NAMES: ReadonlyMap<string, string> = new Map([
  ['Front derailleur', 'Front mech'],
  ['Front shifter pod', 'Shifter pod'],
  ['Cable and housing', 'Cable+housing'],
  ['Single-ring bolts', 'Short bolts'],
]);

function side(grams: number): string {
  return grams < 0 ? `${plain(-grams, 0)} g heavier` : `${plain(grams, 0)} g lighter`;
}

/** The saving in one line. */
export function weightAnswer(part: WeightPart, ringTeeth: number | null): string {
  return weightWords(part, 'About', ringTeeth === null ? ' with one ring' : ` with one ${ringTeeth}T ring`);
}

/** "About 377 g (13.3 oz) lighter with one 32T ring; between 250 and 494 g." */
export function weightWords(part: WeightPart, about: 'About' | 'about', ring = ''): string {
  const middle = part.savedTypicalG;
  const saving = middle < 0 ? `${mass(-middle)} heavier` : `${mass(middle)} lighter`;
  const ends =
    part.savedLowG < 0
      ? `from ${side(part.savedLowG)} to ${side(part.savedHighG)}`
      : `between ${plain(part.savedLowG, 0)} and ${plain(part.savedHighG, 0)} g`;
  return `${about} ${saving}${ring}; ${ends}.`;
}

/** What matters most about a sum of weights. */
export function weightLines(part: WeightPart, atTheMotor: boolean): readonly string[] {
  const chainCounted = [...part.removed, ...part.added].some((each) => each.part.startsWith('Chain'));
  return [
    'Weigh what came off: a kitchen scale beats every figure here.',
    atTheMotor
      ? 'Not in the sum: crank, cassette, a new chain, and whatever holds the ring at the motor.'
      : 'Not in the sum: crank, cassette and a new chain.',
    chainCounted ? 'The chain pitches are in it.' : CHAIN_LINE,
  ];
}

const ANY_CHAIN = CHAIN_PITCH_MASSES.find((row) => row.speeds === null) ?? CHAIN_PITCH_MASSES[0];
const CHAIN_LINE = `Chain taken out is not in it: ${ANY_CHAIN.lowG}–${ANY_CHAIN.highG} g a pitch.`;

function rows(items: readonly WeightItem[]): readonly (readonly string[])[] {
  return items.map((each) => [
    SHORT_NAMES.get(each.part) ?? each.part,
    plain(each.lowG, 0),
    plain(each.typicalG, 0),
    plain(each.highG, 0),
    each.basis,
  ]);
}

function sum(items: readonly WeightItem[]): string {
  return items.map((each) => plain(each.typicalG, 1)).join(' + ');
}

const REPORTS: Block = {
  kind: 'text',
  section: 'weight',
  title: 'What others report',
  lines: [
    `On the scale: ${plain(WEIGHED.lowG, 0)} g (${sourceWords(WEIGHED)}).`,
    `In it: ${WEIGHED.what}.`,
    `A rider's page: ${plain(TYPICAL.lowG, 0)}–${plain(TYPICAL.highG, 0)} g (${shortSource(TYPICAL)}).`,
    `A figure of ${plain(OTHER_CRANKSET.lowG, 0)} g is ${OTHER_CRANKSET.what} (${shortSource(OTHER_CRANKSET)}).`,
  ],
};

/** The weight section: what comes off, what goes on, the sum, and what others found. */
export function weightBlocks(part: WeightPart): readonly Block[] {
  const offTitle = part.removed[0]?.part === 'Front derailleur' ? 'Comes off (mech: derailleur)' : 'Comes off';
  const columns = ['Part', 'Low g', 'Typical g', 'High g', 'Basis'];
  return [
    { kind: 'table', section: 'weight', title: offTitle, columns, rows: rows(part.removed) },
    { kind: 'table', section: 'weight', title: 'Goes on', columns, rows: rows(part.added) },
    REPORTS,
    {
      kind: 'working',
      section: 'weight',
      steps: [
        {
          quantity: 'Weight saved, typical parts',
          formula: 'sum of what comes off − sum of what goes on',
          numbers: `(${sum(part.removed)}) − (${sum(part.added)})`,
          result: `${plain(part.savedTypicalG, 1)} g`,
          source: 'typical part weights, ring sizes in a straight line between them',
        },
        {
          quantity: 'Least and most saved',
          formula: 'low off − high on, to high off − low on',
          numbers: 'the ends of the two tables',
          result: `${plain(part.savedLowG, 1)} to ${plain(part.savedHighG, 1)} g`,
          source: 'the same parts',
        },
      ],
    },
  ];
}

export function ringsQuestion(): Question {
  return {
    field: 'rings',
    question: 'Which rings are fitted now? Count the teeth or read them off the ring.',
    choices: [
      { label: '36/22', setup: 'rings=36/22' },
      { label: '42/32/22', setup: 'rings=42/32/22' },
      { label: '50/34', setup: 'rings=50/34' },
    ],
  };
}

export function barQuestion(): Question {
  return {
    field: 'bar',
    question: 'Flat bar or drop bar? On a drop bar the front shifter stays in the brake lever.',
    choices: [
      { label: 'Flat bar', setup: 'bar=flat' },
      { label: 'Drop bar', setup: 'bar=drop' },
    ],
  };
}

export function sharingQuestion(): Question {
  return {
    field: 'sharing',
    question: 'How many rings share the bolts of the big ring? Alone, its bolts go back on.',
    choices: [
      { label: 'It is alone', setup: 'sharing=1' },
      { label: 'Two share them', setup: 'sharing=2' },
    ],
  };
}

export function rivetedRefusal(): Refusal {
  return {
    field: 'mount',
    message: 'Riveted rings come off with the crank, so there is no sum without both cranks on a scale.',
    allowed: 'rings that are bolted or mounted direct (common practice)',
    example: 'weight 36/22 mount=bolted',
  };
}
