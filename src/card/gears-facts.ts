import type { RoadPower } from '../solve/climb.ts';
import type { GearRange } from '../solve/gears.ts';
import type { RingOption, Terrain } from '../solve/ring-options.ts';
import type { SprocketList } from '../solve/sprocket-list.ts';
import type { WheelCircumference } from '../solve/wheel-circumference.ts';
import type { WiderCassette } from '../solve/wider-cassette.ts';

export type Ends = { readonly smallestTeeth: number; readonly largestTeeth: number };

/** Everything the gears section speaks of; numbers only, worked out before. */
export type GearsFacts = {
  readonly rings: readonly number[];
  readonly cassetteNow: Ends;
  readonly cassetteThen: Ends;
  readonly speeds: number | null;
  readonly now: GearRange;
  readonly shown: readonly RingOption[];
  readonly wantedTeeth: number | null;
  /** The ring the single-ring facts speak of; null when none can be named. */
  readonly ring: RingOption | null;
  /** Largest and smallest of the fitting rings that cost as little as the recommended one; null where it is alone. */
  readonly alike: { readonly smallestTeeth: number; readonly largestTeeth: number } | null;
  readonly byTerrain: Readonly<Record<Terrain, number | null>>;
  readonly terrain: Terrain;
  readonly cadenceRpm: number;
  readonly crankMm: number | null;
  readonly wheel: Extract<WheelCircumference, { readonly kind: 'found' }> | null;
  readonly sprocketsNow: SprocketList;
  readonly sprocketsThen: SprocketList;
  readonly keeps: { readonly lowestTeeth: number; readonly highestTeeth: number };
  readonly keepSprocketTeeth: number | null;
  readonly widerCassettes: readonly WiderCassette[];
  readonly climb: ClimbFacts | null;
};

/** The steepest slope in the lowest gear, now and with the single ring; a slope is null where none has an answer. */
export type ClimbFacts = {
  readonly powerW: number;
  readonly massKg: number;
  readonly rollingCoefficient: number;
  readonly dragAreaM2: number;
  readonly speedKmh: number;
  readonly gradePct: number | null;
  readonly speedNowKmh: number;
  readonly gradeNowPct: number | null;
  /** Where the power goes on the steepest slope of the single ring; null where there is none. */
  readonly terms: RoadPower | null;
  /** A motor helps on the bike; its power is not in these figures. */
  readonly assisted: boolean;
  readonly riders: 1 | 2;
  /** Two riders, and a weight as of one. */
  readonly lightForTwo: boolean;
};

export function endsText(ends: Ends): string {
  return `${ends.smallestTeeth}-${ends.largestTeeth}`;
}

/** "lowest gear 45 % harder". */
export function lowestWords(pct: number): string {
  const whole = Math.round(pct);
  if (whole === 0) return 'lowest gear as now';
  return whole > 0 ? `lowest gear ${whole} % harder` : `lowest gear ${-whole} % easier`;
}
