import type { SettledBike } from '../bike/settled.ts';
import type { MountPart } from '../commands/answer.ts';
import { ringSeat } from '../solve/smallest-ring.ts';
import type { CautionBlock } from './card.ts';
import { article, plain } from './measures.ts';

/** A circle that cannot carry the largest ring of today is misread, or that of another crank; nothing where it can. */
export function fittedRingCautions(
  { bcdMm, smallestTeeth }: MountPart,
  { rings, mount }: SettledBike,
  section: 'summary' | 'mount',
): readonly CautionBlock[] {
  const [largest] = rings ?? [];
  if (largest === undefined || bcdMm === null || smallestTeeth === null || mount === 'riveted') return [];
  if (ringSeat(largest, bcdMm, smallestTeeth) !== 'impossible') return [];
  const circle = `${article(bcdMm)} ${plain(bcdMm, 1)} mm circle`;
  const text = `${largest}T is fitted today and cannot sit on ${circle}: unless that is another crank's, one of the two is misread. Measure again before you buy.`;
  return [{ kind: 'caution', section, level: 'care', text }];
}
