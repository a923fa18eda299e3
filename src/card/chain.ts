import type { SettledBike } from '../bike/settled.ts';
import type { ChainPart } from '../commands/answer.ts';
import type { ChainGateReason } from '../solve/chain-length.ts';
import { pitchesFromEven } from '../solve/chain-length.ts';
import { ALLOWANCES } from '../tables/chain-rules.ts';
import { SPROCKET_GEOMETRY } from '../tables/sprocket-geometry.ts';
import type { ActionsBlock, Block, CautionBlock, TableBlock, TextBlock } from './card.ts';
import { joiningBlocks } from './chain-joining.ts';
import { growthLine, MEASURE_STAYS, ODD_COUNT, onTheBike, suspensionBlock } from './chain-measuring.ts';
import { chainWorking, toothChangeLine } from './chain-working.ts';
import { length, pitches, plain } from './measures.ts';

const PITCH_MM = SPROCKET_GEOMETRY.pitch.value;
/** A sum this near an even count is said to be near: a third of a millimetre of stay would tip it. */
const NEAR_PITCHES = 0.05;

const GATE_REASONS: Readonly<Record<ChainGateReason, string>> = {
  'longest-unknown': 'with rear suspension the longest axle distance decides',
  'stay-unknown': 'the axle distance (chainstay) is not known',
  'longest-under-stay': 'the longest is under the chainstay, so one of the two is misread',
};

const TOO_SHORT: CautionBlock = {
  kind: 'caution',
  section: 'chain',
  level: 'stop',
  text:
    'If the largest sprocket binds or pulls the derailleur straight, stop riding: the chain is too short. ' +
    'Put a pair back in first.',
};

const DO_NOT_CUT: CautionBlock = {
  kind: 'caution',
  section: 'chain',
  level: 'stop',
  text:
    'Do not cut until measured: too short a chain can pull the derailleur apart or bend it into the wheel, ' +
    'and with rear suspension the chain is tightest where the axles are furthest apart.',
};

const SPRUNG_AFTER_ALL = 'Rear suspension after all? Measure at its longest first (longest=452mm).';

const LOWER_LIMIT: CautionBlock = {
  kind: 'caution',
  section: 'chain',
  level: 'care',
  text: 'With one ring the largest sprocket is always within reach, so this lower limit is absolute: never go under it.',
};

/** Why no length is given yet, in words. */
export function gateReasonWords(reason: ChainGateReason): string {
  return GATE_REASONS[reason];
}

function pairsWord(pitchCount: number): string {
  const pairs = pitchCount / 2;
  return pairs === 1 ? 'one pair' : `${pairs} pairs`;
}

/** The answer in one line, complete on its own. */
export function chainHeadline(part: ChainPart, bike: SettledBike): string {
  const wheels = `${part.ringTeeth}T × ${part.sprocketTeeth}T`;
  if (part.targetPitches === null) {
    if (bike.longestMm !== undefined && bike.stayMm !== undefined) {
      return `Do not cut the chain yet: ${plain(bike.longestMm, 1)} mm at its longest is under the ${plain(bike.stayMm, 1)} mm stays.`;
    }
    return bike.suspension === 'rear'
      ? 'Do not cut the chain yet: measure the axle distance with the suspension at its longest.'
      : `Chain for ${wheels}: measure the chainstay first, then there is a length.`;
  }
  const target = `Chain for ${wheels}: ${pitches(part.targetPitches)}.`;
  const { removePitches, addPitches } = part;
  if (removePitches !== null && removePitches > 0) return `${target} Take out ${pitches(removePitches)}.`;
  if (addPitches !== null && addPitches > 0) return `${target} Add ${pitches(addPitches)}, take none out.`;
  return removePitches === 0 ? `${target} Yours has that already: nothing comes out.` : target;
}

function isSprung(bike: SettledBike): boolean {
  return bike.suspension === 'rear' || bike.longestMm !== undefined;
}

function isOdd(presentPitches: number | null): boolean {
  return presentPitches !== null && presentPitches % 2 !== 0;
}

function presentLine(part: ChainPart, target: number, bike: SettledBike): string {
  const { presentPitches, addPitches, oldTargetPitches } = part;
  if (presentPitches !== null) {
    if (isOdd(presentPitches)) {
      return `${presentPitches} is odd, and a loop is even: count again before anything comes out.`;
    }
    return addPitches !== null && addPitches > 0
      ? `Yours has ${presentPitches}: too short. Better a new chain than pieces in an old one.`
      : `Yours has ${pitches(presentPitches)}. Count twice, cut once.`;
  }
  if (oldTargetPitches === null) return 'Count your chain (chain=114), then what comes out can be said.';
  const change = oldTargetPitches - target;
  const old = `A chain sized for ${bike.rings?.[0]} × ${bike.cassette?.largestTeeth} has ${oldTargetPitches}`;
  if (change > 0) return `${old}: then ${pairsWord(change)} ${change === 2 ? 'comes' : 'come'} out.`;
  return change < 0 ? `${old}: then ${pairsWord(-change)} ${change === -2 ? 'goes' : 'go'} in.` : `${old} too.`;
}

