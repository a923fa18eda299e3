import { pitches, plain } from '../card/measures.ts';
import { pitchDiameterMm } from '../solve/sprocket-diameters.ts';
import { SPROCKET_GEOMETRY } from '../tables/sprocket-geometry.ts';
import { levelDimension } from './dimension.ts';
import type { ChainFigure } from './figure.ts';
import { circle, type Drawing, line, MARGIN, path, px, rect, SIZE, text, WIDTH } from './svg.ts';
import { textWidth, wrapped } from './text-width.ts';

const PITCH_MM = SPROCKET_GEOMETRY.pitch.value;
const AXLES = 270;
const MOST_WIDE = WIDTH - 2 * MARGIN - 16;

/** From an axle to the far corner of a wheel's name inside it, and clear of the chain. */
const LEAST_ROUND_NAME = 36;

/** The strip of chain that shows what to count: six pitches, an outer link first. */
const LINKS = 6;
const PITCH = 62;
const STRIP_X = 54;
/** The end that stays closes with an inner link, so the cut is behind the fourth. */
const CUT_AT = 4;

/** The chain round both wheels to scale, then a piece of it from the side and from above: what to count, where to cut. */
export function chainDrawing(figure: ChainFigure): Drawing {
  const parts: string[] = [];
  const wheels = `${figure.ringTeeth}T × ${figure.sprocketTeeth}T`;
  parts.push(text([MARGIN, 34], `Chain for ${wheels}`, { size: SIZE.title, bold: true }));
  const loop = wrap(figure, 50);
  parts.push(...loop.parts);
  let y = 50 + loop.height;
  for (const words of lengthWords(figure)) {
    y += 22;
    parts.push(text([MARGIN, y], words));
  }
  y += 24;
  const cut = (figure.removePitches ?? 0) > 0;
  const piece = strip(cut, y + 14);
  parts.push(...piece.parts);
  y += 14 + piece.height;
  for (const note of cutWords(figure)) {
    const size = note.bold ? SIZE.usual : SIZE.small;
    for (const words of wrapped(note.words, WIDTH - 2 * MARGIN, size, note.bold ? 'bold' : 'regular')) {
      y += 22;
      parts.push(text([MARGIN, y], words, { bold: note.bold, size }));
    }
  }
  return { height: y + 18, parts };
}

/** What one pitch is and what a pair, for whoever counts a chain. */
export function countDrawing(): Drawing {
  const piece = strip(false, 62);
  const title = text([MARGIN, 34], 'Counting a chain', { size: SIZE.title, bold: true });
  return { height: 62 + piece.height + 8, parts: [title, ...piece.parts] };
}

/** Both wheels, the chain round them, and the distance between their axles. */
function wrap({ ringTeeth, sprocketTeeth, centreMm }: ChainFigure, top: number): Drawing {
  const [ringMm, sprocketMm] = [pitchDiameterMm(ringTeeth) / 2, pitchDiameterMm(sprocketTeeth) / 2];
  const perMm = Math.min(AXLES / centreMm, MOST_WIDE / (centreMm + ringMm + sprocketMm));
  const [big, small, centre] = [ringMm * perMm, sprocketMm * perMm, centreMm * perMm];
  const left = (WIDTH - centre - big - small) / 2 + small;
  const right = left + centre;
  const y = top + 8 + Math.max(big, small);
  const names = [
    { words: `${sprocketTeeth}T`, x: left, below: nameBelow(small) },
    { words: `${ringTeeth}T`, x: right, below: nameBelow(big) },
  ];
  const distance = `${plain(centreMm, 1)} mm`;
  const slope = Math.asin((big - small) / centre);
  const [sin, cos] = [Math.sin(slope), Math.cos(slope)];
  const [lx, rx] = [left - small * sin, right - big * sin];
  const chain =
    `M${px(lx)} ${px(y - small * cos)}L${px(rx)} ${px(y - big * cos)}` +
    `A${px(big)} ${px(big)} 0 ${slope > 0 ? 1 : 0} 1 ${px(rx)} ${px(y + big * cos)}` +
    `L${px(lx)} ${px(y + small * cos)}A${px(small)} ${px(small)} 0 ${slope > 0 ? 0 : 1} 1 ${px(lx)} ${px(y - small * cos)}Z`;
  return {
    height: Math.max(big, small) + 8 + Math.max(big + 8, small + 8, ...names.map((name) => name.below + 8)),
    parts: [
      circle([left, y], small - 4, 'fine'),
      circle([right, y], big - 4, 'fine'),
      path(chain, 'chain'),
      levelDimension(left, right, y),
      text([distanceX(distance, left + small, right - big, left, right), y - 8], distance, { anchor: 'middle' }),
      ...names.map((name) => text([name.x, y + name.below], name.words, { anchor: 'middle', bold: true })),
    ],
  };
}

/** Where the distance stands: between the wheels, or within the larger one where they leave no room for it. */
function distanceX(words: string, from: number, to: number, left: number, right: number): number {
  if (to - from >= textWidth(words, SIZE.usual, 'regular')) return (from + to) / 2;
  const [inLeft, inRight] = [(left + from) / 2, (to + right) / 2];
  return right - to > from - left ? inRight : inLeft;
}

/** How far below its axle a wheel's name stands: in the wheel, or under the chain where the wheel is too small for it. */
function nameBelow(radius: number): number {
  return radius < LEAST_ROUND_NAME ? radius + 26 : 22;
}

