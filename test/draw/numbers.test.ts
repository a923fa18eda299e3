import { describe, expect, it } from 'vitest';
import type { FigureBlock } from '../../src/card/card.ts';
import { change, pitches, plain } from '../../src/card/measures.ts';
import { draw } from '../../src/draw/draw.ts';
import type { Figure } from '../../src/draw/figure.ts';
import { figuresOf, HARD_BIKES, type Label, labelsOf } from '../support/pictures.ts';
import { answered } from '../support/replies.ts';

const HILL_BIKE =
  '2x10 36/22 11-36 29er hardtail 104bcd clutch stays=440mm chain=108 hub=142 chainline=49mm ringtab=3.5mm spidertab=4mm sleeve=8mm power=200W';

/** The card's figures and what is drawn for them. */
function drawn<K extends Figure['kind']>(setup: string, kind: K) {
  const reply = answered(setup);
  const block = reply.card.blocks.find((each) => each.kind === 'figure' && each.figure.kind === kind);
  if (block?.kind !== 'figure') throw new Error(`no ${kind} figure`);
  const svg = draw(block.figure, 'light');
  const labels = labelsOf(svg);
  return { answer: reply.answer, block, svg, labels, words: labels.map((label) => label.words) };
}

/** Where marks of a kind stand, left to right, on the row whose label is at this height. */
function marks(svg: string, pattern: RegExp, y: number): readonly number[] {
  const found = [...svg.matchAll(pattern)].map(([, x, at]) => [Number(x), Number(at)] as const);
  return found
    .filter(([, at]) => Math.abs(at - (y - 6)) < 0.5)
    .map(([x]) => x)
    .sort((a, b) => a - b);
}
const DOTS = /<circle class="(?:solid|accented)" cx="([\d.]+)" cy="([\d.]+)"/g;
const DIAMONDS = /<path class="open" d="[^"]*" transform="translate\(([\d.]+) ([\d.]+)\)"\/>/g;

/** Reads a logarithmic axis back from two of its figures, as a reader with a ruler would. */
function axisReader(labels: readonly Label[], unit: string): (x: number) => number {
  const row = labels.find((label) => label.words === unit);
  const ticks = labels.filter((label) => label.classes.includes('scale') && label.y === row?.y && label.words !== unit);
  const [first, last] = [ticks[0], ticks.at(-1)].map((tick) => [tick?.x ?? 0, Number(tick?.words)] as const);
  if (first === undefined || last === undefined || first[0] === last[0]) throw new Error('no axis');
  const slope = Math.log(last[1] / first[1]) / (last[0] - first[0]);
  return (x) => first[1] * Math.exp((x - first[0]) * slope);
}

describe('the gears picture', () => {
  const { answer, svg, labels, words } = drawn(HILL_BIKE, 'gears');
  const at = (name: string) => labels.find((label) => label.words === name)?.y ?? Number.NaN;

  it('prints the speeds and changes of the answer', () => {
    const { now, rings = [] } = answer;
    expect(words).toContain('Gears in km/h at 90 rpm');
    expect(words).toContain(now?.lowestSpeedKmh?.toFixed(1));
    expect(words).toContain(now?.highestSpeedKmh?.toFixed(1));
    for (const teeth of [30, 32, 34]) {
      const option = rings.find((each) => each.teeth === teeth);
      expect(words).toContain(option?.lowestSpeedKmh?.toFixed(1));
      expect(words).toContain(option?.highestSpeedKmh?.toFixed(1));
      expect(words).toContain(
        `lowest ${change(option?.lowestChangePct ?? Number.NaN)}, highest ${change(option?.highestChangePct ?? Number.NaN)}`,
      );
    }
    const { gradeNowPct = Number.NaN, gradePct = Number.NaN } = answer.climb ?? {};
    expect(words.join(' ')).toContain(`now ${plain(gradeNowPct, 1)} %, with 32T ${plain(gradePct, 1)} %`);
  });

  it('has a mark for every gear, the lost ones open, each at its speed on both axes', () => {
    const kmh = axisReader(labels, 'km/h');
    const mph = axisReader(labels, 'mph');
    const kmhPerRatio = (answer.now?.lowestSpeedKmh ?? Number.NaN) / (answer.now?.lowestRatio ?? Number.NaN);
    const sprockets = answer.sprockets?.now?.teeth ?? [];
    expect(sprockets).toHaveLength(10);
    const avoid = answer.trial?.avoid ?? [];
    expect(avoid.length).toBeGreaterThan(0);
    let open = 0;
    for (const ring of [36, 22]) {
      const dots = marks(svg, DOTS, at(`${ring}T`));
      const diamonds = marks(svg, DIAMONDS, at(`${ring}T`));
      const lost = avoid.filter((gear) => gear.ringTeeth === ring);
      open += diamonds.length;
      expect(diamonds).toHaveLength(lost.length);
      const speeds = sprockets.map((teeth) => (ring / teeth) * kmhPerRatio).sort((a, b) => a - b);
      // A hundredth of a pixel on 300 pixels for a sixfold range is well under a thousandth.
      [...dots, ...diamonds]
        .sort((a, b) => a - b)
        .forEach((x, index) => {
          expect(kmh(x) / (speeds[index] ?? Number.NaN)).toBeCloseTo(1, 2);
          expect((mph(x) * 1.609344) / (speeds[index] ?? Number.NaN)).toBeCloseTo(1, 2);
        });
    }
    expect(words.join(' ')).toContain(`${open} gears lost with 32T`);
  });

  it('shows ratios where there is no wheel', () => {
    const plainBike = drawn('36/22 11-36 speeds=10 bcd=104 bolts=4', 'gears');
    expect(plainBike.words).toContain('ratio');
    expect(plainBike.words).toContain(plainBike.answer.now?.lowestRatio.toFixed(2));
    expect(plainBike.words.join(' ')).not.toMatch(/km\/h|mph/);
  });
});

