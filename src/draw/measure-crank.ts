import { plain } from '../card/measures.ts';
import { levelDimension, slantedDimension } from './dimension.ts';
import type { MeasureFigure } from './figure.ts';
import { circle, type Drawing, line, MARGIN, type Point, rect, SIZE, text, WIDTH } from './svg.ts';

type Of<What> = Extract<MeasureFigure, { readonly what: What }>;

const HOLE = 9;
const RING = 92;
const BOLT_CIRCLE = 68;

/** Two rings from the side: opposite holes of four, neighbouring holes of five, each from edge to same edge. */
export function gapDrawing({ opposite, neighbours }: Of<'gap'>): Drawing {
  const parts = [text([MARGIN, 34], 'Measuring the bolt circle', { size: SIZE.title, bold: true })];
  const y = 156;
  const [four, five]: readonly Point[] = [
    [120, y],
    [360, y],
  ];
  if (four !== undefined) {
    const holes = ring(parts, four, opposite.bolts, 45);
    const [from, , to] = holes;
    if (from !== undefined && to !== undefined) parts.push(edgeToEdge(from, to));
    parts.push(text([four[0], y + 122], 'Four bolts: opposite holes', { anchor: 'middle', bold: true }));
    parts.push(text([four[0], y + 144], `${plain(opposite.bcdMm, 1)} mm: that is the circle`, { anchor: 'middle' }));
    parts.push(
      text([four[0], y + 166], `(neighbours ${plain(opposite.gapMm, 1)} mm)`, { anchor: 'middle', tone: 'quiet' }),
    );
  }
  if (five !== undefined) {
    const holes = ring(parts, five, neighbours.bolts, 90);
    const [from, to] = holes;
    if (from !== undefined && to !== undefined) parts.push(edgeToEdge(from, to));
    parts.push(text([five[0], y + 122], 'Five bolts: neighbours', { anchor: 'middle', bold: true }));
    parts.push(
      text([five[0], y + 144], `${plain(neighbours.gapMm, 1)} mm: gap=${plain(neighbours.gapMm, 1)}mm`, {
        anchor: 'middle',
      }),
    );
    parts.push(
      text([five[0], y + 166], `(a ${plain(neighbours.bcdMm, 1)} mm circle)`, { anchor: 'middle', tone: 'quiet' }),
    );
  }
  return { height: y + 188, parts };
}

function ring(parts: string[], [cx, cy]: Point, bolts: number, firstDeg: number): readonly Point[] {
  parts.push(circle([cx, cy], RING, 'edge'), circle([cx, cy], BOLT_CIRCLE, 'dashed'), circle([cx, cy], 26, 'fine'));
  const holes = Array.from({ length: bolts }, (_, index): Point => {
    const angle = ((firstDeg - (360 / bolts) * index) * Math.PI) / 180;
    return [cx + BOLT_CIRCLE * Math.cos(angle), cy - BOLT_CIRCLE * Math.sin(angle)];
  });
  for (const hole of holes) parts.push(circle(hole, HOLE, 'open'));
  return holes;
}

/** From one edge of a hole to the same edge of another, as a ruler is laid. */
function edgeToEdge([x1, y1]: Point, [x2, y2]: Point): string {
  const far = Math.hypot(x2 - x1, y2 - y1);
  const [dx, dy] = [((x2 - x1) / far) * HOLE, ((y2 - y1) / far) * HOLE];
  return slantedDimension([x1 - dx, y1 - dy], [x2 - dx, y2 - dy]);
}

/** Crank tab, ring tab and sleeve apart, each with its measure and the word to tell it by. */
export function stackDrawing(): Drawing {
  const parts = [text([MARGIN, 34], 'Measuring a ring bolt', { size: SIZE.title, bold: true })];
  const middle = 170;
  const tab = 78;
  const hole = 40;
  for (const [x, wide, look, name, key] of [
    [70, 52, 'hatched', 'crank tab', 'spidertab='],
    [196, 46, 'hatched-back', 'ring tab', 'ringtab='],
  ] as const) {
    for (const y of [middle - tab, middle + hole]) parts.push(rect([x, y], wide, tab - hole, look));
    parts.push(
      line([x, middle - hole], [x, middle + hole], 'fine'),
      line([x + wide, middle - hole], [x + wide, middle + hole], 'fine'),
    );
    parts.push(levelDimension(x, x + wide, middle - tab - 14));
    parts.push(text([x + wide / 2, middle - tab - 26], name, { anchor: 'middle', size: SIZE.small, tone: 'quiet' }));
    parts.push(text([x + wide / 2, middle + tab + 28], key, { anchor: 'middle', bold: true }));
  }
  const x = 338;
  parts.push(rect([x - 24, middle - 44], 24, 88, 'open'));
  parts.push(rect([x, middle - 36], 82, 72, 'open'), rect([x, middle - 28], 82, 56, 'open'));
  parts.push(levelDimension(x, x + 82, middle - tab - 14));
  parts.push(
    line([x, middle - tab - 18], [x, middle - 36], 'fine'),
    line([x + 82, middle - tab - 18], [x + 82, middle - 36], 'fine'),
  );
  parts.push(
    text([x + 41, middle - tab - 26], 'sleeve, no flange', { anchor: 'middle', size: SIZE.small, tone: 'quiet' }),
  );
  parts.push(text([x + 41, middle + tab + 28], 'sleeve=', { anchor: 'middle', bold: true }));
  parts.push(line([30, middle], [WIDTH - 30, middle], 'axis'));
  return { height: middle + tab + 50, parts };
}
