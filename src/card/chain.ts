import type { SettledBike } from '../bike/settled.ts';
import type { ChainPart } from '../commands/answer.ts';
import type { ChainGateReason } from '../solve/chain-length.ts';
import { pitchesFromEven } from '../solve/chain-length.ts';
import { ALLOWANCES } from '../tables/chain-rules.ts';
import { SPROCKET_GEOMETRY } from '../tables/sprocket-geometry.ts';
import type { Block, CautionBlock, ChecklistBlock, TableBlock, TextBlock } from './card.ts';
import { joiningBlocks } from './chain-joining.ts';
import { chainWorking, toothChangeLine } from './chain-working.ts';
import { length, pitches, plain } from './measures.ts';

const PITCH_MM = SPROCKET_GEOMETRY.pitch.value;
/** A sum this near an even count is said to be near: a third of a millimetre of stay would tip it. */
const NEAR_PITCHES = 0.05;

const GATE_REASONS: Readonly<Record<ChainGateReason, string>> = {
  'longest-unknown': 'with rear suspension the longest axle distance decides',
  'stay-unknown': 'the axle distance (chainstay) is not known',
  'longest-under-stay': 'the longest axle distance is under the chainstay, so one of the two is misread',
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

const LOWER_LIMIT: CautionBlock = {
  kind: 'caution',
  section: 'chain',
  level: 'care',
  text: 'With one ring the largest sprocket is always within reach, so this lower limit is absolute: never go under it.',
};

const MEASURE_LONGEST: TextBlock = {
  kind: 'text',
  section: 'chain',
  title: 'Measuring the longest',
  lines: [
    'Let the air out of the shock, or take its spring off.',
    'Move the rear wheel slowly through its whole travel.',
    'Measure crank axle to wheel axle where it is furthest: longest=452mm.',
  ],
};

const MEASURE_STAYS: TextBlock = {
  kind: 'text',
  section: 'chain',
  title: 'Measuring the stays',
  lines: [
    'Middle of the crank axle to middle of the wheel axle, along the chainstay.',
    'A millimetre is near enough; tell it as stays=440mm.',
  ],
};

const ODD_COUNT: TextBlock = {
  kind: 'text',
  section: 'chain',
  title: 'Count once more',
  lines: [
    'A closed loop has an even number: inner and outer take turns all the way round.',
    'Mark one pin, count every pin once round; the joining link is one pitch too.',
    'Until then nothing to take out is named.',
  ],
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
  if (part.removePitches === null || part.addPitches === null) return target;
  if (part.removePitches > 0) return `${target} Take out ${pitches(part.removePitches)}.`;
  if (part.addPitches > 0) return `${target} Add ${pitches(part.addPitches)}, take none out.`;
  return `${target} Yours has that already: nothing comes out.`;
}

function presentLine(part: ChainPart, target: number, bike: SettledBike): string {
  if (part.presentPitches !== null) {
    if (part.removePitches === null)
      return `${part.presentPitches} is odd, and a loop is even: count again before anything comes out.`;
    return part.addPitches !== null && part.addPitches > 0
      ? `Yours has ${part.presentPitches}: too short. Better a new chain than pieces in an old one.`
      : `Yours has ${pitches(part.presentPitches)}. Count twice, cut once.`;
  }
  if (part.oldTargetPitches === null) return 'Count your chain (chain=114), then what comes out can be said.';
  const change = part.oldTargetPitches - target;
  const old = `A chain sized for ${bike.rings?.[0]} × ${bike.cassette?.largestTeeth} has ${part.oldTargetPitches}`;
  if (change > 0) return `${old}: then ${pairsWord(change)} ${change === 2 ? 'comes' : 'come'} out.`;
  return change < 0 ? `${old}: then ${pairsWord(-change)} ${change === -2 ? 'goes' : 'go'} in.` : `${old} too.`;
}

function ruleLine(part: ChainPart, target: number): string {
  const other = part.alternativeRulePitches;
  return other === null || other === target
    ? "A second printed rule agrees; your derailleur maker's figure wins over both."
    : `A second printed rule gives ${other}; your derailleur maker's figure wins over both.`;
}

/** How far the rider's measure is from a pair more, or how near a pair less; null where there is no boundary. */
function boundaryLine(part: ChainPart, bike: SettledBike): string | null {
  if (part.wrapPitches === null || part.boundaryStayMm === null) return null;
  const sum = part.wrapPitches + part.allowancePitches;
  const off = pitchesFromEven(sum);
  if (Math.abs(off) <= NEAR_PITCHES) {
    const by = plain(Math.abs(off), 3);
    const roundedUp = part.targetPitches !== null && part.targetPitches - sum > 1;
    return roundedUp
      ? `On the edge: ${by} pitch less and a pair fewer would do. Check on the bike.`
      : `On the edge: the sum is within ${by} of the next pair. Check on the bike.`;
  }
  // Rounded up, so that the figure shown is already past the boundary.
  const from = length(Math.ceil(part.boundaryStayMm * 10) / 10);
  return bike.suspension === 'rear'
    ? `From ${from} at the longest on, two pitches more.`
    : `From ${from} stays on, two pitches more.`;
}

/** The few facts that matter most; at most five. */
export function chainLines(part: ChainPart, bike: SettledBike): readonly string[] {
  const target = part.targetPitches;
  const centreMm = part.centreMm ?? null;
  if (target === null || part.wrapPitches === null || centreMm === null) {
    return [
      `No length yet: ${part.gateReason ?? 'a measure is missing'}.`,
      'Nothing comes out of the chain before that.',
    ];
  }
  const where = bike.suspension === 'rear' ? 'at its longest' : 'stays';
  const lines = [
    `Bare wrap ${part.wrapPitches.toFixed(2)} pitches on ${length(centreMm)} ${where}, + ${part.allowancePitches}, up to even.`,
    presentLine(part, target, bike),
    ruleLine(part, target),
  ];
  const boundary = boundaryLine(part, bike);
  if (boundary !== null) lines.push(boundary);
  if (part.growthMm !== null && part.growthPitches !== null) {
    lines.push(
      `The suspension adds ${plain(part.growthMm, 1)} mm, ${plain(part.growthPitches, 1)} pitches: counted in.`,
    );
  }
  return lines;
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

/** How to find the length with the chain in hand. Numbers in words, so that it may stand beside a shut gate too. */
function onTheBike(part: ChainPart, bike: SettledBike): ChecklistBlock {
  const items: { text: string; detail?: string }[] = [
    {
      text: `Lay the chain round the ${part.ringTeeth}T ring and the ${part.sprocketTeeth}T sprocket, past the derailleur.`,
    },
    { text: 'Pull the ends together: where they can first be joined is what just fits.' },
    { text: 'One pair more, inner and outer, is the shortest that may stay.' },
    {
      text: 'Count: a loop is even.',
      detail: 'With a joining link both ends are inner, and the link is the last outer pitch.',
    },
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

function whatChangesIt(part: ChainPart, bike: SettledBike): TextBlock {
  const lines: string[] = [];
  const boundary = boundaryLine(part, bike);
  if (boundary !== null) lines.push(boundary);
  const toothChange = toothChangeLine(part, bike);
  if (toothChange !== null) lines.push(toothChange);
  if (bike.suspension === 'none')
    lines.push('Rear suspension after all? Measure at its longest first (longest=452mm).');
  if (bike.ovalityPct !== undefined && bike.ovalityPct > 0) {
    lines.push('An oval ring takes the chain of a round one with the same count of teeth.');
  }
  return { kind: 'text', section: 'chain', title: 'What would change it', lines };
}

/** Everything about the chain, cautions first. A shut gate leaves no count in it. */
export function chainBlocks(part: ChainPart, bike: SettledBike): readonly Block[] {
  if (part.targetPitches === null) {
    const measure = bike.suspension === 'rear' || bike.longestMm !== undefined ? MEASURE_LONGEST : MEASURE_STAYS;
    return [DO_NOT_CUT, measure, onTheBike(part, bike), ...joiningBlocks(bike)];
  }
  const blocks: Block[] = [TOO_SHORT, LOWER_LIMIT];
  if (part.presentPitches !== null && part.removePitches === null) blocks.push(ODD_COUNT);
  blocks.push(allowanceTable(part), WHICH_ALLOWANCE, onTheBike(part, bike));
  if (bike.suspension === 'rear') blocks.push(MEASURE_LONGEST);
  blocks.push(...joiningBlocks(bike), whatChangesIt(part, bike), {
    kind: 'working',
    section: 'chain',
    steps: chainWorking(part, bike),
  });
  const others = part.byAllowance.filter((row) => row.allowancePitches !== part.allowancePitches);
  blocks.push({
    kind: 'actions',
    section: 'chain',
    title: "If your derailleur's maker asks for more or less",
    actions: others.map((row) => ({
      label: `+${row.allowancePitches} pitches`,
      setup: `allowance=${row.allowancePitches}`,
    })),
  });
  return blocks;
}
