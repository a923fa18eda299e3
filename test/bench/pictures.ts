import { setImmediate as turn } from 'node:timers/promises';
import { measure } from 'mitata';
import { openPictures } from '../../adapters/picture/pictures.ts';
import { raster } from '../../adapters/picture/raster.ts';
import { draw } from '../../src/draw/draw.ts';
import type { Figure } from '../../src/draw/figure.ts';
import { ask } from '../../src/workbench.ts';
import { allFigures, figuresOf, HARD_BIKES } from '../support/pictures.ts';

/** A picture through the thread may cost this many times the bare renderer on the same SVG. */
const GOAL_RATIO = 1.2;
const PICTURES = 2000;
const ROUNDS = 10;
const ANSWERS = 1000;
/** Pictures asked for before each answer. */
const FLOOD = 2;

const FIGURES = allFigures().map((block) => block.figure);
const [SETUP = ''] = HARD_BIKES;

/** Figures that no cache has seen. */
function fresh(count: number): readonly Figure[] {
  const [block] = figuresOf(SETUP);
  if (block?.figure.kind !== 'gears') throw new Error('The measured picture is not drawn.');
  const { figure } = block;
  return Array.from({ length: count }, (_, index) => ({ ...figure, cadenceRpm: 30 + index / 100 }));
}

function median(times: readonly number[]): number {
  return [...times].sort((a, b) => a - b)[Math.floor(times.length / 2)] ?? Number.NaN;
}

function percentile(times: readonly number[], share: number): number {
  return [...times].sort((a, b) => a - b)[Math.floor(times.length * share)] ?? Number.NaN;
}

const megabytes = () => process.memoryUsage().rss / 1024 / 1024;

/** SVG text alone, over every figure. */
async function svgMicroseconds(): Promise<number> {
  const { p50 } = await measure(() => FIGURES.map((figure) => draw(figure, 'light').length));
  return p50 / 1000 / FIGURES.length;
}

/** The same pictures through the thread and by the bare renderer, by turns so that both see the same machine. */
async function pictureTimes(): Promise<{ readonly threadMs: number; readonly bareMs: number }> {
  const pictures = openPictures({ cachedBytes: 0 });
  const figures = fresh(80);
  const [first] = figures;
  if (first !== undefined) await pictures.png(first, 'light');
  const [thread, bare]: [number[], number[]] = [[], []];
  for (const figure of figures) {
    const svg = draw(figure, 'light');
    let from = performance.now();
    raster(svg);
    bare.push(performance.now() - from);
    await turn();
    from = performance.now();
    await pictures.png(figure, 'light');
    thread.push(performance.now() - from);
  }
  await pictures.close();
  return { threadMs: median(thread), bareMs: median(bare) };
}

/** Memory of the whole process after many pictures, none of them from the cache. */
async function memory(): Promise<readonly number[]> {
  const pictures = openPictures();
  const marks = [megabytes()];
  let done = 0;
  for (const figure of fresh(PICTURES)) {
    await pictures.png(figure, 'dark');
    done += 1;
    if (done % (PICTURES / 4) === 0) marks.push(megabytes());
  }
  await pictures.close();
  return marks;
}

/** How long whole text answers take, one after the other, while `between` runs before each. */
async function answerTimes(between: () => void): Promise<readonly number[]> {
  const times: number[] = [];
  for (let index = 0; index < ANSWERS; index += 1) {
    between();
    await turn();
    const from = performance.now();
    ask({ command: 'convert', setup: SETUP });
    times.push(performance.now() - from);
  }
  return times;
}

const marks = await memory();
const svgUs = await svgMicroseconds();
console.log(`SVG text                ${svgUs.toFixed(0)} µs a figure, over ${FIGURES.length} figures`);

const { threadMs, bareMs } = await pictureTimes();
const ratio = threadMs / bareMs;
console.log(`PNG, bare renderer      ${bareMs.toFixed(1)} ms`);
console.log(`PNG, through the thread ${threadMs.toFixed(1)} ms, ${ratio.toFixed(2)} × (goal ${GOAL_RATIO})`);

// Calm and flooded by turns, so that whatever else the machine does falls on both alike.
const [calm, stormy]: [number[], number[]] = [[], []];
const figures = fresh(ROUNDS * ANSWERS * FLOOD);
const counts = { asked: 0, drawn: 0, busy: 0 };
const pictures = openPictures();
await answerTimes(() => undefined);
for (let round = 0; round < ROUNDS; round += 1) {
  calm.push(...(await answerTimes(() => undefined)));
  const waiting: Promise<void>[] = [];
  const flood = await answerTimes(() => {
    for (let index = 0; index < FLOOD; index += 1) {
      const figure = figures[counts.asked % figures.length];
      counts.asked += 1;
      if (figure === undefined) continue;
      const counted = pictures.png(figure, 'light').then(({ kind }) => {
        if (kind === 'busy' || kind === 'drawn') counts[kind] += 1;
      });
      waiting.push(counted);
    }
  });
  stormy.push(...flood);
  await Promise.all(waiting);
}
await pictures.close();
for (const [name, times] of [
  ['alone', calm],
  ['in a flood', stormy],
] as const) {
  const [p50, p99] = [percentile(times, 0.5), percentile(times, 0.99)];
  console.log(
    `Text answers ${name.padEnd(10)} ${p50.toFixed(2)} ms median, ${p99.toFixed(2)} ms at the 99th percentile`,
  );
}
console.log(
  `                        ${counts.asked} pictures asked for, ${counts.busy} refused, ${counts.drawn} drawn`,
);

const [start = 0, ...later] = marks;
console.log(
  `Memory                  ${start.toFixed(0)} MB, then ${later.map((mark) => mark.toFixed(0)).join(', ')} MB after each ${PICTURES / 4} pictures`,
);
