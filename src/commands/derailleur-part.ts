import type { Question } from '../bike/reading.ts';
import type { SettledBike } from '../bike/settled.ts';
import { capacityNeeded, type DerailleurVerdict, derailleurVerdict } from '../solve/derailleur.ts';
import type { DerailleurPart } from './answer.ts';
import { limitsOf } from './mount.ts';

/** The rear derailleur's part and what its words need. */
export type DerailleurFindings = {
  readonly part: DerailleurPart;
  readonly verdict: DerailleurVerdict;
  readonly asks: readonly Question[];
};

/** Whether the rear derailleur takes the cassette behind one ring; null while no cassette is known. */
export function derailleurPart(bike: SettledBike): DerailleurFindings | null {
  const cassette = bike.newCassette ?? bike.cassette;
  if (cassette === undefined) return null;
  const verdict = derailleurVerdict(cassette, limitsOf(bike));
  const { rings, cassette: old } = bike;
  const asks: Question[] = [];
  // A cassette that stays is carried today; only a new one can be too much.
  if (bike.newCassette !== undefined) {
    const { smallestTeeth, largestTeeth } = cassette;
    const larger = old === undefined || largestTeeth > old.largestTeeth;
    if (verdict.largestFits === null && larger) {
      asks.push({
        field: 'maxcog',
        question: `What is the largest sprocket your rear derailleur takes? The new one has ${largestTeeth}T.`,
        choices: [],
      });
    }
    const wider = old === undefined || verdict.needed > old.largestTeeth - old.smallestTeeth;
    if (verdict.capacityFits === null && wider) {
      asks.push({
        field: 'capacity',
        question: `What capacity has your rear derailleur? ${smallestTeeth}-${largestTeeth} needs ${verdict.needed} teeth.`,
        choices: [],
      });
    }
  }
  return {
    part: {
      capacityNeeded: verdict.needed,
      capacityNeededNow:
        rings === undefined || old === undefined ? null : capacityNeeded(rings, old.smallestTeeth, old.largestTeeth),
      capacityTeeth: bike.capacityTeeth ?? null,
      largestSprocketTeeth: cassette.largestTeeth,
      maxSprocketTeeth: bike.maxSprocketTeeth ?? null,
      capacityFits: verdict.capacityFits,
      largestFits: verdict.largestFits,
    },
    verdict,
    asks,
  };
}
