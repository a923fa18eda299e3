import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { FigureBlock } from '../../src/card/card.ts';
import { draw } from '../../src/draw/draw.ts';
import { WIDTH } from '../../src/draw/svg.ts';
import { THEMES } from '../../src/draw/theme.ts';
import { allFigures, figuresOf, type Label, labelsOf, numbersIn } from '../support/pictures.ts';

const ALL = allFigures();
const NAMED = ALL.map((block, index) => [`${index + 1}: ${block.title}`, block] as const);

/** The narrowest telephone a picture is made for, and the smallest text on it. */
const PHONE_PX = 360;
const SMALLEST_PX = 11;
const EDGE_PX = 4;
/** Ink this close still reads as two labels: the boxes are rectangles, the letters in them are not. */
const TOUCH_PX = 0.5;

function heightOf(svg: string): number {
  return Number(/ height="([\d.]+)" viewBox/.exec(svg)?.[1]);
}

/** Everything about a picture's labels that would make it hard to read, in words. */
function faults(block: FigureBlock): readonly string[] {
  const svg = draw(block.figure, 'light');
  const labels = labelsOf(svg);
  const height = heightOf(svg);
  const found: string[] = [];
  for (const each of labels) {
    const out =
      each.left < EDGE_PX || each.right > WIDTH - EDGE_PX || each.top < EDGE_PX || each.bottom > height - EDGE_PX;
    if (out) found.push(`"${each.words}" leaves the frame: ${box(each)} in ${WIDTH} × ${height}`);
    if ((each.size * PHONE_PX) / WIDTH < SMALLEST_PX) found.push(`"${each.words}" is too small`);
  }
  labels.forEach((one, index) => {
    for (const other of labels.slice(index + 1)) {
      const apart =
        one.right <= other.left + TOUCH_PX ||
        other.right <= one.left + TOUCH_PX ||
        one.bottom <= other.top + TOUCH_PX ||
        other.bottom <= one.top + TOUCH_PX;
      if (!apart) found.push(`"${one.words}" ${box(one)} lies on "${other.words}" ${box(other)}`);
    }
  });
  if (!svg.includes('paint-order')) found.push(...touched(labels, svg));
  return [...found, ...labels.flatMap((label) => crossings(label, svg))];
}

const RECT = /<rect class="([\w-]+)" x="([-\d.]+)" y="([-\d.]+)" width="([\d.]+)" height="([\d.]+)"\/>/g;
const DASHED_UPRIGHT = /<line class="dashed" x1="([-\d.]+)" y1="([-\d.]+)" x2="\1" y2="([-\d.]+)"\/>/g;
const CIRCLE = /<circle class="[\w-]+" cx="([-\d.]+)" cy="([-\d.]+)" r="([\d.]+)"\/>/g;

/** Outlines that run through a label: of parts, of wheels, and dashed ends that no bare paper keeps off. */
function crossings(label: Label, svg: string): readonly string[] {
  const { left, right, top, bottom, words } = label;
  const rects = [...svg.matchAll(RECT)].map(([, look = '', ...numbers]) => {
    const [x = 0, y = 0, wide = 0, tall = 0] = numbers.map(Number);
    return { look, x, y, right: x + wide, bottom: y + tall };
  });
  const found: string[] = [];
  for (const { look, x, y, right: end, bottom: foot } of rects) {
    const part = look !== 'paper' && look !== 'shade';
    if (part && left < end && right > x && top < foot && bottom > y) found.push(`"${words}" lies on a ${look} part`);
  }
  for (const [, ...numbers] of svg.matchAll(DASHED_UPRIGHT)) {
    const [x = 0, from = 0, to = 0] = numbers.map(Number);
    const kept = rects.some(
      (each) =>
        each.look === 'paper' && each.x <= left && each.right >= right && each.y <= top && each.bottom >= bottom,
    );
    if (!kept && left < x && right > x && top < to && bottom > from) found.push(`a dashed end crosses "${words}"`);
  }
  for (const [, ...numbers] of svg.matchAll(CIRCLE)) {
    const [x = 0, y = 0, radius = 0] = numbers.map(Number);
    const near = Math.hypot(Math.max(left - x, 0, x - right), Math.max(top - y, 0, y - bottom));
    const far = Math.hypot(Math.max(x - left, right - x), Math.max(y - top, bottom - y));
    if (near < radius && far > radius) found.push(`a circle crosses "${words}"`);
  }
  return found;
}

