import { median, percentile } from './row.ts';

/** How much is measured. The short form only shows that a benchmark runs and counts right. */
export type Size = { readonly warmUp: number; readonly rounds: number; readonly each: number };

export const FULL: Size = { warmUp: 4000, rounds: 21, each: 400 };
export const SHORT: Size = { warmUp: 0, rounds: 2, each: 120 };

/** One of the two that are compared: its processor time, and what makes it answer so many questions. */
export type Side = {
  readonly cpuUs: () => Promise<number>;
  /** Gives the bytes of all answers together; throws where one is missing. */
  readonly ask: (count: number) => Promise<number>;
};

export type Compared = {
  /** Medians over the rounds, in microseconds a question. */
  readonly oursUs: number;
  readonly bareUs: number;
  /** Of each round; the median, and where the middle half of them lies. */
  readonly ratio: number;
  readonly spread: readonly [number, number];
  readonly asked: number;
  readonly oursBytes: number;
  readonly bareBytes: number;
};

/** How far the lengths of what both sides say may lie apart: the bare one always says the same. */
const APART = 0.05;

/**
 * Both by turns, so that whatever else the machine does falls on both alike.
 *
 * @throws where one of them says much less than the other: it has answered something else
 */
export async function compared(ours: Side, bare: Side, { warmUp, rounds, each }: Size): Promise<Compared> {
  // In pieces as well: a question that waits long between its signature and its turn is a late one, which is logged.
  for (let asked = 0; asked < warmUp; asked += each) {
    await ours.ask(each);
    await bare.ask(each);
  }
  const [oursUs, bareUs, ratios]: [number[], number[], number[]] = [[], [], []];
  let [asked, oursBytes, bareBytes] = [0, 0, 0];
  for (let round = 0; round < rounds; round += 1) {
    const our = await timed(ours, each);
    const their = await timed(bare, each);
    asked += each;
    oursBytes += our.bytes;
    bareBytes += their.bytes;
    oursUs.push(our.us);
    bareUs.push(their.us);
    ratios.push(our.us / their.us);
  }
  if (Math.abs(oursBytes / bareBytes - 1) > APART) {
    throw new Error(`${oursBytes} bytes were answered where the bare side said ${bareBytes}.`);
  }
  return {
    oursUs: median(oursUs),
    bareUs: median(bareUs),
    ratio: median(ratios),
    spread: [percentile(ratios, 0.25), percentile(ratios, 0.75)],
    asked,
    oursBytes,
    bareBytes,
  };
}

async function timed({ cpuUs, ask }: Side, count: number): Promise<{ readonly us: number; readonly bytes: number }> {
  const from = await cpuUs();
  const bytes = await ask(count);
  return { us: ((await cpuUs()) - from) / count, bytes };
}

/** Of many texts the one whose length is nearest to the mean: what the bare side always says. */
export function nearestToMean(texts: readonly string[]): string {
  const mean = texts.reduce((sum, each) => sum + each.length, 0) / texts.length;
  const off = (text: string) => Math.abs(text.length - mean);
  return texts.reduce((nearest, each) => (off(each) < off(nearest) ? each : nearest));
}
