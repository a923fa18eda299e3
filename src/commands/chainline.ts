import type { Question } from '../bike/reading.ts';
import type { SettledBike } from '../bike/settled.ts';
import { chainlineBlocks, chainlineHeadline, chainlineLines } from '../card/chainline.ts';
import { chainlineFigure, type SprocketLine } from '../card/chainline-figure.ts';
import {
  chainAngleDeg,
  hubLines,
  lineVerdict,
  type Spacing,
  sprocketLinesMm,
  sprocketSpacing,
} from '../solve/chainline.ts';
import { FRONT_LINES } from '../tables/chainlines.ts';
import type { ChainlinePart } from './answer.ts';
import type { Command, Outcome } from './command.ts';
import { driveParts } from './drive-parts.ts';

const LINE_QUESTION: Question = {
  field: 'chainline',
  question: "Where does the ring run? Half the seat tube's diameter plus the gap from tube to tooth centre.",
  choices: [],
};

const HUB_QUESTION: Question = {
  field: 'hub',
  question: 'How wide is the rear hub, over its locknuts or end caps?',
  choices: FRONT_LINES.filter((row) => row.hubMm !== 141 && row.hubMm !== 150).map((row) => ({
    label: `${row.hubMm} mm`,
    setup: `hub=${row.hubMm}`,
  })),
};

const STAYS_QUESTION: Question = {
  field: 'stays',
  question: 'How long are the chainstays, crank axle to wheel axle?',
  choices: [],
};

/** The chainline and what its words need. */
export type ChainlineFindings = {
  readonly part: ChainlinePart;
  readonly spacing: Spacing | null;
  /** Where each sprocket lies, smallest and outermost first; empty where the cassette's place is not known. */
  readonly sprocketLines: readonly SprocketLine[];
  /** The most telling first. */
  readonly asks: readonly Question[];
};

/** Told sprockets, else those handed in, else the two ends; smallest first. */
function namedSprockets(bike: SettledBike, sprockets: readonly number[] | null): readonly number[] {
  const cassette = bike.newCassette ?? bike.cassette;
  if (cassette?.sprockets !== undefined) return cassette.sprockets;
  if (sprockets !== null) return sprockets;
  return cassette === undefined ? [] : [cassette.smallestTeeth, cassette.largestTeeth];
}

/** The chainline on this bike; `sprockets` is the whole cassette, smallest first, where the plan knows or assumes it. */
export function chainlinePart(bike: SettledBike, sprockets: readonly number[] | null): ChainlineFindings {
  const frontMm = bike.chainlineMm ?? null;
  const lines = bike.hubMm === undefined ? null : hubLines(bike.hubMm);
  const rearMm = lines?.rearMm ?? null;
  const offsetMm = frontMm === null || rearMm === null ? null : frontMm - rearMm;

  const named = namedSprockets(bike, sprockets);
  const speeds = named.length > 2 ? named.length : (bike.speeds ?? null);
  const spacing = speeds === null ? null : sprocketSpacing(speeds);
  const stayMm = bike.stayMm ?? null;
  const each: ChainlinePart['sprockets'][number][] = [];
  const sprocketLines: SprocketLine[] = [];
  let worstDeg: number | null = null;
  if (rearMm !== null && spacing !== null && speeds !== null) {
    const lines = sprocketLinesMm(rearMm, speeds, spacing.spacingMm);
    for (const [index, teeth] of named.entries()) {
      const lineMm = lines[named.length > 2 ? index : index * (speeds - 1)];
      if (lineMm === undefined) continue;
      sprocketLines.push({ teeth, lineMm });
      if (frontMm === null) continue;
      const angleDeg = stayMm === null ? null : chainAngleDeg(frontMm - lineMm, stayMm);
      each.push({ teeth, offsetMm: frontMm - lineMm, angleDeg });
      if (angleDeg !== null && (worstDeg === null || angleDeg > worstDeg)) worstDeg = angleDeg;
    }
  }
  const onMadeLine = frontMm !== null && lines !== null && lines.lowMm <= frontMm && frontMm <= lines.highMm;
  const part: ChainlinePart = {
    frontMm,
    rearMm,
    offsetMm,
    sprockets: each,
    worstDeg,
    verdict: offsetMm === null ? null : lineVerdict({ offsetMm, worstDeg, onMadeLine }),
    targetLowMm: lines?.lowMm ?? null,
    targetHighMm: lines?.highMm ?? null,
  };
  const asks: Question[] = [];
  if (bike.hubMm === undefined) asks.push(HUB_QUESTION);
  if (frontMm === null) asks.push(LINE_QUESTION);
  if (stayMm === null && offsetMm !== null) asks.push(STAYS_QUESTION);
  return { part, spacing, sprocketLines, asks };
}

function answer(bike: SettledBike): Outcome {
  const { part, spacing, sprocketLines, asks } = chainlinePart(bike, null);
  const figure = chainlineFigure(part, sprocketLines, bike, bike.ringTeeth ?? null);
  const drive = driveParts(bike);
  const words = {
    answer: chainlineHeadline(part, bike),
    lines: chainlineLines(part, bike),
    blocks: [
      ...drive.cautions,
      ...chainlineBlocks(part, bike, spacing),
      ...(figure === null ? [] : [figure]),
      ...drive.notes,
    ],
  };
  if (bike.hubMm === undefined && part.frontMm === null && bike.offsetMm === undefined && bike.rings === undefined) {
    return { kind: 'asks', words, asks };
  }
  return {
    kind: 'answered',
    answer: { chainline: part, ...drive.parts },
    words,
    assumed: [],
    asks: [...asks, ...drive.asks],
  };
}

export const chainline: Command = {
  name: 'chainline',
  summary: 'How straight the chain runs from a single ring to every sprocket, and where the ring should be',
  keys: [
    'chainline',
    'hub',
    'stays',
    'cassette',
    'newcassette',
    'speeds',
    'rings',
    'mount',
    'offset',
    'assist',
    'tandem',
  ],
  examples: ['chainline=49mm hub=142 stays=440mm speeds=10 cassette=11-36', 'rings=44/32/22 hub=135'],
  answer,
};