/** Every shape with its place in the picture, from its numbers; a path is as large as the one mark there is. */
const SHAPE = /<(line|rect|circle|path) class="([\w-]+)"([^>]*)\/>|<text[^>]*>/g;
const MARK_PX = 7;

type Box = { readonly left: number; readonly right: number; readonly top: number; readonly bottom: number };

function boxOf(shape: string, rest: string): Box {
  const of = (name: string) => Number(new RegExp(`\\b${name}="(-?[\\d.]+)"`).exec(rest)?.[1] ?? Number.NaN);
  const around = (x: number, y: number, half: number) => {
    return { left: x - half, right: x + half, top: y - half, bottom: y + half };
  };
  switch (shape) {
    case 'line': {
      const [x1, x2, y1, y2] = [of('x1'), of('x2'), of('y1'), of('y2')];
      return { left: Math.min(x1, x2), right: Math.max(x1, x2), top: Math.min(y1, y2), bottom: Math.max(y1, y2) };
    }
    case 'rect':
      return { left: of('x'), right: of('x') + of('width'), top: of('y'), bottom: of('y') + of('height') };
    case 'circle':
      return around(of('cx'), of('cy'), of('r'));
    default: {
      const [, x, y] = /translate\((-?[\d.]+) (-?[\d.]+)\)/.exec(rest) ?? [];
      return around(Number(x), Number(y), MARK_PX);
    }
  }
}

/** Labels without a halo that touch a shape, unless bare paper was laid over it before the label was written. */
function touched(labels: readonly Label[], svg: string): readonly string[] {
  const waiting = [...labels];
  const shapes: { readonly look: string; readonly box: Box }[] = [];
  const written: { readonly label: Label; readonly over: number }[] = [];
  for (const [, shape, look = '', rest = ''] of svg.matchAll(SHAPE)) {
    const label = shape === undefined ? waiting.shift() : undefined;
    if (label !== undefined) written.push({ label, over: shapes.length });
    if (shape !== undefined) shapes.push({ look, box: boxOf(shape, rest) });
  }
  expect(waiting).toEqual([]);
  return written.flatMap(({ label, over }) => {
    const paper = shapes.slice(0, over).findLastIndex((each) => each.look === 'paper' && holds(each.box, label));
    const under = shapes.slice(paper + 1).find((each) => each.look !== 'paper' && !apart(each.box, label));
    return under === undefined ? [] : [`"${label.words}" ${box(label)} has no halo and touches a ${under.look} shape`];
  });
}

function apart(one: Box, other: Box): boolean {
  return one.right <= other.left || other.right <= one.left || one.bottom <= other.top || other.bottom <= one.top;
}

function holds(one: Box, other: Box): boolean {
  return one.left <= other.left && one.right >= other.right && one.top <= other.top && one.bottom >= other.bottom;
}

function box({ left, right, top, bottom }: Label): string {
  return `[${[left, top, right, bottom].map((value) => value.toFixed(1)).join(' ')}]`;
}

/** Numbers of the picture that its words do not say; the figures of a scale say nothing of the bike. */
function unsaid(block: FigureBlock): readonly string[] {
  const said = new Set(numbersIn(block.alt));
  const drawn = labelsOf(draw(block.figure, 'light')).filter((label) => !label.classes.includes('scale'));
  return drawn.flatMap((label) => numbersIn(label.words)).filter((number) => !said.has(number));
}

