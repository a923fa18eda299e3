import type { SettledBike } from '../bike/settled.ts';
import type { ChainlinePart } from '../commands/answer.ts';
import {
  directMountLineMm,
  dropoutToRingMm,
  frontLineMm,
  rearLineMm,
  type Spacing,
  sprocketSpacing,
} from '../solve/chainline.ts';
import { hasRoadRings } from '../solve/road-rings.ts';
import {
  CRANK_LINES,
  DRIVE_EFFICIENCY,
  FRONT_LINES,
  MADE_LINES,
  MEASURED_LINE,
  MEASURED_REAR,
} from '../tables/chainlines.ts';
import { RING_OFFSETS } from '../tables/direct-mount.ts';
import { SOURCES } from '../tables/sources.ts';
import type { Block, CautionBlock, ChecklistBlock, TableBlock, TextBlock } from './card.ts';
import { chainlineWorking } from './chainline-working.ts';
import { orList } from './fit-reasons.ts';
import { length, plain } from './measures.ts';

const MADE = orList(MADE_LINES.map((row) => plain(row.lineMm, 2)));
const LOSSES = SOURCES[DRIVE_EFFICIENCY.cite.source];

/** The narrowest hub's line is that of road cranks. */
const ROAD_LINE = FRONT_LINES[0];

const MEASURED_STACK_MM = sprocketSpacing(MEASURED_REAR.speeds)?.stackMm ?? 0;

const MEASURE: ChecklistBlock = {
  kind: 'checklist',
  section: 'chainline',
  title: 'Measuring it',
  items: [
    {
      text: "Ring: half the seat tube's diameter plus the gap from the tube to the middle of a tooth.",
      detail: `In print: a ${plain(MEASURED_LINE.tubeMm, 1)} mm tube and a ${plain(MEASURED_LINE.gapMm, 1)} mm gap make ${plain(frontLineMm(MEASURED_LINE.tubeMm, MEASURED_LINE.gapMm), 1)} mm.`,
    },
    {
      text: 'Cassette: half the hub width, less the gap to the smallest sprocket, less half the stack.',
      detail: `In print: ${MEASURED_REAR.hubMm} mm, ${plain(MEASURED_REAR.lockGapMm, 1)} mm gap, ${MEASURED_REAR.speeds} sprockets: ${plain(rearLineMm(MEASURED_REAR.hubMm, MEASURED_REAR.lockGapMm, MEASURED_STACK_MM), 1)} mm.`,
    },
    { text: 'No ruler that fits? A photo from straight in front shows how ring and cassette line up.' },
    { text: 'Always: lowest gear on the stand, pedal backwards. The chain must stay on the sprocket.' },
  ],
};

const TOO_FAR_OUT = 'If the chain falls off the largest sprocket when you pedal backwards, the ring sits too far out';

/** A ring on a crank moves by spacers and tabs, one on a motor only by what its maker has for it. */
function backPedal({ assist }: SettledBike): CautionBlock {
  const then =
    assist === 'mid-drive' ? 'at the motor only a ring of its maker with another offset moves it in.' : 'move it in.';
  return { kind: 'caution', section: 'chainline', level: 'care', text: `${TOO_FAR_OUT}: ${then}` };
}

const AT_THE_MOTOR: TextBlock = {
  kind: 'text',
  section: 'chainline',
  title: 'At the motor',
  lines: [
    'The drive unit sets where its ring runs: ask its maker for the line of each ring it lists.',
    'No spacer under the ring, and no ring turned round, unless the maker says so.',
  ],
};

const WHY: TextBlock = {
  kind: 'text',
  section: 'chainline',
  title: 'Why it matters',
  lines: [
    'A slanted chain is noisier, wears faster and drops in the largest sprocket.',
    `Power is no reason: of ${DRIVE_EFFICIENCY.lowPct} to ${DRIVE_EFFICIENCY.highPct} % measured, the slant did not show.`,
    `That was ${LOSSES}.`,
    `Made cranks sit a quarter of a millimetre off: ${MADE} mm.`,
  ],
};

