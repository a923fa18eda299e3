import type { Bike } from '../bike/bike.ts';
import type { Assumption, Question } from '../bike/reading.ts';
import type { SettledBike } from '../bike/settled.ts';
import { sourceWords } from '../card/basis.ts';
import {
  barQuestion,
  partName,
  ringsQuestion,
  rivetedRefusal,
  sharingQuestion,
  weightAnswer,
  weightBlocks,
  weightLines,
} from '../card/weight.ts';
import { type WeighedPart, weightSaved } from '../solve/weight.ts';
import type { WeightItem, WeightPart } from './answer.ts';
import type { Command, Outcome } from './command.ts';
import { likelyBar } from './handlebar.ts';
import { ringsOnBolts } from './mount.ts';

/**
 * What a conversion to `ringTeeth` (null: size open) takes off and puts on; `chainRemovedPitches` is over 0 for pitches
 * taken out, under 0 for pitches put in, null while the chain is open. Null where the rings are unknown, or riveted to
 * a crank that would have to go as well.
 */
export function weightPart(
  bike: Bike,
  ringTeeth: number | null,
  chainRemovedPitches: number | null,
): WeightPart | null {
  if (bike.rings === undefined || bike.mount === 'riveted') return null;
  const sum = weightSaved({
    oldRings: bike.rings,
    ringTeeth,
    direct: bike.mount === 'direct',
    ringBolts: !atTheMotor(bike),
    sharingRings: ringsOnBolts(bike).rings,
    separateShifter: (bike.bar ?? likelyBar(bike)) !== 'drop',
    chainRemovedPitches,
    speeds: bike.speeds ?? bike.cassette?.sprockets?.length ?? null,
  });
  return { ...sum, removed: sum.removed.map(item), added: sum.added.map(item) };
}

/** What the sum takes for granted of the handlebar. */
export function weightAssumed(bike: Bike): readonly Assumption[] {
  const counted = bike.bar === undefined && bike.rings !== undefined && bike.rings.length > 1;
  if (!counted || bike.mount === 'riveted') return [];
  const bar = likelyBar(bike);
  const basis =
    bar === 'drop'
      ? 'not said: rings of a road bike, whose front shifter stays in the brake lever'
      : 'not said: the front shifter is counted as a part of its own';
  return [{ field: 'bar', value: bar, basis }];
}

/** Whether a motor holds the ring, with whatever its maker made for that. */
export function atTheMotor({ assist }: Bike): boolean {
  return assist === 'mid-drive';
}

function item(part: WeighedPart): WeightItem {
  const { lowG, typicalG, highG, basis } = part;
  return { part: partName(part.part, part.count), lowG, typicalG, highG, basis, source: sourceWords(part) };
}

function answer(bike: SettledBike): Outcome {
  if (bike.mount === 'riveted') return { kind: 'refused', refusal: rivetedRefusal() };
  const ringTeeth = bike.ringTeeth ?? null;
  const part = weightPart(bike, ringTeeth, null);
  if (part === null) {
    const words = { answer: 'Which rings come off? Then I can add up the weight.', lines: [], blocks: [] };
    return { kind: 'asks', words, asks: [ringsQuestion()] };
  }
  const bolts = bike.mount === 'direct' || atTheMotor(bike) ? null : ringsOnBolts(bike);
  const bar = weightAssumed(bike);
  const asks: Question[] = [];
  if (bolts !== null && bolts.rings === null) asks.push(sharingQuestion());
  if (bar.length > 0) asks.push(barQuestion());
  return {
    kind: 'answered',
    answer: ringTeeth === null ? { weight: part } : { weight: part, speaksOf: { teeth: ringTeeth, because: 'wanted' } },
    words: {
      answer: weightAnswer(part, ringTeeth),
      lines: weightLines(part, atTheMotor(bike)),
      blocks: weightBlocks(part),
    },
    assumed: [...(bolts?.assumed ?? []), ...bar],
    asks,
  };
}

export const weight: Command = {
  name: 'weight',
  summary: 'What comes off, what goes on and what the bike saves: least, typical, most',
  keys: ['rings', 'ring', 'mount', 'bcd', 'bolts', 'gap', 'sharing', 'bar', 'speeds', 'cassette'],
  examples: ['36/22 ring=32 bar=flat', '42/32/22 ring=32 sharing=2', '50/34 ring=42 bar=drop'],
  answer,
};
