import type { SettledBike } from '../bike/settled.ts';
import type { DerailleurPart } from '../commands/answer.ts';
import { cageCapacity, type DerailleurVerdict } from '../solve/derailleur.ts';
import { BOTH_ENDS, CAGE_CAPACITIES, GUIDE_GAPS } from '../tables/derailleurs.ts';
import { SOURCES } from '../tables/sources.ts';
import type { Block, CautionBlock, TableBlock, TextBlock, WorkingStep } from './card.ts';
import { cassetteProblemWords } from './fit-reasons.ts';
import { plain } from './measures.ts';

const CAGES = ['short', 'medium', 'long'] as const;
const CAGE_SOURCE = SOURCES[CAGE_CAPACITIES[1].cite.source];
const GAP_SOURCE = SOURCES[GUIDE_GAPS.usual.cite.source];
const FORMULA_SOURCE = SOURCES.CapacityPages;

const GAP_CARE: CautionBlock = {
  kind: 'caution',
  section: 'derailleur',
  level: 'care',
  text: 'With a larger cassette set the gap screw before the first ride: one derailleur left as it was twisted on its first trial run.',
};

const CAGE_TABLE: TableBlock = {
  kind: 'table',
  section: 'derailleur',
  title: 'Typical capacity by cage, in teeth',
  columns: ['Cage', 'From', 'To'],
  rows: CAGES.map((cage) => {
    const { lowTeeth, highTeeth } = cageCapacity(cage);
    return [cage, `${lowTeeth}`, `${highTeeth}`];
  }),
};

function gapText(largestTeeth: number): TextBlock {
  const wide = largestTeeth >= GUIDE_GAPS.large.fromLargestTeeth;
  return {
    kind: 'text',
    section: 'derailleur',
    title: 'Gap screw',
    lines: [
      wide
        ? `From ${GUIDE_GAPS.large.fromLargestTeeth}T: about ${GUIDE_GAPS.large.gapMm} mm from upper pulley to largest sprocket, rider on (memory).`
        : `About ${GUIDE_GAPS.usual.gapMm} mm from upper pulley to largest sprocket.`,
      "The maker's gauge decides.",
      'Shifts badly after a larger cassette? Look at the gap screw first.',
    ],
  };
}

/** The few facts about the rear derailleur. */
export function derailleurLines(
  part: DerailleurPart,
  verdict: DerailleurVerdict,
  bike: SettledBike,
): readonly string[] {
  const lines: string[] = [];
  for (const problem of verdict.problems) {
    const words = cassetteProblemWords(problem);
    lines.push(`${words[0]?.toUpperCase()}${words.slice(1)}.`);
  }
  const { capacityNeeded, capacityNeededNow } = part;
  const now =
    capacityNeededNow === null || capacityNeededNow === capacityNeeded
      ? ''
      : `; today's rings need ${capacityNeededNow}`;
  lines.push(`One ring needs ${capacityNeeded} teeth of capacity${now}.`);
  if (part.largestFits === true)
    lines.push(`Its largest sprocket, ${part.largestSprocketTeeth}T, is within the limit.`);
  if (part.largestFits === null || part.capacityFits === null) {
    lines.push(
      bike.newCassette === undefined
        ? 'The cassette stays, so the derailleur has no harder work than today.'
        : `Look up what your derailleur takes: ${part.largestSprocketTeeth}T and ${part.capacityNeeded} teeth are two limits.`,
    );
  }
  return lines;
}

function workingSteps(part: DerailleurPart, bike: SettledBike): readonly WorkingStep[] {
  const cassette = bike.newCassette ?? bike.cassette;
  const steps: WorkingStep[] = [
    {
      quantity: 'Capacity with one ring',
      formula: 'largest − smallest sprocket',
      numbers: cassette === undefined ? '' : `${cassette.largestTeeth} − ${cassette.smallestTeeth}`,
      result: `${part.capacityNeeded} teeth`,
      source: FORMULA_SOURCE,
    },
  ];
  const { rings, cassette: old } = bike;
  const [first] = rings ?? [];
  const last = rings?.[rings.length - 1];
  if (part.capacityNeededNow !== null && first !== undefined && last !== undefined && old !== undefined) {
    steps.push({
      quantity: 'Capacity today',
      formula: '(largest − smallest ring) + (largest − smallest sprocket)',
      numbers: `(${first} − ${last}) + (${old.largestTeeth} − ${old.smallestTeeth})`,
      result: `${part.capacityNeededNow} teeth`,
      source: FORMULA_SOURCE,
    });
  }
  if (bike.cage !== undefined && bike.capacityTeeth === undefined) {
    const { lowTeeth, highTeeth } = cageCapacity(bike.cage);
    steps.push({
      quantity: `A ${bike.cage} cage`,
      formula: 'typical capacity; the figure printed for the derailleur wins',
      numbers: `${plain(lowTeeth, 0)} to ${plain(highTeeth, 0)}`,
      result: part.capacityFits === null ? 'cannot be told from the word' : part.capacityFits ? 'enough' : 'too little',
      source: `memory and ${CAGE_SOURCE}`,
    });
  }
  steps.push({
    quantity: 'Gap at the largest sprocket',
    formula: "the maker's gauge, else as printed",
    numbers: `${part.largestSprocketTeeth}T`,
    result:
      part.largestSprocketTeeth >= GUIDE_GAPS.large.fromLargestTeeth
        ? `about ${GUIDE_GAPS.large.gapMm} mm`
        : `about ${GUIDE_GAPS.usual.gapMm} mm`,
    source: part.largestSprocketTeeth >= GUIDE_GAPS.large.fromLargestTeeth ? 'memory' : GAP_SOURCE,
  });
  return steps;
}

/** Everything about the rear derailleur, cautions first. */
export function derailleurBlocks(
  part: DerailleurPart,
  verdict: DerailleurVerdict,
  bike: SettledBike,
): readonly Block[] {
  const blocks: Block[] = [];
  const lines = [...derailleurLines(part, verdict, bike)];
  // With the cassette of today both limits are kept already; what they are helps only whoever changes it.
  const changes = bike.newCassette !== undefined;
  if (changes) {
    blocks.push(GAP_CARE);
    lines.push(
      'Largest sprocket and capacity are separate limits: both must hold.',
      `Some have a lower limit too: one is printed for a largest sprocket of ${BOTH_ENDS.lowestLargestTeeth}T and no other.`,
    );
  }
  blocks.push({ kind: 'text', section: 'derailleur', title: 'What it must take', lines });
  if (changes && bike.capacityTeeth === undefined) blocks.push(CAGE_TABLE);
  if (changes) blocks.push(gapText(part.largestSprocketTeeth));
  blocks.push({ kind: 'working', section: 'derailleur', steps: workingSteps(part, bike) });
  return blocks;
}