/** Six pitches from the side, and under them the same from above on the teeth of a narrow-wide ring. */
function strip(cut: boolean, top: number): Drawing {
  const parts: string[] = [];
  const pin = (index: number) => STRIP_X + index * PITCH;
  const side = top + 34;
  const above = side + 96;

  parts.push(levelDimension(pin(0), pin(1), side - 26));
  parts.push(text([pin(0), side - 34], `1 pitch, ${plain(PITCH_MM, 1)} mm`, { size: SIZE.small }));
  parts.push(line([pin(0), side - 30], [pin(0), side + 32], 'fine'));
  parts.push(line([pin(1), side - 30], [pin(1), side], 'fine'));
  parts.push(line([pin(2), side], [pin(2), side + 32], 'fine'));
  parts.push(levelDimension(pin(0), pin(2), side + 28));
  parts.push(text([pin(0), side + 48], `1 pair, inner and outer, ${plain(2 * PITCH_MM, 1)} mm`, { size: SIZE.small }));

  // Inner plates first: the outer ones lie in front of them.
  for (const outer of [false, true]) {
    for (let index = outer ? 0 : 1; index < LINKS; index += 2) {
      const look = cut && index >= CUT_AT ? 'dashed' : 'open';
      parts.push(path(plate(PITCH, outer ? 14 : 11), look, [pin(index), side]));
    }
  }
  for (let index = 0; index <= LINKS; index += 1) {
    parts.push(circle([pin(index), side], 4, cut && index > CUT_AT ? 'fine' : 'solid'));
  }

  for (let index = 0; index < LINKS; index += 1) {
    const outer = index % 2 === 0;
    const gone = cut && index >= CUT_AT;
    const [from, apart] = [pin(index) - (outer ? 9 : 12), outer ? 19 : 12];
    const long = PITCH + (outer ? 18 : 24);
    const tooth = outer ? 13 : 6;
    if (!gone) parts.push(rect([pin(index) + PITCH / 2 - 11, above - tooth], 22, 2 * tooth, 'hatched'));
    for (const edge of [above - apart - 2, above + apart - 2])
      parts.push(rect([from, edge], long, 4, gone ? 'dashed' : 'solid'));
  }
  parts.push(text([pin(0) + PITCH / 2, above + 42], 'wide tooth,', { anchor: 'middle', size: SIZE.small }));
  parts.push(text([pin(0) + PITCH / 2, above + 61], 'outer plates', { anchor: 'middle', size: SIZE.small }));
  parts.push(text([pin(1) + PITCH / 2 + 22, above + 42], 'narrow tooth,', { anchor: 'middle', size: SIZE.small }));
  parts.push(text([pin(1) + PITCH / 2 + 22, above + 61], 'inner plates', { anchor: 'middle', size: SIZE.small }));
  if (cut) {
    parts.push(line([pin(CUT_AT), side - 36], [pin(CUT_AT), above + 28], 'strong'));
    parts.push(text([pin(CUT_AT), side - 44], 'cut here', { anchor: 'middle', bold: true, tone: 'accent' }));
    parts.push(text([pin(CUT_AT) + 12, above + 42], 'this comes out', { size: SIZE.small }));
  }
  return { height: 34 + 96 + 70, parts };
}

/** One plate from the side, waisted, its first pin at the origin. */
function plate(long: number, half: number): string {
  const waist = half * 0.62;
  const a = half * 0.9;
  return (
    `M0 ${-half}C${a} ${-half} ${a} ${-waist} ${long / 2} ${-waist}C${long - a} ${-waist} ${long - a} ${-half} ${long} ${-half}` +
    `A${half} ${half} 0 0 1 ${long} ${half}C${long - a} ${half} ${long - a} ${waist} ${long / 2} ${waist}` +
    `C${a} ${waist} ${a} ${half} 0 ${half}A${half} ${half} 0 0 1 0 ${-half}Z`
  );
}

function lengthWords(figure: ChainFigure): readonly string[] {
  const { wrapPitches, allowancePitches, targetPitches } = figure;
  return [
    `Past the derailleur ${wrapPitches.toFixed(2)} pitches just fit.`,
    `Plus ${allowancePitches}, up to even: ${pitches(targetPitches)}.`,
  ];
}

function cutWords(figure: ChainFigure): readonly { readonly words: string; readonly bold: boolean }[] {
  const { presentPitches, removePitches, addPitches, join } = figure;
  const found: { words: string; bold: boolean }[] = [];
  const yours = presentPitches === null ? '' : `Yours has ${presentPitches} pitches: `;
  if (removePitches !== null && removePitches > 0) {
    found.push({
      bold: true,
      words: `${yours}${pitches(removePitches)} ${removePitches === 1 ? 'comes' : 'come'} out.`,
    });
  } else if (addPitches !== null && addPitches > 0) {
    found.push({ bold: true, words: `${yours}${pitches(addPitches)} too short. Nothing comes out.` });
  } else if (removePitches === 0) found.push({ bold: true, words: `${yours}nothing comes out.` });
  else found.push({ bold: true, words: 'Count every pin of yours once round before you cut.' });
  found.push({
    bold: false,
    words:
      join === 'pin'
        ? 'With a pin: one end inner, one outer. Never push an old pin back in.'
        : 'With a joining link both ends are inner; it is the last outer pitch.',
  });
  return found;
}
