import type { SettledBike } from '../bike/settled.ts';
import { objectionWords } from '../card/objections.ts';
import { objections } from '../solve/objections.ts';
import type { Objection } from './answer.ts';

/** Why not to convert this bike, as far as it shows; `smallestRingTeeth` is what the crank takes, null while open. */
export function objectionsFor(bike: SettledBike, smallestRingTeeth: number | null): readonly Objection[] {
  const maxRingTeeth = bike.maxRingTeeth ?? null;
  const { wheel } = bike;
  return objections({
    mount: bike.mount ?? null,
    midDrive: bike.assist === 'mid-drive',
    sprocketCount: (bike.newCassette ?? bike.cassette)?.sprockets?.length ?? bike.speeds ?? null,
    hilly: bike.terrainAssumed === true ? null : bike.terrain === 'hills',
    tandem: bike.tandem === true,
    maxRingTeeth,
    smallestRingTeeth,
    beadSeatMm: wheel === undefined || wheel.kind === 'rollout' ? null : wheel.beadSeatMm,
  }).map((kind) => ({ reason: objectionWords(kind, maxRingTeeth, smallestRingTeeth), basis: 'common-practice' }));
}
