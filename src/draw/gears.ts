import { scaleLog } from 'd3-scale';
import { symbol, symbolDiamond } from 'd3-shape';
import { change, plain } from '../card/measures.ts';
import { UNIT_FACTORS } from '../tables/unit-factors.ts';
import type { GearsFigure, LostEnd } from './figure.ts';
import { circle, type Drawing, line, MARGIN, path, rect, SIZE, text, WIDTH } from './svg.ts';
import { textWidth, wrapped } from './text-width.ts';

const KM_PER_MILE = UNIT_FACTORS.kmPerMile.factor;

const LEFT = 100;
const RIGHT = WIDTH - 62;
/** The heading over the rings of today, below the title. */
const TODAY = 64;
const RING_ROW = 30;
const OPTION_ROW = 54;
/** From the foot of the rings of today to the next heading, and from there to the first ring on offer. */
const HEADING = 34;
const FIRST_OPTION = 28;
const DOT = 5;
/** As wide as the dots, so that both read at the same distance. */
const LOST_MARK = symbol().type(symbolDiamond).size(90).digits(2)() ?? '';
/** An axis that spans less is widened, so that a single gear has a place on it. */
const LEAST_SPAN = 1.2;
const TICK_GAP = 14;
/** From the middle of a dot to the label of its end. */
const END_GAP = 12;

type Scale = (value: number) => number;

/** How a ratio is drawn and printed. */
type Reading = { readonly x: Scale; readonly words: (ratio: number) => string };

type Option = GearsFigure['options'][number];

/** Gears of today, the lost ones as open diamonds beyond the dashed ends of the new range, and each ring on offer below. */
export function gearsDrawing(figure: GearsFigure): Drawing {
  const { kmhPerRatio, now, options } = figure;
  const unit = kmhPerRatio ?? 1;
  const ratios = [...now.flatMap((ring) => ring.gears.map((gear) => gear.ratio)), ...options.flatMap((o) => o.ratios)];
  const [low, high] = widened(Math.min(...ratios) * unit, Math.max(...ratios) * unit);
  const scale = scaleLog().domain([low, high]).range([LEFT, RIGHT]);
  const reading: Reading = {
    x: (ratio) => scale(ratio * unit),
    words: (ratio) => (ratio * unit).toFixed(kmhPerRatio === null ? 2 : 1),
  };
  const chosen = options.find((option) => option.teeth === figure.ringTeeth);

  const title =
    kmhPerRatio === null ? 'Gears now and with one ring' : `Gears in km/h at ${plain(figure.cadenceRpm, 1)} rpm`;
  const today = todaysRings(figure, chosen, reading);
  let y = today.bottom + HEADING;
  const parts = [
    text([MARGIN, 34], title, { size: SIZE.title, bold: true }),
    ...today.parts,
    text([MARGIN, y], `One ring, ${figure.cassetteThen}`, { bold: true }),
  ];
  y += FIRST_OPTION;
  for (const option of [...options].sort((a, b) => Number(b === chosen) - Number(a === chosen))) {
    parts.push(...offered(option, option === chosen, reading, y));
    y += OPTION_ROW;
  }

  y += 10;
  if (kmhPerRatio === null) {
    parts.push(...axis(y, 'ratio', low, high, scale));
  } else {
    parts.push(...axis(y, 'km/h', low, high, scale));
    y += 36;
    parts.push(...axis(y, 'mph', low / KM_PER_MILE, high / KM_PER_MILE, (mph) => scale(mph * KM_PER_MILE)));
  }
  y += 34;

  for (const note of notes(figure)) {
    const indent = note.mark === null ? 0 : 20;
    if (note.mark !== null) parts.push(path(LOST_MARK, 'open', [MARGIN + 7, y + 7]));
    for (const words of wrapped(note.words, WIDTH - 2 * MARGIN - indent, SIZE.usual, 'regular')) {
      y += 13;
      parts.push(text([MARGIN + indent, y], words));
      y += 9;
    }
    y += 2;
  }
  return { height: y + 12, parts, clear: true };
}

