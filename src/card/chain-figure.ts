import type { ChainPart } from '../commands/answer.ts';
import type { ChainFigure } from '../draw/figure.ts';
import { SPROCKET_GEOMETRY } from '../tables/sprocket-geometry.ts';
import type { FigureBlock } from './card.ts';
import { length, pitches } from './measures.ts';

const PITCH_MM = SPROCKET_GEOMETRY.pitch.value;

/** The chain round its wheels and where it is cut; null while nothing may be cut, so that no count stands anywhere. */
export function chainFigure(part: ChainPart, join: 'link' | 'pin' | null): FigureBlock | null {
  const { targetPitches, wrapPitches, centreMm = null } = part;
  if (targetPitches === null || wrapPitches === null || centreMm === null) return null;
  const figure: ChainFigure = {
    kind: 'chain',
    ringTeeth: part.ringTeeth,
    sprocketTeeth: part.sprocketTeeth,
    centreMm,
    wrapPitches,
    allowancePitches: part.allowancePitches,
    targetPitches,
    presentPitches: part.presentPitches,
    removePitches: part.removePitches,
    addPitches: part.addPitches,
    join,
  };
  return { kind: 'figure', section: 'chain', title: 'What to count and where to cut', alt: altText(figure), figure };
}

function altText(figure: ChainFigure): string {
  const { removePitches, addPitches, presentPitches } = figure;
  const yours = presentPitches === null ? '' : `Yours has ${presentPitches} pitches: `;
  const sentences = [
    `The chain round ${figure.ringTeeth}T and ${figure.sprocketTeeth}T, axles ${length(figure.centreMm)} apart, past the derailleur: ${figure.wrapPitches.toFixed(2)} pitches just fit.`,
    `Plus ${figure.allowancePitches}, up to even: ${pitches(figure.targetPitches)}.`,
    `1 pitch is ${length(PITCH_MM)}, pin to pin; 1 pair, inner and outer, is ${length(2 * PITCH_MM)}.`,
    'Wide teeth stand between outer plates, narrow teeth between inner plates.',
  ];
  if (removePitches !== null && removePitches > 0) {
    sentences.push(`${yours}${pitches(removePitches)} come out, cut behind an inner pitch.`);
  } else if (addPitches !== null && addPitches > 0) {
    sentences.push(`${yours}${pitches(addPitches)} too short. Nothing comes out.`);
  } else if (removePitches === 0) sentences.push(`${yours}nothing comes out.`);
  else sentences.push('Count every pin of yours once round before you cut.');
  sentences.push(
    figure.join === 'pin'
      ? 'With a pin one end is inner, the other outer; never push an old pin back in.'
      : 'With a joining link both ends are inner; the link is the last outer pitch.',
  );
  return sentences.join(' ');
}
