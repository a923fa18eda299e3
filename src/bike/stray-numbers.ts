import { SPROCKET_GEOMETRY } from '../tables/sprocket-geometry.ts';
import { WEAR_MARKS } from '../tables/wear-limits.ts';
import { type Claims, doubt, refuse, tell } from './claims.ts';
import type { Value } from './fields.ts';
import type { Amount } from './items.ts';
import { readAmount } from './key-readers.ts';
import { KEYS, type KeyName } from './keys.ts';
import { shown } from './normalise.ts';
import { isInch } from './quantities.ts';
import { refuseValue } from './refusals.ts';
import { told, toldWheel } from './take.ts';
import { settling } from './value-text.ts';
import { readWheel, tyreWidthMm } from './wheel-sizes.ts';

/** Places a number that no word stood beside, where the bike leaves one meaning; else asks what it is. */
export function placeStrayAmount(item: Amount, claims: Claims): void {
  const { value, unit, written } = item.quantity;
  switch (unit) {
    case 'pitches':
      placePitches(item, claims);
      return;
    case 'W':
      placeWatts(item, claims);
      return;
    case 'rpm':
      told('cadence', item, claims);
      return;
    case '°':
      told('angle', item, claims);
      return;
    case 'kg':
      if (value >= 45) told('rider', item, claims);
      else if (value <= 18) told('bikeweight', item, claims);
      else askWhat(item, ['rider', 'bikeweight'], claims);
      return;
    case '%':
      if (value <= 1.5) told('wear', item, claims);
      else askWhat(item, ['wear', 'oval'], claims);
      return;
    case 'mm':
      if (isInch(written) && value > FOOT_MM && value <= LONGEST_FOOT_MM) askWear(item, claims);
      else if (isInch(written) ? readWheel(item.text).kind !== 'refused' : value >= 900 && value <= 2600) {
        toldWheel(item.text, claims);
      } else askWhat(item, ['stays', 'hub', 'crank', 'gap', 'bcd'], claims);
      return;
    case 'teeth':
    case null:
      placeBare(item, claims);
  }
}

function placeBare(item: Amount, claims: Claims): void {
  const { value, unit } = item.quantity;
  const { told: known } = claims;
  const wholeBike = known.has('rings') && known.has('cassette');
  const ring = Number.isInteger(value) && value >= KEYS.ring.low && value <= KEYS.ring.high;
  if (unit === null && value <= 1.5 && !Number.isInteger(value)) {
    told('wear', item, claims);
    return;
  }
  // "148 boost" names one hub twice, "20 x 1 1/8 (451)" one rim; "two jockey wheels" counts what nobody asked about.
  if (value === known.get('hub') || value === beadSeatOf(known.get('wheel'))) return;
  if (unit === null && value < 9 && SPELLED.test(item.text)) {
    claims.unread.push(item.text);
    return;
  }
  const rim = known.get('wheel');
  if (unit === null && value > 1 && value < 4 && !Number.isInteger(value) && typeof rim === 'object' && 'kind' in rim) {
    claims.tyreWidths.push(item);
    return;
  }
  const wheelName = unit === null && WHEEL_NAMES.has(value) && !known.has('wheel') && claims.open.length === 0;
  if (ring && item.present === true && unit === 'teeth' && !known.has('rings')) {
    told('rings', item, claims);
    return;
  }
  const asRing = wholeBike || (unit === 'teeth' && (known.has('rings') || known.has('newcassette')));
  if (ring && asRing && !wheelName) {
    told('ring', item, claims);
    return;
  }
  if (unit === null && Number.isInteger(value) && value >= FIRST_YEAR && value <= LAST_YEAR) {
    claims.unread.push(item.text);
    return;
  }
  if (wheelName) askWhat(item, ['ring', 'wheel'], claims);
  else if (ring) askWhat(item, ['ring', 'rings', 'maxcog'], claims);
  else if (value >= 900) askWhat(item, ['wheel'], claims);
  else askWhat(item, ['bcd', 'chain', 'hub', 'crank', 'stays', 'longest', 'speeds', 'bolts'], claims);
}

function beadSeatOf(wheel: Value | undefined): number | null {
  if (typeof wheel !== 'object' || !('kind' in wheel) || wheel.kind === 'rollout') return null;
  return wheel.beadSeatMm;
}

/** A bare number between them is the age of a bike, and no part of it. */
const FIRST_YEAR = 1950;
const LAST_YEAR = 2040;

const SPELLED = /^[a-z]/;
const WHEEL_NAMES = new Set([16, 20, 24, 26, 27, 28, 29]);

/** "take out 2 links" speaks of what comes off a chain, not of the chain. */
const MOST_TAKEN_OUT = 20;

/** A count of pairs said as "links" is half of what a chain has. */
function placePitches(item: Amount, claims: Claims): void {
  const { value } = item.quantity;
  if (value <= MOST_TAKEN_OUT) {
    claims.unread.push(item.text);
    return;
  }
  if (value >= 40 && value < KEYS.chain.low) {
    doubt(claims, ['chain'], {
      field: 'chain',
      question: `Is ${value} a count of pairs? A whole chain has ${KEYS.chain.low} pitches or more.`,
      choices: [{ label: `${value} pairs, ${value * 2} pitches`, setup: settling('chain', value * 2) }],
    });
    return;
  }
  told('chain', item, claims);
}