function ruleLine(part: ChainPart, target: number): string {
  const other = part.alternativeRulePitches;
  return other === null || other === target
    ? "A second printed rule agrees; your derailleur maker's figure wins over both."
    : `A second printed rule gives ${other}; your derailleur maker's figure wins over both.`;
}

/** Said where the sum lies so near an even count that the tape measure decides; null elsewhere. */
function edgeLine(part: ChainPart): string | null {
  if (part.wrapPitches === null || part.targetPitches === null) return null;
  const sum = part.wrapPitches + part.allowancePitches;
  const off = Math.abs(pitchesFromEven(sum));
  if (off > NEAR_PITCHES) return null;
  return part.targetPitches - sum > 1
    ? `On the edge: ${plain(off, 3)} pitch less and a pair fewer would do. Check on the bike.`
    : `On the edge: the sum is within ${plain(off, 3)} pitch of the next pair. Check on the bike.`;
}

/** The nearest axle distance that asks for more. */
function boundaryLine(part: ChainPart, bike: SettledBike): string | null {
  if (part.boundaryStayMm === null) return null;
  // Rounded up, so that the figure shown is already past the boundary.
  const from = length(Math.ceil(part.boundaryStayMm * 10) / 10);
  return `From ${from} ${bike.suspension === 'rear' ? 'at the longest' : 'stays'} on, two pitches more.`;
}

/** The sum behind the length; null while there is none. */
function wrapLine(part: ChainPart, bike: SettledBike): string | null {
  const { wrapPitches, centreMm = null, allowancePitches } = part;
  if (wrapPitches === null || centreMm === null) return null;
  const where = bike.suspension === 'rear' ? 'at its longest' : 'stays';
  return `Bare wrap ${wrapPitches.toFixed(2)} pitches on ${length(centreMm)} ${where}, + ${allowancePitches}, up to even.`;
}

/** The few facts that matter most; at most five. */
export function chainLines(part: ChainPart, bike: SettledBike): readonly string[] {
  const target = part.targetPitches;
  const wrap = wrapLine(part, bike);
  if (target === null || wrap === null) {
    return [
      `No length yet: ${part.gateReason ?? 'a measure is missing'}.`,
      'Nothing comes out of the chain before that.',
    ];
  }
  const lines = [wrap, presentLine(part, target, bike), ruleLine(part, target)];
  const edge = edgeLine(part);
  if (edge !== null) lines.push(edge);
  const growth = growthLine(part);
  if (growth !== null) lines.push(growth);
  return lines;
}

/** What is taken where nobody told: another is a maker's figure already. */
const USUAL_ALLOWANCE = 2;

/** That the printed rules disagree, and by how much, in two lines. */
function disagreementLines(part: ChainPart): readonly string[] {
  const others = part.byAllowance
    .filter((row) => row.allowancePitches !== part.allowancePitches)
    .map((row) => `+${row.allowancePitches} gives ${row.targetPitches}`);
  const second = part.alternativeRulePitches;
  const another = second === null || second === part.targetPitches ? '' : `, another rule ${second}`;
  return [
    `Printed rules disagree: ${others.join(', ')}${another}.`,
    part.allowancePitches === USUAL_ALLOWANCE
      ? "Your derailleur maker's figure wins: tell it as allowance=4."
      : "Your derailleur maker's figure wins over all of them.",
  ];
}

function allowanceTable(part: ChainPart): TableBlock {
  return {
    kind: 'table',
    section: 'chain',
    title: 'By allowance: printed rules differ',
    columns: ['Allowance', 'Pitches', 'Pairs', 'Length'],
    rows: part.byAllowance.map((row) => [
      row.allowancePitches === part.allowancePitches ? `+${row.allowancePitches} (this)` : `+${row.allowancePitches}`,
      `${row.targetPitches}`,
      `${row.targetPitches / 2}`,
      `${plain(row.targetPitches * PITCH_MM, 1)} mm`,
    ]),
  };
}

const WHICH_ALLOWANCE: TextBlock = {
  kind: 'text',
  section: 'chain',
  title: 'Which allowance',
  lines: [
    ...ALLOWANCES.map((row) => `+${row.allowancePitches}: ${row.rule}.`),
    "What your derailleur's maker prints comes before all three.",
  ],
};