/** "6 mm further out than" or "in line with". */
function sideWords(offsetMm: number): string {
  const by = plain(Math.abs(offsetMm), 1);
  if (by === '0') return 'in line with';
  return `${by} mm further ${offsetMm > 0 ? 'out' : 'in'} than`;
}

const VERDICT_WORDS = {
  good: 'good',
  acceptable: 'acceptable',
  poor: 'too far',
} as const satisfies Record<NonNullable<ChainlinePart['verdict']>, string>;

function worstSprocket(part: ChainlinePart): number | null {
  const worst = part.sprockets.find((each) => each.angleDeg === part.worstDeg);
  return worst?.teeth ?? null;
}

/** "48 to 50 mm". */
function target(part: ChainlinePart): string {
  return `${plain(part.targetLowMm ?? 0, 1)} to ${plain(part.targetHighMm ?? 0, 1)} mm`;
}

/** The answer in one line, complete on its own. */
export function chainlineHeadline(part: ChainlinePart, bike: SettledBike): string {
  const { frontMm, offsetMm, verdict, worstDeg } = part;
  if (frontMm !== null && offsetMm !== null && verdict !== null) {
    const line = `Ring at ${plain(frontMm, 2)} mm: ${sideWords(offsetMm)} the cassette's middle`;
    const teeth = worstSprocket(part);
    const worst = worstDeg === null || teeth === null ? '' : `, ${plain(worstDeg, 1)}° at worst (${teeth}T)`;
    return `${line}${worst}: ${VERDICT_WORDS[verdict]}.`;
  }
  if (part.targetLowMm !== null) return `Aim for a ring line of ${target(part)} with a ${bike.hubMm} mm hub.`;
  if (bike.hubMm !== undefined) return `No cassette line is printed for a ${plain(bike.hubMm, 1)} mm hub: measure it.`;
  if (frontMm !== null) return `Ring at ${plain(frontMm, 2)} mm: ${hubsFor(frontMm)}.`;
  return 'Chainline: the ring should run in line with the middle of the cassette. The hub width decides where that is.';
}

function hubsFor(frontMm: number): string {
  const hubs = FRONT_LINES.filter((row) => row.lowMm <= frontMm && frontMm <= row.highMm).map((row) => `${row.hubMm}`);
  return hubs.length === 0
    ? 'not a line made for any usual hub, measure the rear too'
    : `a line made for hubs of ${orList(hubs)} mm`;
}

/** The few facts that matter most; at most five. */
export function chainlineLines(part: ChainlinePart, bike: SettledBike): readonly string[] {
  const lines: string[] = [];
  if (part.rearMm !== null) {
    lines.push(`Middle of the cassette: ${length(part.rearMm)} from the middle of the frame.`);
  }
  // Without a told line the headline names the target.
  if (part.targetLowMm !== null && part.frontMm !== null)
    lines.push(`Rings for a ${bike.hubMm} mm hub are made to run at ${target(part)}.`);
  if (part.targetLowMm !== null && bike.hubMm !== ROAD_LINE.hubMm && hasRoadRings(bike.rings ?? [], null) === true) {
    lines.push(`That is a trail line: road cranks with one ring run at ${ROAD_LINE.lowMm} to ${ROAD_LINE.highMm} mm.`);
  }
  if (part.rearMm === null && bike.hubMm !== undefined) {
    lines.push('Cassette: half the hub width, less the gap to the smallest sprocket, less half the stack.');
  }
  if (part.frontMm === null) lines.push('Ring: half the seat tube, plus the gap from tube to tooth centre.');
  if (part.offsetMm !== null && part.worstDeg === null)
    lines.push('With chainstay and sprocket count come the angles.');
  const familyMayHold = bike.mount === 'direct' && bike.assist !== 'mid-drive';
  if (familyMayHold && bike.offsetMm !== undefined && bike.chainlineMm === undefined) {
    const line = plain(directMountLineMm(bike.offsetMm), 1);
    lines.push(`In one widespread family ${plain(bike.offsetMm, 1)} mm offset is ${line} mm; in others not: measure.`);
  }
  return lines;
}

