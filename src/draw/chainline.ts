import { scaleLinear } from 'd3-scale';
import { plain } from '../card/measures.ts';
import { outsideDiameterMm } from '../solve/sprocket-diameters.ts';
import { levelDimension, pointer, uprightDimension } from './dimension.ts';
import type { ChainlineFigure } from './figure.ts';
import { type Drawing, line, MARGIN, rect, SIZE, text, WIDTH } from './svg.ts';
import { textWidth, wrapped } from './text-width.ts';

/** Where the drawing begins, below the title and the verdict. */
const TOP = 88;
const PLANE_X = 40;
const RIGHT = WIDTH - 34;
/** The axle distance on paper; without a chainstay it is only a picture of one. */
const AXLES = 250;
const USUAL_STAY_MM = 440;
const BAR = 6;
/** For a ring nobody has named yet. */
const USUAL_RING_TEETH = 32;
const OUT_OF_BAND_MM = 0.05;

const VERDICTS = { good: 'good', acceptable: 'acceptable', poor: 'too far' } as const;

type Sprocket = ChainlineFigure['sprockets'][number];

/** Where everything stands on paper: `x` sideways from the frame's middle, the rest down the page. */
type Plan = {
  readonly x: (mm: number) => number;
  readonly pxPerMm: number;
  readonly half: (teeth: number) => number;
  readonly ringHalf: number;
  readonly ringY: number;
  readonly axleY: number;
  /** Where the angles stand, above the largest sprocket. */
  readonly labelY: number;
  readonly foot: number;
};

function planOf({ frontMm, highMm, sprockets, stayMm, ringTeeth }: ChainlineFigure): Plan {
  const widest = Math.max(...sprockets.map((each) => each.lineMm), frontMm ?? 0, highMm);
  const pxPerMm = AXLES / (stayMm ?? USUAL_STAY_MM);
  const half = (teeth: number) => (outsideDiameterMm(teeth) / 2) * pxPerMm;
  const ringHalf = half(ringTeeth ?? USUAL_RING_TEETH);
  const cassetteHalf = Math.max(...sprockets.map((each) => half(each.teeth)));
  const ringY = TOP + 34 + ringHalf;
  const axleY = ringY + AXLES;
  return {
    x: scaleLinear().domain([0, widest]).range([PLANE_X, RIGHT]),
    pxPerMm,
    half,
    ringHalf,
    ringY,
    axleY,
    labelY: axleY - cassetteHalf - 16,
    foot: axleY + cassetteHalf + 58,
  };
}

/** Ring, cassette and the chain between them from above; sideways much larger than along, and both scales shown. */
export function chainlineDrawing(figure: ChainlineFigure): Drawing {
  const { frontMm, rearMm, lowMm, highMm, sprockets, stayMm } = figure;
  const plan = planOf(figure);
  const { x, pxPerMm, half, ringHalf, ringY, axleY, foot } = plan;
  const ends = frontMm === null ? [] : slants(sprockets);

  const parts = [
    text([MARGIN, 34], 'Chainline, seen from above', { size: SIZE.title, bold: true }),
    text([MARGIN, 62], verdictWords(figure)),
    // The band rings for this hub are made to run in, then what stands in it.
    rect([x(lowMm), ringY - ringHalf - 8], x(highMm) - x(lowMm), 2 * ringHalf + 16, 'shade'),
    line([PLANE_X, TOP], [PLANE_X, foot], 'axis'),
    // The cassette's middle, broken where the sprockets have their figures.
    line([x(rearMm), ringY + ringHalf + 22], [x(rearMm), axleY], 'axis'),
    line([x(rearMm), foot - 24], [x(rearMm), foot], 'axis'),
  ];
  for (const { sprocket, worst } of ends) {
    parts.push(line([x(frontMm ?? 0), ringY], [x(sprocket.lineMm), axleY], worst ? 'strong' : 'edge'));
  }
  for (const { teeth, lineMm } of sprockets) {
    const long = half(teeth);
    parts.push(rect([x(lineMm) - BAR / 2, axleY - long], BAR, 2 * long, 'solid'));
    parts.push(text([x(lineMm), axleY + long + 19], `${teeth}`, { anchor: 'middle', size: SIZE.small }));
  }
  if (frontMm !== null) parts.push(...ringParts(figure, frontMm, plan));
  parts.push(...bandWords(figure, plan));
  if (frontMm !== null) parts.push(...ends.flatMap((slant) => angleWords(slant, frontMm, plan)));

  parts.push(levelDimension(PLANE_X, x(rearMm), foot - 8));
  parts.push(
    text([(PLANE_X + x(rearMm)) / 2, foot - 15], `cassette middle ${plain(rearMm, 1)} mm`, { anchor: 'middle' }),
  );
  parts.push(...leftSide(ringY + ringHalf + 34, x(10) - x(0), stayMm === null ? null : 100 * pxPerMm));

  let y = foot + 10;
  for (const { words: note, tone } of notes(figure, (x(1) - x(0)) / pxPerMm)) {
    for (const words of wrapped(note, WIDTH - 2 * MARGIN, SIZE.small, 'regular')) {
      y += 20;
      parts.push(text([MARGIN, y], words, { size: SIZE.small, tone }));
    }
  }
  return { height: y + 18, parts };
}