describe('the chainline picture', () => {
  const { answer, block, svg, labels, words } = drawn(HILL_BIKE, 'chainline');
  const line = answer.chainline;

  it('prints the lines and angles of the answer', () => {
    expect(words).toContain(`32T ring at ${plain(line?.frontMm ?? Number.NaN, 2)} mm`);
    expect(words).toContain(`cassette middle ${plain(line?.rearMm ?? Number.NaN, 1)} mm`);
    expect(words).toContain(`${plain(line?.targetLowMm ?? 0, 1)} to ${plain(line?.targetHighMm ?? 0, 1)} mm`);
    expect(words).toContain(`${plain(line?.worstDeg ?? Number.NaN, 1)}°`);
    expect(words).toContain(`${plain(line?.sprockets[0]?.angleDeg ?? Number.NaN, 1)}°`);
    expect(block.alt).toContain(line?.verdict);
  });

  it('places every sprocket to scale beside the ring', () => {
    const ring = labels.find((label) => label.words.startsWith('32T ring'));
    // The name stands midway between the mid-plane and the ring, so the ring is as far again.
    const plane = Number(/<line class="axis" x1="([\d.]+)"/.exec(svg)?.[1]);
    const ringX = 2 * (ring?.x ?? Number.NaN) - plane;
    const perMm = (ringX - plane) / (line?.frontMm ?? Number.NaN);
    const sprockets = line?.sprockets ?? [];
    expect(sprockets).toHaveLength(10);
    for (const { teeth, offsetMm } of sprockets) {
      const label = labels.find((each) => each.words === `${teeth}`);
      expect((ringX - (label?.x ?? Number.NaN)) / perMm).toBeCloseTo(offsetMm, 1);
    }
  });
});

describe('a ring far inside its band', () => {
  it('leaves the band its own words: they stand over it, not beside the ring', () => {
    const { labels } = drawn(HILL_BIKE.replace('chainline=49mm', 'chainline=35mm'), 'chainline');
    const ring = labels.find((label) => label.words === '32T ring at 35 mm');
    const band = labels.find((label) => label.words === 'made for a 142 mm hub:');
    // The name of the ring's line ends before the ring itself.
    expect(band?.left).toBeGreaterThan(ring?.right ?? Number.NaN);
    expect(band?.bottom).toBeLessThan((ring?.bottom ?? Number.NaN) + 10);
  });
});

