import type { SettledBike } from '../bike/settled.ts';
import type { ChainlinePart } from '../commands/answer.ts';
import type { ChainlineFigure } from '../draw/figure.ts';
import type { FigureBlock } from './card.ts';
import { length, plain } from './measures.ts';

export type SprocketLine = { readonly teeth: number; readonly lineMm: number };

const VERDICT_WORDS = { good: 'good', acceptable: 'acceptable', poor: 'too far' } as const;

/** The ring against the cassette from above; null where the cassette's place is not known. `lines` are its sprockets. */
export function chainlineFigure(
  part: ChainlinePart,
  lines: readonly SprocketLine[],
  told: Pick<SettledBike, 'hubMm' | 'stayMm'>,
  ringTeeth: number | null,
): FigureBlock | null {
  const { rearMm, targetLowMm: lowMm, targetHighMm: highMm, frontMm } = part;
  const { hubMm, stayMm = null } = told;
  if (rearMm === null || lowMm === null || highMm === null || hubMm === undefined || lines.length === 0) return null;
  const sprockets = lines.map(({ teeth, lineMm }, index) => ({
    teeth,
    lineMm,
    angleDeg: part.sprockets[index]?.angleDeg ?? null,
  }));
  const { verdict } = part;
  const figure: ChainlineFigure = {
    kind: 'chainline',
    hubMm,
    rearMm,
    frontMm,
    ringTeeth,
    lowMm,
    highMm,
    stayMm,
    sprockets,
    verdict,
  };
  return { kind: 'figure', section: 'chainline', title: 'Chainline, seen from above', alt: altText(figure), figure };
}

function altText(figure: ChainlineFigure): string {
  const { hubMm, rearMm, frontMm, lowMm, highMm, sprockets, verdict, stayMm } = figure;
  const [outer] = sprockets;
  const inner = sprockets.at(-1);
  const sentences = ['Seen from above, measured from the middle of the frame.'];
  if (frontMm !== null) {
    const name = figure.ringTeeth === null ? 'The ring' : `The ${figure.ringTeeth}T ring`;
    const off = plain(Math.abs(frontMm - rearMm), 1);
    const side = off === '0' ? 'in line with' : `${off} mm further ${frontMm > rearMm ? 'out' : 'in'} than`;
    const judged = verdict === null ? '' : `: ${VERDICT_WORDS[verdict]}`;
    sentences.push(`${name} runs at ${plain(frontMm, 2)} mm, ${side} the cassette's middle${judged}.`);
  }
  sentences.push(
    `The cassette's middle is at ${length(rearMm)}; rings for a ${plain(hubMm, 1)} mm hub are made to run at ${plain(lowMm, 1)} to ${plain(highMm, 1)} mm.`,
    `Sprockets from the outside in: ${sprockets.map((each) => `${each.teeth}`).join(', ')}.`,
  );
  if (frontMm !== null && outer?.angleDeg != null && inner?.angleDeg != null && stayMm !== null) {
    sentences.push(
      `On a ${plain(stayMm, 1)} mm stay the chain slants ${plain(outer.angleDeg, 1)}° to the ${outer.teeth}T and ${plain(inner.angleDeg, 1)}° to the ${inner.teeth}T sprocket.`,
    );
  }
  if (frontMm !== null && (frontMm > highMm || frontMm < lowMm)) {
    const over = frontMm > highMm ? frontMm - highMm : lowMm - frontMm;
    sentences.push(
      `The nearest place in that band is ${plain(over, 2)} mm further ${frontMm > highMm ? 'in' : 'out'}.`,
    );
  }
  if (stayMm === null) sentences.push('The chainstay is not known, so no angle is given.');
  return sentences.join(' ');
}