function otherAllowances(part: ChainPart): ActionsBlock {
  const others = part.byAllowance.filter((row) => row.allowancePitches !== part.allowancePitches);
  return {
    kind: 'actions',
    section: 'chain',
    title: "If your derailleur's maker asks for another",
    actions: others.map((row) => ({
      label: `+${row.allowancePitches} pitches`,
      setup: `allowance=${row.allowancePitches}`,
    })),
  };
}

function whatChangesIt(part: ChainPart, bike: SettledBike): TextBlock {
  const lines: string[] = [];
  const boundary = boundaryLine(part, bike);
  if (boundary !== null) lines.push(boundary);
  const toothChange = toothChangeLine(part, bike);
  if (toothChange !== null) lines.push(toothChange);
  if (bike.suspension === 'none' && bike.suspensionAssumed) lines.push(SPRUNG_AFTER_ALL);
  if (bike.ovalityPct !== undefined && bike.ovalityPct > 0) {
    lines.push('An oval ring takes the chain of a round one with the same count of teeth.');
  }
  return { kind: 'text', section: 'chain', title: 'What would change it', lines };
}

/** What anybody who may cut a chain has to read, before everything else. */
function firstCautions(part: ChainPart): readonly Block[] {
  return part.targetPitches === null ? [DO_NOT_CUT] : [TOO_SHORT, LOWER_LIMIT];
}

function details(part: ChainPart, bike: SettledBike): readonly Block[] {
  if (part.targetPitches === null) {
    return [
      isSprung(bike) ? suspensionBlock(part) : MEASURE_STAYS,
      onTheBike(part, bike),
      ...joiningBlocks(bike, 'all'),
    ];
  }
  const blocks: Block[] = [];
  if (isOdd(part.presentPitches)) blocks.push(ODD_COUNT);
  blocks.push(allowanceTable(part), WHICH_ALLOWANCE, onTheBike(part, bike));
  if (bike.suspension === 'rear') blocks.push(suspensionBlock(part));
  blocks.push(
    ...joiningBlocks(bike, 'all'),
    whatChangesIt(part, bike),
    { kind: 'working', section: 'chain', steps: chainWorking(part, bike) },
    otherAllowances(part),
  );
  return blocks;
}

/** Everything about the chain but its headline and lines. A shut gate leaves no count in it. */
export function chainBlocks(part: ChainPart, bike: SettledBike): readonly Block[] {
  return [...firstCautions(part), ...details(part, bike)];
}

const NEW_CHAIN = 'Your chain is worn: leave it whole, and cut the new one to this length.';

/** A new chain is cut to length; nothing comes out of the old one. */
function ofNewChain(part: ChainPart): ChainPart {
  return { ...part, removePitches: null, addPitches: null };
}

/** What a plan says of the length: how it came about, what comes out, and that the printed rules disagree. */
function planLines(part: ChainPart, bike: SettledBike, chainWorn: boolean): readonly string[] {
  const target = part.targetPitches;
  const wrap = wrapLine(part, bike);
  if (target === null || wrap === null) {
    const measure = 'Measure from the crank axle to the wheel axle, along the stay: stays=440mm.';
    return [...(isSprung(bike) ? [] : [measure]), 'Nothing comes out of the chain before that.'];
  }
  const present = chainWorn ? NEW_CHAIN : presentLine(part, target, bike);
  const lines = [wrap, present, ...disagreementLines(part)];
  for (const line of [edgeLine(part), boundaryLine(part, bike), growthLine(part)]) if (line !== null) lines.push(line);
  if (bike.suspension === 'none' && bike.suspensionAssumed) lines.push(SPRUNG_AFTER_ALL);
  return lines;
}

/**
 * The chain as one section of a larger card: cautions, length, how to check it and how to close it. The table of
 * allowances and the rest are for whoever asks about the chain alone.
 */
export function chainSection(part: ChainPart, bike: SettledBike, chainWorn: boolean): readonly Block[] {
  const blocks: Block[] = [
    ...firstCautions(part),
    {
      kind: 'text',
      section: 'chain',
      title: 'Chain length',
      lines: [chainHeadline(chainWorn ? ofNewChain(part) : part, bike), ...planLines(part, bike, chainWorn)],
    },
  ];
  if (isOdd(part.presentPitches)) blocks.push(ODD_COUNT);
  if (part.targetPitches === null && isSprung(bike)) blocks.push(suspensionBlock(part));
  blocks.push(onTheBike(part, bike), ...joiningBlocks(bike, 'plan'));
  const steps = chainWorking(part, bike);
  if (steps.length > 0) blocks.push({ kind: 'working', section: 'chain', steps });
  return blocks;
}
