import { fileURLToPath } from 'node:url';
import { type Font, openSync } from 'fontkit';
import type { FigureBlock } from '../../src/card/card.ts';
import { FONT_FAMILY } from '../../src/draw/theme.ts';
import { ask } from '../../src/workbench.ts';

/** Every figure on the card that answers a question. */
export function figuresOf(setup: string, command = 'convert'): readonly FigureBlock[] {
  return ask({ command, setup }).card.blocks.filter((block) => block.kind === 'figure');
}

/** Bikes whose pictures are hard: few and many gears, tiny and huge rings, what is not known, what does not fit. */
export const HARD_BIKES: readonly string[] = [
  '2x10 36/22 11-36 29er hardtail 104bcd clutch stays=440mm chain=108 hub=142 chainline=49mm ringtab=3.5mm spidertab=4mm sleeve=6.5mm power=200W',
  '44/32/22 11-34 speeds=9 bcd=104 bolts=4 wheel=57-559 ring=32 stays=425mm hub=135 chainline=52mm',
  '50/34 11-32 speeds=11 gap=64.7mm bolts=5 wheel=28-622 ring=42 newcassette=11-40 stays=410mm hub=130 chainline=43.5mm chain=106',
  '52/39 11-32 ring=60 bcd=130 bolts=5 stays=400mm wheel=37-349 speeds=8 hub=130 chainline=43mm',
  'rings=34 cassette=11-42 speeds=11 ring=30 bcd=104 bolts=4 wheel=57-622 stays=430mm chain=112',
  'rings=46/30 cassette=9-42 speeds=13 bcd=110 bolts=4 wheel=40-622 hub=142 chainline=47mm stays=425mm',
  'rings=48/36/26 cassette=12-28 speeds=7 ring=38 wheel=32-622 bcd=110 bolts=5',
  'rings=53/39 cassette=11-28 ring=53 newcassette=11-40 wheel=25-622 cadence=100 stays=405mm',
  'rings=22 cassette=11-51 speeds=12 ring=20 mount=direct hub=157 chainline=56.5mm stays=445mm chain=130 join=pin wheel=29x2.6',
  'rings=70/18 cassette=9-60 speeds=13 ring=70 mount=direct stays=300mm chain=60 wheel=57-622 power=1000W hub=157 chainline=70mm',
  'rings=36/22 cassette=35-36 ring=32 bcd=104 bolts=4',
  'full sus 36/26 11-42 to 32 stays=435mm longest=452mm chain=112 hub=148 chainline=52mm speeds=12',
  '36/22 11-36 ring=33 bcd=104 bolts=4 hub=148 chainline=35mm stays=440mm speeds=10 ringtab=1mm spidertab=1mm sleeve=20mm',
  '36/22 11-36 ring=32 bcd=104 bolts=4 hub=135 speeds=10 ringtab=8mm spidertab=12mm sleeve=2mm wheel=2280mm cadence=30',
  '36/22 11-36 ring=32 bcd=104 bolts=4 hub=142 chainline=49.25mm ringtab=3.25mm spidertab=3.75mm wheel=57-622 cadence=72.5',
  'rings=40/30 cassette=11-13-15-17-19-21-24-28-32-36-40 newcassette=10-12-14-16-18-21-24-28-33-39-45-51 ring=34 bcd=104 bolts=4 wheel=2100mm stays=440.5mm chain=112 hub=150 chainline=55.5mm units=imperial',
];

export const TOPICS: readonly string[] = ['bcd', 'chainline', 'stays', 'longest', 'count', 'wear', 'stack'];

/** Every figure there is, over all hard bikes and all that can be measured. */
export function allFigures(): readonly FigureBlock[] {
  return [
    ...HARD_BIKES.flatMap((setup) => figuresOf(setup)),
    ...TOPICS.flatMap((topic) => figuresOf(topic, 'measure')),
  ];
}

/** A line of text as it stands in the picture, its ink measured in the very font that draws it. */
export type Label = {
  readonly words: string;
  readonly classes: readonly string[];
  readonly size: number;
  readonly x: number;
  readonly y: number;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
};

const PACKAGE = '@expo-google-fonts/barlow-semi-condensed';
const font = (file: string): Font => {
  const opened = openSync(fileURLToPath(import.meta.resolve(`${PACKAGE}/${file}`)));
  if (!('layout' in opened)) throw new Error(`${file} is a collection`);
  return opened;
};
export const REGULAR = font('400Regular/BarlowSemiCondensed_400Regular.ttf');
export const BOLD = font('600SemiBold/BarlowSemiCondensed_600SemiBold.ttf');

const TEXT =
  /<text(?: class="([^"]*)")? x="([-\d.]+)" y="([-\d.]+)" font-size="(\d+)"(?: text-anchor="(\w+)")?>([^<]*)<\/text>/g;

/** Every label of a picture; fails on a text that is not written the way this reads it. */
export function labelsOf(svg: string): readonly Label[] {
  const found = [...svg.matchAll(TEXT)];
  if (found.length !== (svg.match(/<text/g) ?? []).length) throw new Error('a text was not understood');
  if (!svg.includes(`font-family="${FONT_FAMILY}"`)) throw new Error('another font');
  return found.map(([, classes = '', xText, yText, sizeText, anchor, escaped = '']) => {
    const words = escaped.replaceAll('&lt;', '<').replaceAll('&gt;', '>').replaceAll('&amp;', '&');
    const [x, y, size] = [Number(xText), Number(yText), Number(sizeText)];
    const run = (classes.split(' ').includes('bold') ? BOLD : REGULAR).layout(words);
    const scale = size / 1000;
    const start = x - run.advanceWidth * scale * (anchor === 'end' ? 1 : anchor === 'middle' ? 0.5 : 0);
    const { minX, maxX, minY, maxY } = run.bbox;
    return {
      words,
      classes: classes.split(' '),
      size,
      x,
      y,
      left: start + minX * scale,
      right: start + maxX * scale,
      top: y - maxY * scale,
      bottom: y - minY * scale,
    };
  });
}

/** The numbers in a text as they are printed, an en dash or a minus sign apart. */
export function numbersIn(words: string): readonly string[] {
  return words.match(/\d+(?:\.\d+)?/g) ?? [];
}
