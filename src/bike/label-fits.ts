import type { Amount, List } from './items.ts';
import { readAmount } from './key-readers.ts';
import { KEYS } from './keys.ts';
import type { Label } from './phrases.ts';
import { isInch, readQuantity } from './quantities.ts';
import { readWheel } from './wheel-sizes.ts';

const RING = KEYS.rings;
const SPROCKET = KEYS.cassette;

/** Whether a number, or a list, can be what a label says. */
export function fits(label: Label, item: Amount | List): boolean {
  return item.kind === 'amount' ? amountFits(label, item) : listFits(label, item);
}

function amountFits(label: Label, item: Amount): boolean {
  const { value, unit } = item.quantity;
  const teeth = unit === null || unit === 'teeth';
  const count = Number.isInteger(value);
  const ring = teeth && count && value >= RING.low && value <= RING.high;
  const length = unit === null || unit === 'mm';
  switch (label) {
    case 'front':
    case 'wanted':
    case 'toward':
    case 'plea':
    case 'ring-part':
      return ring;
    case 'rings':
      return ring || (unit === null && value >= 1 && value <= 3);
    case 'rear':
      return unit === 'mm' && value >= KEYS.hub.low && value <= KEYS.hub.high;
    case 'cassette':
    case 'newcassette':
      return false;
    case 'frame-size':
      return isInch(item.quantity.written) && value > 300 && value < 620 && readWheel(item.text).kind === 'refused';
    case 'other-part':
      return unit !== 'teeth';
    case 'motor':
      return unit === 'W';
    case 'one-rider':
      return unit === 'kg' && value >= KEYS.rider.low && value <= KEYS.rider.high;
    case 'sprockets':
      return unit === null && count && value >= 5 && value <= 13;
    case 'speeds':
      return unit === null && count && value >= 2 && value <= 39;
    case 'gears':
      return unit === null && count && value >= 5 && (value <= 13 || value % 2 === 0 || value % 3 === 0) && value <= 30;
    case 'smallest':
      return teeth && count && value >= SPROCKET.low && value <= 21;
    case 'largest':
    case 'dinner-plate':
    case 'most':
      return teeth && count && value >= 18 && value <= SPROCKET.high;
    case 'travel':
      return length && value >= 40 && value <= 300;
    case 'tyre':
      return length && value > 0.9 && value <= 130;
    case 'circle-weak':
    case 'circle-near':
      return length && value > RING.high && value <= KEYS.bcd.high;
    case 'wheel':
      return readWheel(item.text).kind !== 'refused';
    default:
      return readAmount(label, item.quantity, item.text).kind === 'value';
  }
}

/** A list under a label that is one length: the comma was a decimal one. */
export function asLength(item: List): Amount | null {
  const quantity = item.joint === ',' && item.numbers.length === 2 ? readQuantity(item.text) : null;
  return quantity === null ? null : { kind: 'amount', quantity, text: item.text };
}

function listFits(label: Label, item: List): boolean {
  const { numbers } = item;
  const rings = numbers.length <= 3 && numbers.every((teeth) => teeth >= RING.low && teeth <= RING.high);
  switch (label) {
    case 'rings':
    case 'front':
    case 'ring':
    case 'ring-part':
      return rings;
    case 'cassette':
    case 'newcassette':
    case 'rear':
    case 'sprockets':
      // Three falling rings are no cassette, though a word for one stands before them.
      if (numbers.length === 3 && rings) return false;
      return numbers.every((teeth) => teeth >= SPROCKET.low && teeth <= SPROCKET.high);
    case 'wanted':
    case 'toward':
      return Math.min(...numbers) <= 16 && numbers.length !== 3;
    case 'bcd':
    case 'innerbcd':
    case 'circle-weak':
    case 'circle-near':
      return numbers.length === 2 && numbers.every((each) => each >= 50 && each <= KEYS.bcd.high);
    case 'gap':
      return numbers.length === 2;
    case 'travel':
      return numbers.every((each) => each >= 40 && each <= 300);
    default: {
      const length = asLength(item);
      return length !== null && amountFits(label, length);
    }
  }
}