describe('the chain picture', () => {
  it('prints the lengths of the answer and cuts only what comes out', () => {
    const { answer, words } = drawn(HILL_BIKE, 'chain');
    const { chain } = answer;
    expect(words.join(' ')).toContain(pitches(chain?.targetPitches ?? Number.NaN));
    expect(words.join(' ')).toContain(`${chain?.wrapPitches?.toFixed(2)} pitches just fit`);
    expect(words.join(' ')).toContain(`${pitches(chain?.removePitches ?? Number.NaN)} come out`);
    expect(words).toContain('cut here');
  });

  it('cuts nothing where nothing comes out or nobody has counted', () => {
    for (const chain of ['', 'chain=106', 'chain=100']) {
      expect(drawn(`36/22 11-36 bcd=104 bolts=4 ring=32 stays=440mm ${chain}`, 'chain').words).not.toContain(
        'cut here',
      );
    }
  });

  it('is not drawn while nothing may be cut', () => {
    for (const setup of ['full sus 36/26 11-42 to 32 stays=435mm chain=114', '36/26 11-42 to 32 chain=114']) {
      const figures = figuresOf(`${setup} bcd=104 bolts=4`);
      expect(figures.length).toBeGreaterThan(0);
      expect(figures.map((each) => each.figure.kind)).not.toContain('chain');
    }
  });
});

describe('the bolt picture', () => {
  it('shows head and sleeve meeting, and the washer that mends it', () => {
    const { answer, block, words } = drawn(HILL_BIKE, 'bolt-stack');
    expect(answer.mount?.stack?.verdict).toBe('bottoms');
    expect(words).toContain('they meet here');
    expect(words).toContain(`grip ${plain(answer.mount?.stack?.gripMm ?? Number.NaN, 1)} mm`);
    // 8 − 7.5 + 0.3
    expect(words).toContain('washer 0.8 mm');
    expect(block.alt).toContain('Do not ride.');
  });

  it('shows what stays clear where it holds', () => {
    const { words } = drawn(HILL_BIKE.replace('sleeve=8mm', 'sleeve=6.5mm'), 'bolt-stack');
    // 7.5 − 6.5
    expect(words).toContain('1 mm clear');
    expect(words).not.toContain('they meet here');
  });
});

/** What a picture must print, from the answer beside it. */
function wanted({ figure }: FigureBlock, answer: ReturnType<typeof answered>['answer']): readonly string[] {
  const { now, rings = [], chain, chainline, mount } = answer;
  switch (figure.kind) {
    case 'gears': {
      const shown = [now, ...figure.options.map(({ teeth }) => rings.find((ring) => ring.teeth === teeth))];
      return shown.flatMap((each) =>
        figure.kmhPerRatio === null
          ? [each?.lowestRatio.toFixed(2) ?? '', each?.highestRatio.toFixed(2) ?? '']
          : [each?.lowestSpeedKmh?.toFixed(1) ?? '', each?.highestSpeedKmh?.toFixed(1) ?? ''],
      );
    }
    case 'chain': {
      const counts = [chain?.targetPitches, chain?.removePitches, chain?.addPitches].filter((each) => each != null);
      return [chain?.wrapPitches?.toFixed(2) ?? '', ...counts.filter((each) => each > 0).map(pitches)];
    }
    case 'chainline': {
      const { frontMm = null, rearMm = null, worstDeg = null } = chainline ?? {};
      const rear = `cassette middle ${plain(rearMm ?? Number.NaN, 1)} mm`;
      if (frontMm === null) return [rear];
      return [rear, `ring at ${plain(frontMm, 2)} mm`, ...(worstDeg === null ? [] : [`${plain(worstDeg, 1)}°`])];
    }
    case 'bolt-stack':
      return [`grip ${plain(mount?.stack?.gripMm ?? Number.NaN, 1)} mm`];
    case 'measure':
      return [];
  }
}

it.each(HARD_BIKES)('every picture prints the numbers of its answer: %s', (setup) => {
  const reply = answered(setup);
  const blocks = reply.card.blocks.filter((block) => block.kind === 'figure');
  expect(blocks.length).toBeGreaterThan(0);
  for (const block of blocks) {
    const words = labelsOf(draw(block.figure, 'light')).map((label) => label.words);
    const missing = wanted(block, reply.answer).filter((each) => each === '' || !words.join(' ').includes(each));
    expect(missing, block.title).toEqual([]);
  }
});

describe('a card', () => {
  it.each(HARD_BIKES)('has at most one picture a section: %s', (setup) => {
    const sections = figuresOf(setup).map((block) => block.section);
    expect(sections.length).toBeGreaterThan(0);
    expect(new Set(sections).size).toBe(sections.length);
  });
});
