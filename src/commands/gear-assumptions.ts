import type { Assumption } from '../bike/reading.ts';
import type { GearsFacts } from '../card/gears-facts.ts';
import type { SprocketList } from '../solve/sprocket-list.ts';

/** The sprockets nobody counted. */
export function sprocketAssumptions(facts: GearsFacts): Assumption[] {
  const assumed = listAssumption('cassette', facts.sprocketsNow);
  if (facts.sprocketsThen !== facts.sprocketsNow) assumed.push(...listAssumption('newcassette', facts.sprocketsThen));
  return assumed;
}

const LIST_GROUNDS = {
  published: 'a printed list with these ends; count yours',
  memory: 'memory: a usual list with these ends; count yours',
  plausible: 'spread evenly between the ends; count yours',
} as const;

function listAssumption(field: 'cassette' | 'newcassette', list: SprocketList): Assumption[] {
  if (list.kind === 'cannot' || list.from === 'told') return [];
  return [{ field, value: list.sprockets.join('-'), basis: LIST_GROUNDS[list.from] }];
}

/** The tyre width nobody told, and how far another one would move every speed. */
export function wheelAssumption({ wheel }: GearsFacts): Assumption[] {
  if (wheel === null) return [];
  const { widthRangeMm, beadSeatMm, widthMm } = wheel;
  if (widthRangeMm === null || beadSeatMm === null || widthMm === null) return [];
  const { low, high } = widthRangeMm;
  const outerMm = beadSeatMm + 2 * widthMm;
  const shift = (otherMm: number) => Math.round(Math.abs((beadSeatMm + 2 * otherMm) / outerMm - 1) * 100);
  const basis = `memory: a usual tyre for this rim and these rings; from ${low} to ${high} mm wide the speeds move by −${shift(low)} to +${shift(high)} %`;
  return [{ field: 'wheel', value: `${widthMm}-${beadSeatMm}`, basis }];
}
