import type { SettledBike } from '../bike/settled.ts';
import type { MountPart } from '../commands/answer.ts';
import type { BoltStackFigure } from '../draw/figure.ts';
import { threadEngagement } from '../solve/ring-bolts.ts';
import { RING_BOLT } from '../tables/ring-bolts.ts';
import type { FigureBlock } from './card.ts';
import { length, plain } from './measures.ts';

const LEAST_CLEAR_MM = RING_BOLT.leastClear.valueMm;
const STEEL_MM = threadEngagement('steel').lowMm;
const ALUMINIUM_MM = threadEngagement('aluminium').lowMm;

/** The bolt in section; null while the thicknesses at the bolt are not known. */
export function boltStackFigure(
  stack: MountPart['stack'],
  tabs: Pick<SettledBike, 'ringTabMm' | 'spiderTabMm'>,
): FigureBlock | null {
  const { ringTabMm, spiderTabMm } = tabs;
  if (stack === null || ringTabMm === undefined || spiderTabMm === undefined) return null;
  const { gripMm, sleeveMm, clearanceMm, leastThreadMm, verdict } = stack;
  const figure: BoltStackFigure = {
    kind: 'bolt-stack',
    ringTabMm,
    spiderTabMm,
    gripMm,
    sleeveMm,
    clearanceMm,
    leastClearMm: LEAST_CLEAR_MM,
    leastThreadMm,
    verdict,
    washerMm: verdict === 'bottoms' && clearanceMm !== null ? LEAST_CLEAR_MM - clearanceMm : null,
    steelMm: STEEL_MM,
    aluminiumMm: ALUMINIUM_MM,
  };
  return { kind: 'figure', section: 'mount', title: 'Ring bolt, cut along its middle', alt: altText(figure), figure };
}

function altText(figure: BoltStackFigure): string {
  const { ringTabMm, spiderTabMm, gripMm, sleeveMm, clearanceMm, leastClearMm, washerMm } = figure;
  const sentences = [
    `A ring bolt cut along its middle: crank tab ${length(spiderTabMm)} and ring tab ${length(ringTabMm)} make a grip of ${length(gripMm)}.`,
  ];
  if (sleeveMm === null || clearanceMm === null) {
    sentences.push(`The sleeve may be ${length(gripMm - leastClearMm)} at most; measure it.`);
  } else if (figure.verdict === 'short') {
    sentences.push(
      `The sleeve of ${length(sleeveMm)} leaves ${plain(clearanceMm, 1)} mm clear, but is shorter than the ${plain(figure.leastThreadMm, 2)} mm of thread that must hold. Do not ride.`,
    );
  } else if (washerMm === null) {
    sentences.push(
      `The sleeve of ${length(sleeveMm)} leaves ${plain(clearanceMm, 1)} mm clear, at least ${plain(leastClearMm, 1)} mm asked: it holds.`,
    );
  } else {
    sentences.push(
      `The sleeve of ${length(sleeveMm)} and the bolt's head meet, so the ring stays loose. Do not ride.`,
      `With a washer of ${plain(washerMm, 1)} mm the grip is ${length(gripMm + washerMm)}, ${plain(leastClearMm, 1)} mm stay clear and it holds.`,
    );
  }
  sentences.push(
    `Thread that must hold: at least ${plain(figure.steelMm, 2)} mm in steel, ${plain(figure.aluminiumMm, 2)} mm in aluminium.`,
  );
  return sentences.join(' ');
}