/** The rings of today, the ends of the new range drawn through them, and where they end. */
function todaysRings(
  { now, cassetteNow }: GearsFigure,
  chosen: Option | undefined,
  { x, words }: Reading,
): { readonly bottom: number; readonly parts: readonly string[] } {
  const rows = TODAY + 8;
  const bottom = rows + 18 + RING_ROW * (now.length - 1) + 16;
  const parts = [text([MARGIN, TODAY], `Now, ${cassetteNow}`, { bold: true })];
  if (chosen !== undefined) {
    const [lows, highs] = [lostRatios(now, 'low'), lostRatios(now, 'high')];
    const [newLow, newHigh] = [x(Math.min(...chosen.ratios)), x(Math.max(...chosen.ratios))];
    if (lows.length > 0) parts.push(zone(x(Math.min(...lows)) - 9, newLow, rows, bottom));
    if (highs.length > 0) parts.push(zone(newHigh, x(Math.max(...highs)) + 9, rows, bottom));
    for (const end of [newLow, newHigh]) {
      parts.push(line([end, rows - 4], [end, bottom + 10], 'dashed'));
      parts.push(line([end, bottom + HEADING + 6], [end, bottom + HEADING + FIRST_OPTION], 'dashed'));
    }
  }
  const all = now.flatMap((ring) => ring.gears.map((gear) => gear.ratio));
  now.forEach(({ ringTeeth, gears }, index) => {
    const y = rows + 18 + RING_ROW * index;
    const own = gears.map((gear) => gear.ratio);
    parts.push(text([MARGIN, y + 6], `${ringTeeth}T`));
    parts.push(line([x(Math.min(...own)), y], [x(Math.max(...own)), y], 'fine'));
    for (const { ratio, lost } of gears) {
      parts.push(lost === null ? circle([x(ratio), y], DOT, 'solid') : path(LOST_MARK, 'open', [x(ratio), y]));
    }
    for (const { side, ratio } of endsAmong(own, all)) {
      parts.push(endPaper(side, x(ratio), y, words(ratio)), endLabel(side, x(ratio), y, words(ratio)));
    }
  });
  return { bottom, parts };
}

function lostRatios(now: GearsFigure['now'], end: Exclude<LostEnd, null>): readonly number[] {
  return now.flatMap((ring) => ring.gears.filter((gear) => gear.lost === end).map((gear) => gear.ratio));
}

/** One ring on offer, the chosen one larger and in the accent, with what it trades below. */
function offered(option: Option, isChosen: boolean, { x, words }: Reading, y: number): readonly string[] {
  const { teeth, mark, ratios: own, lowestChangePct, highestChangePct } = option;
  const [lowest, highest] = [Math.min(...own), Math.max(...own)];
  const trade = `lowest ${change(lowestChangePct)}, highest ${change(highestChangePct)}`;
  const parts = [
    text([MARGIN, y + 6], `${teeth}T`, { bold: isChosen, size: isChosen ? SIZE.title : SIZE.usual }),
    line([x(lowest), y], [x(highest), y], isChosen ? 'strong' : 'fine'),
    ...own.map((ratio) => circle([x(ratio), y], isChosen ? DOT + 0.5 : DOT - 1, isChosen ? 'accented' : 'solid')),
    endLabel('low', x(lowest), y, words(lowest)),
    endLabel('high', x(highest), y, words(highest)),
    text([MARGIN, y + 27], trade, { size: SIZE.small, tone: 'quiet' }),
  ];
  if (mark !== '') {
    const tone = isChosen ? ({ tone: 'accent' } as const) : {};
    parts.push(text([WIDTH - MARGIN, y + 27], mark, { size: SIZE.small, bold: isChosen, anchor: 'end', ...tone }));
  }
  return parts;
}

function widened(low: number, high: number): readonly [number, number] {
  if (high / low >= LEAST_SPAN) return [low, high];
  const middle = Math.sqrt(low * high);
  return [middle / Math.sqrt(LEAST_SPAN), middle * Math.sqrt(LEAST_SPAN)];
}