/** Beside a motor a bare figure in watts may be its rating as well as what the rider holds. */
function placeWatts(item: Amount, claims: Claims): void {
  const assist = claims.told.get('assist');
  if (assist === undefined || assist === 'none') {
    told('power', item, claims);
    return;
  }
  const { value } = item.quantity;
  claims.open.push({
    field: 'power',
    question: `Is ${value} W what the rider holds, or the motor's? Only the rider's counts here.`,
    choices: [{ label: `The rider, ${value} W`, setup: settling('power', value) }],
  });
}

/** Twelve inches, or 24 pitches: what a ruler is laid along to see how far a chain has grown. */
const FOOT_MM = WEAR_MARKS.measuredOver.value * SPROCKET_GEOMETRY.pitch.value;
/** A quarter of an inch more is 2 %: far past the end of any chain. */
const LONGEST_FOOT_MM = FOOT_MM * 1.021;

/** "12 1/16 in" with no word beside it is what a ruler says of a worn chain, or a length that was left without its name. */
function askWear(item: Amount, claims: Claims): void {
  const pct = Math.round((item.quantity.value / FOOT_MM - 1) * 1e4) / 100;
  doubt(claims, ['wear', 'stays'], {
    field: 'wear',
    question: `Do 24 pitches of the chain measure ${shown(item.text)}? Then it is ${pct} % worn.`,
    choices: [
      { label: `Chain wear, ${pct} %`, setup: settling('wear', pct) },
      { label: 'The chainstay', setup: settling('stays', item.quantity.value) },
    ],
  });
}

/** A number is never skipped in silence: what it may be, as a question. */
function askWhat(item: Amount, keys: readonly KeyName[], claims: Claims): void {
  const may = keys.filter((key) => key === 'wheel' || readAmount(key, item.quantity, item.text).kind === 'value');
  const field = item.toward === true ? 'ring' : (may[0] ?? 'ring');
  doubt(claims, may.length > 0 ? may : keys, {
    field,
    question: `What is ${shown(item.text)}? Put its name before it, such as ${field}=…`,
    choices: may.slice(0, 3).map((key) => ({
      label: KEYS[key].label,
      setup: settling(
        key,
        key === 'wheel' && item.quantity.value >= 900 ? `${item.quantity.value}mm` : item.quantity.value,
      ),
    })),
  });
}

/** A sprocket called after a dinner plate is the largest one: of a cassette that has it, or of one to be named. */
export function placeDinnerPlate(teeth: number, claims: Claims): void {
  for (const key of ['cassette', 'newcassette'] as const) {
    const cassette = claims.told.get(key);
    if (typeof cassette === 'object' && 'largestTeeth' in cassette && cassette.largestTeeth === teeth) return;
  }
  doubt(claims, ['cassette', 'newcassette'], {
    field: 'cassette',
    question: `Is the ${teeth} the largest sprocket fitted now, or of a cassette you want?`,
    choices: [
      { label: `Fitted, 11-${teeth}`, setup: settling('cassette', `11-${teeth}`) },
      { label: `Wanted, 11-${teeth}`, setup: settling('newcassette', `11-${teeth}`) },
    ],
  });
}

/** "max 36" is of the rear derailleur where that was spoken of; else it is asked. */
export function placeMost(teeth: number, claims: Claims): void {
  if (claims.mech || claims.told.has('cage')) {
    tell(claims, 'maxcog', teeth);
    return;
  }
  doubt(claims, ['maxcog', 'maxring', 'newcassette', 'cassette'], {
    field: 'maxcog',
    question: `What is ${teeth} the most of?`,
    choices: [
      { label: 'The largest sprocket the mech takes', setup: settling('maxcog', teeth) },
      { label: 'The largest ring there is room for', setup: settling('maxring', teeth) },
    ],
  });
}

/** A tyre's width makes a wheel of a rim. */
export function placeTyreWidth(item: Amount, claims: Claims): void {
  const wheel = claims.told.get('wheel');
  const width = tyreWidthMm(item.quantity.value, item.quantity.unit === 'mm' ? 'mm' : undefined);
  if (wheel === undefined || typeof wheel !== 'object' || !('kind' in wheel) || wheel.kind === 'rollout') {
    claims.unread.push(item.text);
  } else if (width < 18 || width > 130) {
    refuse(claims, refuseValue('wheel', item.text, 'is a tyre width outside 18 to 130 mm'));
  } else if (wheel.kind === 'rim') {
    claims.told.set('wheel', { kind: 'tyre', beadSeatMm: wheel.beadSeatMm, widthMm: width });
  } else if (wheel.widthMm !== width) {
    tell(claims, 'wheel', { kind: 'tyre', beadSeatMm: wheel.beadSeatMm, widthMm: width });
  }
}
