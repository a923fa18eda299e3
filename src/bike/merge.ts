import type { Bike } from './bike.ts';
import { gapsSay } from './conflicts.ts';

/**
 * The remembered bike with what is told now laid over it. What was told wins, and whatever remembered fact was true
 * only of the part that is now replaced goes with it: a remembered gap does not describe a new bolt circle. Facts of
 * the whole bike (chain count, stays, rider) stay.
 */
export function mergeBikes(known: Bike, told: Bike): Bike {
  const kept: { -readonly [P in keyof Bike]: Bike[P] } = { ...known };

  const knownCount = known.cassette?.sprockets?.length;
  const toldCount = told.cassette?.sprockets?.length;
  // A new cassette told whole brings its own count; a new count means the remembered list was another cassette's.
  if (toldCount !== undefined && toldCount !== known.speeds) delete kept.speeds;
  if (
    told.speeds !== undefined &&
    told.cassette === undefined &&
    knownCount !== undefined &&
    knownCount !== told.speeds
  ) {
    const { smallestTeeth, largestTeeth } = known.cassette ?? { smallestTeeth: 0, largestTeeth: 0 };
    kept.cassette = { smallestTeeth, largestTeeth };
  }

  // How many rings share the circle was counted on the old set of rings.
  if (told.rings !== undefined && told.rings.length !== known.rings?.length) delete kept.sharingRings;

  // Where the motor sits is not untold by the word e-bike.
  if (told.assist === 'yes' && (known.assist === 'hub' || known.assist === 'mid-drive')) {
    return mergeBikes(known, { ...told, assist: known.assist });
  }

  // An inner circle and the spacing of the holes belong to the spider they were told of.
  if (told.bcdMm !== undefined && told.bcdMm !== known.bcdMm) {
    delete kept.innerBcdMm;
    delete kept.pattern;
  }
  // A circle, the gaps it was worked out from and a direct mount describe one crank: telling one of them anew drops
  // the remembered others, or the reply would ask about a crank that is no longer there.
  if (told.bcdMm !== undefined && told.bcdMm !== known.bcdMm) delete kept.gapsMm;
  if (told.gapsMm !== undefined) delete kept.bcdMm;
  // Two gaps say the spacing themselves, and a spacing that is told anew says that they were measured wrong.
  if ((gapsSay(told) ?? known.pattern) !== known.pattern) delete kept.pattern;
  if (told.pattern !== undefined && (gapsSay(known) ?? told.pattern) !== told.pattern) delete kept.gapsMm;
  if (told.bolts !== undefined && told.bolts !== known.bolts) {
    delete kept.innerBcdMm;
    delete kept.pattern;
    delete kept.bcdMm;
    delete kept.gapsMm;
  }
  if (told.mount === 'direct') {
    delete kept.bcdMm;
    delete kept.innerBcdMm;
    delete kept.pattern;
    delete kept.bolts;
    delete kept.gapsMm;
    delete kept.sharingRings;
  }
  if (known.mount === 'direct' && (told.bcdMm !== undefined || told.gapsMm !== undefined)) {
    delete kept.mount;
    delete kept.offsetMm;
  }

  // A hardtail has no longest axle distance, and who measured one has no hardtail.
  if (told.suspension === 'none') delete kept.longestMm;
  if (told.longestMm !== undefined && known.suspension === 'none') delete kept.suspension;

  // "29er" said of a bike whose tyre is known tells nothing new about it.
  if (told.wheel?.kind === 'rim' && known.wheel?.kind === 'tyre' && told.wheel.beadSeatMm === known.wheel.beadSeatMm) {
    return { ...kept, ...told, wheel: known.wheel };
  }
  return { ...kept, ...told };
}