/** The ring where it runs, dashed where it would be in its band, and its line. */
function ringParts(
  { ringTeeth, lowMm, highMm }: ChainlineFigure,
  frontMm: number,
  { x, ringHalf, ringY }: Plan,
): readonly string[] {
  const target = Math.min(Math.max(frontMm, lowMm), highMm);
  const bar = (mm: number, look: 'solid' | 'dashed') =>
    rect([x(mm) - BAR / 2, ringY - ringHalf], BAR, 2 * ringHalf, look);
  const name = ringTeeth === null ? 'ring' : `${ringTeeth}T ring`;
  return [
    bar(frontMm, 'solid'),
    ...(Math.abs(target - frontMm) > OUT_OF_BAND_MM ? [bar(target, 'dashed')] : []),
    levelDimension(PLANE_X, x(frontMm), TOP + 8),
    line([x(frontMm), TOP + 2], [x(frontMm), ringY - ringHalf - 2], 'fine'),
    text([(PLANE_X + x(frontMm)) / 2, TOP + 2], `${name} at ${plain(frontMm, 2)} mm`, { anchor: 'middle', bold: true }),
  ];
}

/** What the band is: left of it and of the ring, but over it where a ring far left would take the words for its own. */
function bandWords({ hubMm, lowMm, highMm, frontMm }: ChainlineFigure, { x, ringY }: Plan): readonly string[] {
  const lines = [`made for a ${plain(hubMm, 1)} mm hub:`, `${plain(lowMm, 1)} to ${plain(highMm, 1)} mm`];
  const wide = Math.max(...lines.map((words) => textWidth(words, SIZE.small, 'regular')));
  const over = Math.min(x((lowMm + highMm) / 2), WIDTH - MARGIN - wide / 2);
  const above = frontMm !== null && over - wide / 2 > x(frontMm) + 12;
  const from = above ? over : x(Math.min(lowMm, frontMm ?? lowMm)) - 12;
  return lines.map((words, row) =>
    text([from, (above ? TOP : ringY - 2) + 20 * row], words, { anchor: above ? 'middle' : 'end', size: SIZE.small }),
  );
}

/** The angle beside the chain, on its outer side where there is room. */
function angleWords({ sprocket, worst, side }: Slant, frontMm: number, { x, ringY, labelY }: Plan): readonly string[] {
  if (sprocket.angleDeg === null) return [];
  const at = x(frontMm) + ((x(sprocket.lineMm) - x(frontMm)) * (labelY - ringY)) / AXLES;
  const words = `${plain(sprocket.angleDeg, 1)}°`;
  const room = textWidth(words, SIZE.usual, 'bold') + 10;
  const out = side === 'out' && at + room <= WIDTH - 6;
  const tone = worst ? ({ tone: 'accent' } as const) : {};
  return [text([out ? at + 10 : at - 10, labelY], words, { anchor: out ? 'start' : 'end', bold: worst, ...tone })];
}

