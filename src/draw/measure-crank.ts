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
  const y = 156;
  const gap = plain(neighbours.gapMm, 1);
  return {
    height: y + 188,
    parts: [
      text([MARGIN, 34], 'Measuring the bolt circle', { size: SIZE.title, bold: true }),
      ...measuredRing([120, y], { bolts: opposite.bolts, firstDeg: 45, apart: 2 }, [
        'Four bolts: opposite holes',
        `${plain(opposite.bcdMm, 1)} mm: that is the circle`,
        `(neighbours ${plain(opposite.gapMm, 1)} mm)`,
      ]),
      ...measuredRing([360, y], { bolts: neighbours.bolts, firstDeg: 90, apart: 1 }, [
        'Five bolts: neighbours',
        `${gap} mm: gap=${gap}mm`,
        `(a ${plain(neighbours.bcdMm, 1)} mm circle)`,
      ]),
    ],
  };
}

/** A ring with its holes, the measure between the first and the one `apart` holes on, and three lines of words below. */
function measuredRing(
  at: Point,
  { bolts, firstDeg, apart }: { readonly bolts: number; readonly firstDeg: number; readonly apart: number },
  [name, measure, aside]: readonly [string, string, string],
): readonly string[] {
  const parts: string[] = [];
  const holes = ring(parts, at, bolts, firstDeg);
  const [from, to] = [holes[0], holes[apart]];
  if (from !== undefined && to !== undefined) parts.push(edgeToEdge(from, to));
  const [x, y] = at;
  parts.push(
    text([x, y + 122], name, { anchor: 'middle', bold: true }),
    text([x, y + 144], measure, { anchor: 'middle' }),
    text([x, y + 166], aside, { anchor: 'middle', tone: 'quiet' }),
  );
  return parts;
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