function sprocketTable(part: ChainlinePart): TableBlock {
  return {
    kind: 'table',
    section: 'chainline',
    title: 'Ring against the sprockets',
    columns: ['Sprocket', 'Ring is', 'Angle'],
    rows: part.sprockets.map(({ teeth, offsetMm, angleDeg }) => [
      `${teeth}T`,
      `${plain(Math.abs(offsetMm), 1)} mm ${offsetMm < 0 ? 'in' : 'out'}`,
      angleDeg === null ? 'unknown' : `${plain(angleDeg, 1)}°`,
    ]),
  };
}

function places(bike: SettledBike): TextBlock {
  const count = bike.rings?.length;
  const road = hasRoadRings(bike.rings ?? [], null) ?? true;
  const fitting = CRANK_LINES.filter((row) => count === undefined || (row.rings === count && row.road === road));
  const lines = fitting.map((row) => {
    const to = row.highMm === row.lowMm ? '' : `–${plain(row.highMm, 1)}`;
    return `${row.place}: about ${plain(row.lowMm, 1)}${to} mm.`;
  });
  if (count === 3) lines.push("A triple's middle place is the straighter one; use the outer only if the frame asks.");
  if (count === 2) lines.push("A double's line is midway between its rings: the outer place is further out than that.");
  lines.push('On the inner face of the same tabs the ring moves in by a tab and a ring.');
  return { kind: 'text', section: 'chainline', title: 'Which place on the crank', lines };
}

const OFFSETS: TextBlock = {
  kind: 'text',
  section: 'chainline',
  title: 'Direct-mount offsets',
  lines: [
    ...RING_OFFSETS.map(
      (row) =>
        `${row.offsetMm} mm offset: for ${row.hubs}${row.hubs === 'wider' ? '' : ' mm'} hubs, in one widespread family.`,
    ),
    'Other families count from elsewhere: their figures do not carry over.',
  ],
};

/** Everything about the chainline beyond headline and lines, cautions first. */
export function chainlineBlocks(part: ChainlinePart, bike: SettledBike, spacing: Spacing | null): readonly Block[] {
  return [...whereBlocks(part, bike), MEASURE, WHY, ...workingBlocks(part, bike, spacing)];
}

/** The chainline as one section of a plan; how it is measured and why it matters are for whoever asks for it alone. */
export function chainlineSection(part: ChainlinePart, bike: SettledBike, spacing: Spacing | null): readonly Block[] {
  const lines = [chainlineHeadline(part, bike), ...chainlineLines(part, bike)];
  if (part.offsetMm === null) lines.push('How to measure it, with a picture: measure chainline.');
  return [
    { kind: 'text', section: 'chainline', title: 'Where the ring runs', lines },
    ...whereBlocks(part, bike),
    ...workingBlocks(part, bike, spacing),
  ];
}

function whereBlocks(part: ChainlinePart, bike: SettledBike): readonly Block[] {
  const blocks: Block[] = [backPedal(bike)];
  if (part.sprockets.length > 0) blocks.push(sprocketTable(part));
  if (bike.assist === 'mid-drive') blocks.push(AT_THE_MOTOR);
  else blocks.push(bike.mount === 'direct' ? OFFSETS : places(bike));
  if (bike.hubMm !== undefined && part.frontMm !== null) {
    const inside = length(dropoutToRingMm(bike.hubMm, part.frontMm));
    const lines = [`With a straightedge: the ring's line lies ${inside} inside the dropout's inner face.`];
    blocks.push({ kind: 'text', section: 'chainline', title: 'Sighting it', lines });
  }
  return blocks;
}

function workingBlocks(part: ChainlinePart, bike: SettledBike, spacing: Spacing | null): readonly Block[] {
  const steps = chainlineWorking(part, bike, spacing);
  return steps.length > 0 ? [{ kind: 'working', section: 'chainline', steps }] : [];
}