function zone(from: number, to: number, top: number, bottom: number): string {
  return rect([from, top], to - from, bottom - top, 'shade');
}

type End = { readonly ratio: number; readonly side: 'low' | 'high' };

/** The ends of one ring's gears that are the ends of all gears too. */
function endsAmong(own: readonly number[], all: readonly number[]): readonly End[] {
  const ends: End[] = [];
  const [lowest, highest] = [Math.min(...all), Math.max(...all)];
  if (own.includes(lowest)) ends.push({ ratio: lowest, side: 'low' });
  if (own.includes(highest)) ends.push({ ratio: highest, side: 'high' });
  return ends;
}

function endLabel(side: End['side'], at: number, y: number, words: string): string {
  return side === 'low' ? text([at - END_GAP, y + 6], words, { anchor: 'end' }) : text([at + END_GAP, y + 6], words);
}

/** Bare paper under an end's label: where the new range is wider, its dashed end would run through the figure. */
function endPaper(side: End['side'], at: number, y: number, words: string): string {
  const wide = textWidth(words, SIZE.usual, 'regular') + 4;
  return rect([side === 'low' ? at - END_GAP + 2 - wide : at + END_GAP - 2, y - 10], wide, 20, 'paper');
}

function axis(y: number, unit: string, low: number, high: number, at: Scale): readonly string[] {
  const parts = [text([MARGIN, y + 6], unit, { tone: 'scale' }), line([LEFT, y - 14], [RIGHT, y - 14], 'fine')];
  for (const { value, words } of ticks(low, high, at)) {
    parts.push(line([at(value), y - 14], [at(value), y - 9], 'fine'));
    parts.push(text([at(value), y + 6], words, { anchor: 'middle', tone: 'scale', size: SIZE.small }));
  }
  return parts;
}

/** The roundest values first, each only where it has room beside those already chosen. */
function ticks(low: number, high: number, at: Scale): readonly { readonly value: number; readonly words: string }[] {
  const taken: { value: number; words: string; from: number; to: number }[] = [];
  for (const value of TICK_VALUES) {
    if (value < low || value > high) continue;
    const words = plain(value, 2);
    const half = textWidth(words, SIZE.small, 'regular') / 2 + TICK_GAP / 2;
    const [from, to] = [at(value) - half, at(value) + half];
    if (taken.every((each) => to < each.from || from > each.to)) taken.push({ value, words, from, to });
  }
  return taken;
}

const TICK_VALUES = [
  10, 20, 5, 1, 40, 30, 15, 2, 3, 50, 60, 80, 8, 7, 4, 6, 25, 0.5, 1.5, 12, 0.7, 100, 18, 35, 45, 0.3, 9, 2.5, 0.8, 0.6,
  0.4, 0.9,
];

type Note = { readonly words: string; readonly mark: 'lost' | null };

function notes(figure: GearsFigure): readonly Note[] {
  const found: Note[] = [];
  const [lows, highs] = [lostRatios(figure.now, 'low').length, lostRatios(figure.now, 'high').length];
  const lost = lows + highs;
  const with1 = `with ${figure.ringTeeth}T`;
  if (lost > 0)
    found.push({
      mark: 'lost',
      words: `${lost} ${lost === 1 ? 'gear' : 'gears'} lost ${with1}: ${lows} low, ${highs} high`,
    });
  else found.push({ mark: null, words: `No gear is lost ${with1}.` });
  if (!figure.everyGear)
    found.push({ mark: null, words: 'Only the end gears: the count of sprockets brings the rest.' });
  if (figure.climb !== null) {
    const { powerW, nowPct, thenPct } = figure.climb;
    found.push({
      mark: null,
      words: `Steepest at ${plain(powerW, 0)} W in the lowest gear: now ${plain(nowPct, 1)} %, ${with1} ${plain(thenPct, 1)} %.`,
    });
  }
  if (figure.kmhPerRatio === null) found.push({ mark: null, words: 'With the rear wheel known, this shows speeds.' });
  return found;
}
