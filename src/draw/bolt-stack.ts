import { plain } from '../card/measures.ts';
import { RING_BOLT } from '../tables/ring-bolts.ts';
import { levelDimension, pointer } from './dimension.ts';
import type { BoltStackFigure } from './figure.ts';
import { type Drawing, line, MARGIN, rect, SIZE, text, WIDTH } from './svg.ts';
import { wrapped } from './text-width.ts';

/** Leaves room for the words at the bolt's side. */
const MOST_WIDE = 210;
/** Heads and flanges are thin; how thin makes no difference to what is shown. */
const FLANGE_MM = 1.8;
const MOST_PX_PER_MM = 15;
/** How much of the tabs is shown beyond the hole. */
const TAB_MM = 3;
const ABOVE = 56;
const WASHER_WORDS = 22;
const BELOW = 112;
/** From the seam of two tabs to either's name, so that the two do not read as one. */
const NAME_GAP = 6;
/** A gap is pointed at no further from the bolt's head than this, so that its words stand beside the tabs, not on them. */
const MOST_FROM_HEAD = 12;

const HEAD_MM = RING_BOLT.head.valueMm;
const THREAD_MM = RING_BOLT.thread.valueMm;
const SLEEVE_MM = RING_BOLT.sleeve.valueMm;

/** The stack in section as it is told, and, where head and sleeve meet, the same with the washer that mends it. */
export function boltStackDrawing(figure: BoltStackFigure): Drawing {
  const parts = [text([MARGIN, 34], 'Ring bolt, cut along its middle', { size: SIZE.title, bold: true })];
  let y = 44;
  for (const washerMm of figure.washerMm === null ? [0] : [0, figure.washerMm]) {
    const drawn = panel(figure, washerMm, y);
    parts.push(...drawn.parts);
    y += drawn.height;
  }
  const aluminium = `${plain(figure.aluminiumMm, 2)} mm in aluminium`;
  const note = `Drawn with the least thread that must hold: ${plain(figure.steelMm, 2)} mm in steel; ${aluminium}. Lengths to scale, head and flange typical.`;
  for (const words of wrapped(note, WIDTH - 2 * MARGIN, SIZE.small, 'regular')) {
    y += 20;
    parts.push(text([MARGIN, y], words, { size: SIZE.small, tone: 'quiet' }));
  }
  return { height: y + 18, parts };
}

/** Where one stack stands on paper: `x` along the bolt from the sleeve's flange, `middle` the bolt's own line. */
type Plan = {
  readonly x: (mm: number) => number;
  readonly perMm: number;
  readonly middle: number;
  /** From the bolt's middle to where the tabs are broken off. */
  readonly tab: number;
  readonly gripMm: number;
  /** Where the sleeve ends, and where the bolt's head begins: the same place where they meet. */
  readonly barrelMm: number;
  readonly headMm: number;
};

/** Half a diameter on paper: from the bolt's middle to the edge of a part. */
const across = (mm: number, { perMm }: Plan): number => (mm / 2) * perMm;

/** One stack with what is said of it, from `top` down. */
function panel(figure: BoltStackFigure, washerMm: number, top: number): Drawing {
  const { sleeveMm, clearanceMm, leastClearMm } = figure;
  const gripMm = figure.gripMm + washerMm;
  const wideMm = Math.max(gripMm, sleeveMm ?? 0) + 2 * FLANGE_MM;
  const perMm = Math.min(MOST_PX_PER_MM, MOST_WIDE / wideMm);
  const start = (WIDTH - wideMm * perMm) / 2 + FLANGE_MM * perMm;
  const above = ABOVE + (washerMm > 0 ? WASHER_WORDS : 0);
  const tab = (SLEEVE_MM / 2 + TAB_MM) * perMm;
  // A sleeve nobody has measured is drawn as long as it may be.
  const barrelMm = sleeveMm ?? Math.max(gripMm - leastClearMm, 0);
  const plan: Plan = {
    x: (mm) => start + mm * perMm,
    perMm,
    middle: top + above + tab,
    tab,
    gripMm,
    barrelMm,
    headMm: Math.max(gripMm, barrelMm),
  };
  const clearMm = clearanceMm === null ? null : clearanceMm + washerMm;
  const bottoms = figure.verdict === 'bottoms' && washerMm === 0;
  return {
    height: above + 2 * tab + BELOW,
    parts: [
      ...slabParts(figure, washerMm, plan),
      ...boltParts(figure, plan),
      ...lengths(plan, sleeveMm === null),
      ...gapWords(plan, clearMm, bottoms),
      verdict(figure, washerMm, clearMm, bottoms, plan.middle + tab + 82),
    ],
  };
}

