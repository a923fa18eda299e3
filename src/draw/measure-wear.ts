import { scaleLinear } from 'd3-scale';
import { plain } from '../card/measures.ts';
import { levelDimension } from './dimension.ts';
import type { MeasureFigure } from './figure.ts';
import { circle, type Drawing, line, MARGIN, path, px, rect, SIZE, text, WIDTH } from './svg.ts';

type Of<What> = Extract<MeasureFigure, { readonly what: What }>;

const FIRST = 40;
const LAST = WIDTH - 60;

/** A stretch of chain on a ruler, and beneath it the last few millimetres much enlarged. */
export function wearDrawing({ pitches, newMm, marks }: Of<'wear'>): Drawing {
  const parts = [text([MARGIN, 34], 'Measuring chain wear', { size: SIZE.title, bold: true })];
  const y = 96;
  const step = (LAST - FIRST) / 12;
  for (let index = 0; index < 12; index += 1) {
    const from = FIRST + index * step;
    parts.push(rect([from - 5, y - (index % 2 === 0 ? 9 : 7)], step + 10, index % 2 === 0 ? 18 : 14, 'open'));
  }
  for (let index = 0; index <= 12; index += 1) parts.push(circle([FIRST + index * step, y], 3.5, 'solid'));
  // Drawn with a gap in the middle: twelve pitches stand for all.
  const gap = (FIRST + LAST) / 2;
  parts.push(path(`M${px(gap - 8)} ${y - 20}l8 10l-8 10l8 10l-8 10h16l8 -10l-8 -10l8 -10l-8 -10Z`, 'paper'));
  parts.push(line([FIRST, y + 4], [FIRST, y + 44], 'fine'), line([LAST, y + 4], [LAST, y + 44], 'fine'));
  parts.push(levelDimension(FIRST, LAST, y + 38));
  const whole = `${pitches} pitches, pin to pin: ${plain(newMm, 1)} mm (12 in) when new`;
  parts.push(text([(FIRST + LAST) / 2, y + 62], whole, { anchor: 'middle', bold: true }));

  const longest = Math.max(...marks.map((mark) => mark.lengthMm));
  const x = scaleLinear()
    .domain([newMm, longest])
    .range([70, WIDTH - 70]);
  const axis = y + 134;
  parts.push(text([MARGIN, axis - 40], 'The last millimetres, enlarged', { size: SIZE.small, tone: 'quiet' }));
  parts.push(line([40, axis], [WIDTH - 40, axis], 'edge'));
  for (const { wearPct, lengthMm } of [{ wearPct: 0, lengthMm: newMm }, ...marks]) {
    parts.push(line([x(lengthMm), axis - 12], [x(lengthMm), axis + 12], 'edge'));
    parts.push(text([x(lengthMm), axis - 18], `${plain(lengthMm, 1)}`, { anchor: 'middle', size: SIZE.small }));
    parts.push(
      text([x(lengthMm), axis + 32], wearPct === 0 ? 'new' : `${plain(wearPct, 2)} %`, {
        anchor: 'middle',
        bold: true,
      }),
    );
  }
  return { height: axis + 50, parts };
}