describe('every picture', () => {
  it('is among those looked at', () => {
    expect(new Set(ALL.map((block) => block.figure.kind))).toEqual(
      new Set(['gears', 'chainline', 'bolt-stack', 'chain', 'measure']),
    );
    expect(ALL.length).toBeGreaterThan(40);
  });

  it.each(NAMED)('%s: keeps its labels inside the frame, apart and large enough', (_, block) => {
    expect(faults(block)).toEqual([]);
  });

  it.each(NAMED)('%s: shows no number that its words leave out', (_, block) => {
    expect(unsaid(block)).toEqual([]);
  });

  it.each(NAMED)('%s: is told in at most 1000 characters', (_, block) => {
    expect(block.alt.length).toBeGreaterThan(80);
    expect(block.alt.length).toBeLessThanOrEqual(1000);
  });

  it.each(NAMED)('%s: has no number that is none', (_, block) => {
    expect(`${draw(block.figure, 'light')} ${block.alt}`).not.toMatch(/NaN|Infinity|undefined|null/);
  });

  it.each(NAMED)('%s: comes out the same every time, and the theme changes its colours only', (_, block) => {
    const light = draw(block.figure, 'light');
    expect(draw(block.figure, 'light')).toBe(light);
    const colourless = (svg: string) => svg.replace(/#[0-9a-f]{6}/g, '#');
    const dark = draw(block.figure, 'dark');
    expect(colourless(dark)).toBe(colourless(light));
    expect(dark).not.toBe(light);
  });

  it('stays legible for any bike', () => {
    const teeth = fc.integer({ min: 18, max: 70 });
    const tenths = (low: number, high: number) =>
      fc.integer({ min: low * 10, max: high * 10 }).map((value) => value / 10);
    const bike = fc.record({
      rings: fc.uniqueArray(teeth, { minLength: 1, maxLength: 3 }),
      ends: fc.tuple(fc.integer({ min: 9, max: 16 }), fc.integer({ min: 21, max: 60 })),
      speeds: fc.option(fc.integer({ min: 5, max: 13 })),
      ring: fc.integer({ min: 9, max: 35 }).map((half) => 2 * half),
      wheel: fc.option(fc.constantFrom('57-622', '28-622', '37-349', '2400mm')),
      cadence: fc.integer({ min: 30, max: 150 }),
      stays: fc.option(tenths(300, 800)),
      chain: fc.option(fc.integer({ min: 30, max: 130 }).map((half) => 2 * half)),
      hub: fc.option(fc.constantFrom(130, 135, 141, 142, 148, 150, 157)),
      line: fc.option(tenths(35, 70)),
      stack: fc.option(fc.tuple(tenths(1, 8), tenths(1, 12), fc.option(tenths(2, 20)))),
      power: fc.option(fc.integer({ min: 30, max: 1000 })),
    });
    const seen = new Set<string>();
    fc.assert(
      fc.property(bike, (told) => {
        const words = [
          `rings=${told.rings.join('/')} cassette=${told.ends.join('-')} ring=${told.ring} mount=direct cadence=${told.cadence}`,
          told.speeds === null ? '' : `speeds=${told.speeds}`,
          told.wheel === null ? '' : `wheel=${told.wheel}`,
          told.stays === null ? '' : `stays=${told.stays}mm suspension=none`,
          told.chain === null ? '' : `chain=${told.chain}`,
          told.hub === null ? '' : `hub=${told.hub}`,
          told.line === null ? '' : `chainline=${told.line}mm`,
          told.power === null ? '' : `power=${told.power}W`,
        ];
        const stack = told.stack === null ? '' : stackWords(told.stack);
        const blocks = [...figuresOf(words.join(' ')), ...figuresOf(`bcd=104 bolts=4 sharing=1 ${stack}`, 'mount')];
        for (const block of blocks) {
          seen.add(block.figure.kind);
          expect(faults(block)).toEqual([]);
          expect(unsaid(block)).toEqual([]);
        }
      }),
      { numRuns: 120 },
    );
    expect(seen).toEqual(new Set(['gears', 'chainline', 'bolt-stack', 'chain']));
  });
});

function stackWords([ring, spider, sleeve]: readonly [number, number, number | null]): string {
  return `ringtab=${ring}mm spidertab=${spider}mm${sleeve === null ? '' : ` sleeve=${sleeve}mm`}`;
}

describe.each(Object.entries(THEMES))('the %s theme', (_, theme) => {
  it.each(['ink', 'quiet', 'accent'] as const)('has %s that contrasts with its paper by 4.5 to 1 or more', (colour) => {
    expect(contrast(theme[colour], theme.paper)).toBeGreaterThanOrEqual(4.5);
  });
});

/** Contrast of two colours as the Web Content Accessibility Guidelines define it. */
function contrast(one: string, other: string): number {
  const [lighter = 0, darker = 0] = [luminance(one), luminance(other)].sort((a, b) => b - a);
  return (lighter + 0.05) / (darker + 0.05);
}

function luminance(colour: string): number {
  const [red = 0, green = 0, blue = 0] = [1, 3, 5].map((at) => {
    const value = Number.parseInt(colour.slice(at, at + 2), 16) / 255;
    return value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}
