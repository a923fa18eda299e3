import { scaleLinear } from 'd3-scale';
import { plain } from '../card/measures.ts';
import { levelDimension, slantedDimension } from './dimension.ts';
import type { MeasureFigure } from './figure.ts';
import { circle, type Drawing, line, MARGIN, type Point, path, px, rect, SIZE, text } from './svg.ts';

type Of<What> = Extract<MeasureFigure, { readonly what: What }>;

/** Seat tube and ring from above: half the tube, and the gap beside it. */
export function lineDrawing({ tubeMm, gapMm, lineMm }: Of<'chainline'>): Drawing {
  const parts = [text([MARGIN, 34], 'Measuring the chainline, from above', { size: SIZE.title, bold: true })];
  const x = scaleLinear().domain([0, lineMm]).range([150, 408]);
  const y = 168;
  const radius = x(tubeMm / 2) - x(0);
  parts.push(line([x(0), 54], [x(0), 350], 'axis'));
  parts.push(circle([x(0), y], radius, 'hatched'));
  parts.push(rect([x(lineMm) - 5, y - 96], 10, 192, 'solid'));
  parts.push(text([x(lineMm) + 16, y + 6], 'ring', { bold: true }));
  parts.push(text([x(0) - radius - 8, y - radius - 8], 'seat tube', { tone: 'quiet' }));
  const foot = y + 118;
  parts.push(
    line([x(tubeMm / 2), y], [x(tubeMm / 2), foot + 4], 'fine'),
    line([x(lineMm), y + 96], [x(lineMm), foot + 46], 'fine'),
  );
  parts.push(levelDimension(x(0), x(tubeMm / 2), foot));
  parts.push(levelDimension(x(tubeMm / 2), x(lineMm), foot));
  parts.push(text([x(0) - 10, foot + 6], 'half the tube', { anchor: 'end', size: SIZE.small }));
  parts.push(
    text([(x(0) + x(tubeMm / 2)) / 2, foot - 8], `${plain(tubeMm / 2, 1)} mm`, { anchor: 'middle', size: SIZE.small }),
  );
  parts.push(
    text([(x(tubeMm / 2) + x(lineMm)) / 2, foot - 8], `gap ${plain(gapMm, 1)} mm`, {
      anchor: 'middle',
      size: SIZE.small,
    }),
  );
  parts.push(levelDimension(x(0), x(lineMm), foot + 42));
  parts.push(
    text([(x(0) + x(lineMm)) / 2, foot + 34], `chainline ${plain(lineMm, 1)} mm`, { anchor: 'middle', bold: true }),
  );
  parts.push(text([x(0) - 10, foot + 48], 'middle of the frame', { anchor: 'end', size: SIZE.small, tone: 'quiet' }));
  return { height: 360, parts };
}

const CRANK: Point = [386, 196];
const AXLE: Point = [176, 196];

/** The back of a bicycle from its right side. */
export function staysDrawing(): Drawing {
  const parts = [text([MARGIN, 34], 'Measuring the chainstay', { size: SIZE.title, bold: true })];
  parts.push(...rearWheel(AXLE, 128), ...crank());
  parts.push(line(AXLE, CRANK, 'edge'));
  parts.push(
    line([AXLE[0], AXLE[1] + 8], [AXLE[0], 340], 'fine'),
    line([CRANK[0], CRANK[1] + 8], [CRANK[0], 340], 'fine'),
  );
  parts.push(levelDimension(AXLE[0], CRANK[0], 334));
  parts.push(text([(AXLE[0] + CRANK[0]) / 2, 326], 'stays=', { anchor: 'middle', bold: true }));
  parts.push(text([AXLE[0] - 12, AXLE[1] - 14], 'wheel axle', { anchor: 'end', size: SIZE.small }));
  parts.push(text([CRANK[0], CRANK[1] - 52], 'crank axle', { anchor: 'middle', size: SIZE.small }));
  return { height: 356, parts };
}

function rearWheel(at: Point, radius: number): readonly string[] {
  return [circle(at, radius, 'fine'), circle(at, radius - 14, 'fine'), circle(at, 6, 'solid')];
}

function crank(): readonly string[] {
  return [circle(CRANK, 40, 'edge'), circle(CRANK, 6, 'solid'), line(CRANK, [CRANK[0] + 40, CRANK[1] + 58], 'edge')];
}

/** Behind the crank axle and above it, so that the axle is furthest in the middle of its travel. */
const PIVOT: Point = [330, 182];
const ARM = 176;
const HANGING_DEG = 192;
const PUSHED_IN_DEG = 144;
/** Where crank axle, pivot and wheel axle lie on one line, the wheel axle can be no further away. */
const FURTHEST_DEG = 180 - (Math.atan2(CRANK[1] - PIVOT[1], CRANK[0] - PIVOT[0]) * 180) / Math.PI;
/** How far below that line the dimension stands. */
const BELOW = 34;

/** The rear axle on its way up, and the place where it is furthest from the crank axle. */
export function longestDrawing(): Drawing {
  const [down, furthest, up] = [axleAt(HANGING_DEG), axleAt(FURTHEST_DEG), axleAt(PUSHED_IN_DEG)];
  const parts = [text([MARGIN, 34], 'Measuring the longest axle distance', { size: SIZE.title, bold: true })];
  parts.push(...rearWheel(furthest, 85), ...crank());
  for (const axle of [down, up]) parts.push(line(PIVOT, axle, 'dashed'));
  parts.push(path(`M${px(down[0])} ${px(down[1])}A${ARM} ${ARM} 0 0 1 ${px(up[0])} ${px(up[1])}`, 'edge'));
  for (const axle of [down, up]) parts.push(circle(axle, 6, 'open'));
  parts.push(line(furthest, CRANK, 'strong'), circle(furthest, 7, 'solid'), circle(PIVOT, 7, 'open'));
  const [fx, fy] = furthest;
  const far = Math.hypot(CRANK[0] - fx, CRANK[1] - fy);
  const [nx, ny] = [(-(CRANK[1] - fy) / far) * BELOW, ((CRANK[0] - fx) / far) * BELOW];
  const [from, to]: readonly [Point, Point] = [
    [fx + nx, fy + ny],
    [CRANK[0] + nx, CRANK[1] + ny],
  ];
  parts.push(line(furthest, from, 'fine'), line(CRANK, to, 'fine'), slantedDimension(from, to));
  parts.push(
    text([(from[0] + to[0]) / 2 - 8, (from[1] + to[1]) / 2 + 24], 'longest=', { anchor: 'middle', bold: true }),
  );
  parts.push(text([PIVOT[0] - 4, PIVOT[1] - 16], 'pivot', { anchor: 'middle', size: SIZE.small, tone: 'quiet' }));
  parts.push(text([CRANK[0], CRANK[1] - 50], 'crank axle', { anchor: 'middle', size: SIZE.small }));
  parts.push(text([up[0] + 30, up[1] - 5], 'pushed in', { size: SIZE.small, tone: 'quiet' }));
  parts.push(text([down[0] - 12, down[1] + 25], 'hanging', { anchor: 'end', size: SIZE.small, tone: 'quiet' }));
  parts.push(text([fx - 14, fy + 6], 'furthest', { anchor: 'end', size: SIZE.small, bold: true }));
  return { height: 284, parts };
}

function axleAt(degrees: number): Point {
  const angle = (degrees * Math.PI) / 180;
  return [PIVOT[0] + ARM * Math.cos(angle), PIVOT[1] - ARM * Math.sin(angle)];
}