type Slant = { readonly sprocket: Sprocket; readonly worst: boolean; readonly side: 'in' | 'out' };

/** The chain to the outermost and the innermost sprocket; the larger angle is the worst. */
function slants(sprockets: readonly Sprocket[]): readonly Slant[] {
  const [outer] = sprockets;
  const inner = sprockets.at(-1);
  if (outer === undefined || inner === undefined || outer === inner) return [];
  const outerWorst = (outer.angleDeg ?? 0) > (inner.angleDeg ?? 0);
  const known = outer.angleDeg !== null;
  return [
    { sprocket: outer, worst: known && outerWorst, side: 'out' },
    { sprocket: inner, worst: known && !outerWorst, side: 'in' },
  ];
}

function verdictWords(figure: ChainlineFigure): string {
  const { frontMm, rearMm, verdict } = figure;
  if (frontMm === null || verdict === null) return 'Where the ring should run for this hub.';
  const off = plain(Math.abs(frontMm - rearMm), 1);
  if (off === '0') return `The ring runs in line with the cassette's middle: ${VERDICTS[verdict]}.`;
  return `Ring ${off} mm further ${frontMm > rearMm ? 'out' : 'in'} than the cassette's middle: ${VERDICTS[verdict]}.`;
}

/** What the empty side of the frame is used for: which way is forward, and the two scales. */
function leftSide(y: number, tenMm: number, hundredMm: number | null): readonly string[] {
  const x = PLANE_X + 16;
  const parts = [
    text([x + 14, y + 14], 'front', { size: SIZE.small, tone: 'quiet' }),
    pointer([x, y + 22], [x, y - 8]),
    // On two lines, so that the slant to the largest sprocket has room for its degrees.
    text([x, y + 46], 'middle of', { size: SIZE.small, tone: 'quiet' }),
    text([x, y + 64], 'the frame', { size: SIZE.small, tone: 'quiet' }),
    levelDimension(x, x + tenMm, y + 84),
    text([x + tenMm + 8, y + 90], '10 mm', { size: SIZE.small, tone: 'scale' }),
  ];
  if (hundredMm !== null) {
    parts.push(uprightDimension(y + 104, y + 104 + hundredMm, x));
    parts.push(text([x + 10, y + 110 + hundredMm / 2], '100 mm', { size: SIZE.small, tone: 'scale' }));
  }
  return parts;
}

type Note = { readonly words: string; readonly tone: 'quiet' | 'scale' };

function notes(figure: ChainlineFigure, timesLarger: number): readonly Note[] {
  const { frontMm, lowMm, highMm, stayMm } = figure;
  const found: Note[] = [];
  if (frontMm !== null && (frontMm < lowMm - OUT_OF_BAND_MM || frontMm > highMm + OUT_OF_BAND_MM)) {
    const over = frontMm > highMm ? frontMm - highMm : lowMm - frontMm;
    const side = frontMm > highMm ? 'in' : 'out';
    found.push({
      tone: 'quiet',
      words: `Dashed: the nearest place in the band, ${plain(over, 2)} mm further ${side}.`,
    });
  }
  if (stayMm === null) {
    const words = 'The chainstay is not known: the length is not to scale, and no angle is given.';
    found.push({ tone: 'quiet', words });
  } else {
    const times = `${plain(timesLarger, 0)} times as large as along`;
    const words = `Sideways is drawn ${times}, on a ${plain(stayMm, 1)} mm stay; the degrees are true.`;
    found.push({ tone: 'scale', words });
  }
  return found;
}