/** What is clamped, cut through, each with its name and thickness above it. */
function slabParts({ spiderTabMm, ringTabMm }: BoltStackFigure, washerMm: number, plan: Plan): readonly string[] {
  const { x, middle, tab } = plan;
  const sleeve = across(SLEEVE_MM, plan);
  const slabs = [
    { mm: spiderTabMm, name: 'crank tab', look: 'hatched' as const, side: 'end' as const },
    ...(washerMm > 0 ? [{ mm: washerMm, name: 'washer', look: 'open' as const, side: 'middle' as const }] : []),
    { mm: ringTabMm, name: 'ring tab', look: 'hatched-back' as const, side: 'start' as const },
  ];
  const parts: string[] = [];
  let at = 0;
  for (const { mm, name, look, side } of slabs) {
    const [from, to] = [x(at), x(at + mm)];
    for (const edge of [middle - tab, middle + sleeve]) parts.push(rect([from, edge], to - from, tab - sleeve, look));
    if (side === 'middle') {
      const words = `${name} ${plain(mm, 1)} mm`;
      const y = middle - tab - 48;
      parts.push(line([(from + to) / 2, y + 6], [(from + to) / 2, middle - tab], 'fine'));
      parts.push(text([(from + to) / 2, y], words, { anchor: 'middle', size: SIZE.small }));
    } else {
      const edge = side === 'end' ? to - NAME_GAP : from + NAME_GAP;
      parts.push(text([edge, middle - tab - 26], name, { anchor: side, size: SIZE.small, tone: 'quiet' }));
      parts.push(text([edge, middle - tab - 8], `${plain(mm, 1)} mm`, { anchor: side, size: SIZE.small }));
    }
    at += mm;
  }
  return parts;
}

/** The sleeve with its flange comes from the left, the bolt with its head from the right. */
function boltParts({ steelMm }: BoltStackFigure, plan: Plan): readonly string[] {
  const { x, perMm, middle, barrelMm, headMm } = plan;
  const [head, sleeve, thread] = [across(HEAD_MM, plan), across(SLEEVE_MM, plan), across(THREAD_MM, plan)];
  const boltMm = Math.min(headMm, headMm - barrelMm + steelMm);
  return [
    rect([x(-FLANGE_MM), middle - head], FLANGE_MM * perMm, 2 * head, 'open'),
    rect([x(0), middle - sleeve], barrelMm * perMm, 2 * sleeve, 'open'),
    rect([x(0), middle - thread], barrelMm * perMm, 2 * thread, 'open'),
    rect([x(headMm - boltMm), middle - thread], boltMm * perMm, 2 * thread, 'solid'),
    rect([x(headMm), middle - head], FLANGE_MM * perMm, 2 * head, 'solid'),
    line([x(-FLANGE_MM) - 18, middle], [x(headMm + FLANGE_MM) + 18, middle], 'axis'),
    text([x(-FLANGE_MM) - 10, middle - 22], 'sleeve', { anchor: 'end', size: SIZE.small, tone: 'quiet' }),
    text([x(headMm + FLANGE_MM) + 10, middle - 22], 'bolt', { size: SIZE.small, tone: 'quiet' }),
  ];
}

/** Grip and sleeve as dimensions below; a sleeve nobody has measured as the most it may be. */
function lengths(plan: Plan, isMost: boolean): readonly string[] {
  const { x, middle, tab, gripMm, barrelMm, headMm } = plan;
  const sleeve = across(SLEEVE_MM, plan);
  const below = middle + tab + 18;
  const edges = [
    [0, 26],
    [gripMm, 2],
    [barrelMm, 26],
  ] as const;
  return [
    ...edges.map(([mm, depth]) =>
      line([x(mm), middle + (mm === gripMm ? tab : sleeve) + 2], [x(mm), below + depth + 4], 'fine'),
    ),
    levelDimension(x(0), x(gripMm), below),
    text([x(headMm) + 14, below + 6], `grip ${plain(gripMm, 1)} mm`),
    levelDimension(x(0), x(barrelMm), below + 26),
    text([x(headMm) + 14, below + 32], `sleeve ${isMost ? '≤ ' : ''}${plain(barrelMm, 1)} mm`),
  ];
}

/** What lies between sleeve and head, or that nothing does. */
function gapWords(plan: Plan, clearMm: number | null, bottoms: boolean): readonly string[] {
  const { x, middle, tab, barrelMm, headMm } = plan;
  const gap = Math.max(x((barrelMm + headMm) / 2), x(headMm) - MOST_FROM_HEAD);
  const wall = (across(SLEEVE_MM, plan) + across(THREAD_MM, plan)) / 2;
  const said = bottoms ? 'they meet here' : clearMm === null ? 'keep clear' : `${plain(clearMm, 1)} mm clear`;
  const tone = bottoms ? ({ tone: 'accent' } as const) : {};
  return [
    pointer([gap + 36, middle - tab + 8], [gap, middle - wall]),
    text([gap + 40, middle - tab + 12], said, { size: SIZE.small, bold: true, ...tone }),
  ];
}

function verdict(
  figure: BoltStackFigure,
  washerMm: number,
  clearMm: number | null,
  bottoms: boolean,
  y: number,
): string {
  const least = `${plain(figure.leastClearMm, 1)} mm`;
  const words =
    clearMm === null
      ? 'Measure the sleeve: it must not be longer than this.'
      : bottoms
        ? `Head and sleeve meet: the ring stays loose. Do not ride.`
        : washerMm > 0
          ? `With a washer of ${plain(washerMm, 1)} mm: ${plain(clearMm, 1)} mm clear, it holds.`
          : figure.verdict === 'short'
            ? `Shorter than the ${plain(figure.leastThreadMm, 2)} mm of thread that must hold. Do not ride.`
            : `Clear by ${plain(clearMm, 1)} mm, at least ${least} asked: it holds.`;
  const warns = bottoms || figure.verdict === 'short';
  return text([WIDTH / 2, y], words, { anchor: 'middle', bold: true, ...(warns ? { tone: 'accent' as const } : {}) });
}
