import { type Claims, doubt, refuse } from './claims.ts';
import type { List } from './items.ts';
import { KEYS } from './keys.ts';
import { whatIs } from './lex-lists.ts';
import { shown } from './normalise.ts';
import { refuseValue } from './refusals.ts';
import { toldCircles, toldTeeth } from './take.ts';
import { settling, valueText } from './value-text.ts';

/** Bolt circles told in pairs: the outer and the inner one of the same crank. */
const LEAST_CIRCLE = 50;
const MOST_INNER_CIRCLE = 80;

/** Places a list that no word stood beside, by what its numbers can be. */
export function placeStrayList(item: List, claims: Claims): void {
  const { numbers, joint, text } = item;
  const least = Math.min(...numbers);
  const most = Math.max(...numbers);
  const pair = numbers.length === 2;
  if (isCirclePair(item)) {
    toldCircles(item, claims);
    return;
  }
  if (least > KEYS.rings.high) {
    // 150/160 beside a shock is its travel.
    if (claims.told.get('suspension') === 'rear') claims.unread.push(text);
    else doubt(claims, ['rings'], whatIs(text));
    return;
  }
  if (least >= KEYS.rings.low) {
    toldTeeth('rings', item, claims);
    return;
  }
  if (least < KEYS.cassette.low || most > KEYS.cassette.high) {
    refuse(
      claims,
      refuseValue(least >= 18 || (joint === '/' && most > 60) ? 'rings' : 'cassette', text, 'is out of range'),
    );
    return;
  }
  const cassette = { smallestTeeth: least, largestTeeth: most };
  if (pair && item.wanting !== undefined && least <= 16) {
    placeWanted(item, item.wanting, claims);
    return;
  }
  if (pair && least !== most && least <= 16) {
    if (!isGear(item) || claims.told.has('rings') || claims.told.has('cassette')) {
      placeCassette(item, claims);
      return;
    }
  }
  if (!pair && numbers.length >= 5) {
    toldTeeth('cassette', item, claims);
    return;
  }
  if (!pair) {
    doubt(claims, ['cassette', 'newcassette'], {
      field: 'cassette',
      question: `${shown(text)} is neither two ends nor all sprockets of a cassette. Which are its ends?`,
      choices: [{ label: valueText(cassette), setup: settling('cassette', cassette) }],
    });
    return;
  }
  doubt(claims, ['rings', 'cassette', 'newcassette'], {
    field: 'cassette',
    question: `What is ${shown(text)}: the ends of the cassette, or a ring over a sprocket?`,
    choices: [
      { label: `Cassette ${valueText(cassette)}`, setup: settling('cassette', cassette) },
      ...(most >= KEYS.rings.low ? [{ label: `A ring of ${most}`, setup: settling('rings', [most]) }] : []),
    ],
  });
}

/** Whether a list is the outer and the inner circle of one crank: 104/64, 120/80. */
export function isCirclePair({ numbers, joint }: List): boolean {
  const inner = Math.min(...numbers);
  const outer = Math.max(...numbers);
  return (
    numbers.length === 2 &&
    joint !== ',' &&
    inner >= LEAST_CIRCLE &&
    inner <= MOST_INNER_CIRCLE &&
    outer > MOST_INNER_CIRCLE &&
    outer <= KEYS.bcd.high
  );
}

/** Whether a list may be a ring over a sprocket, which is settled only when the others are placed. */
export function isGear(item: List): boolean {
  const [first = 0, second = 0] = item.numbers;
  return item.joint === '/' && item.numbers.length === 2 && first > second && second <= 16;
}

/** A cassette behind "to 1x12": the wanted one where another is told, or where it has other sprockets; else asked. */
function placeWanted(item: List, sprockets: number, claims: Claims): void {
  const speeds = claims.told.get('speeds');
  if (claims.told.has('cassette') || (typeof speeds === 'number' && speeds !== sprockets)) {
    toldTeeth('newcassette', item, claims);
    return;
  }
  const ends = `${Math.min(...item.numbers)}-${Math.max(...item.numbers)}`;
  doubt(claims, ['cassette', 'newcassette'], {
    field: 'cassette',
    question: `Is ${ends} the cassette fitted now, or the one you want?`,
    choices: [
      { label: `Fitted, ${ends}`, setup: settling('cassette', ends) },
      { label: `Wanted, ${ends}`, setup: settling('newcassette', ends) },
    ],
  });
}

/** A second cassette beside the first: one is fitted, one is wanted, and the order does not tell which. */
function placeCassette(item: List, claims: Claims): void {
  const cassette = { smallestTeeth: Math.min(...item.numbers), largestTeeth: Math.max(...item.numbers) };
  const before = claims.told.get('cassette');
  if (
    before === undefined ||
    typeof before !== 'object' ||
    !('smallestTeeth' in before) ||
    (before.smallestTeeth === cassette.smallestTeeth && before.largestTeeth === cassette.largestTeeth)
  ) {
    toldTeeth('cassette', item, claims);
    return;
  }
  const first = valueText({ smallestTeeth: before.smallestTeeth, largestTeeth: before.largestTeeth });
  const second = valueText(cassette);
  doubt(claims, ['cassette', 'newcassette'], {
    field: 'cassette',
    question: `Two cassettes are told, ${first} and ${second}. Which is fitted now?`,
    choices: [
      {
        label: `${first} now, ${second} wanted`,
        setup: `${settling('cassette', first)} ${settling('newcassette', second)}`,
      },
      {
        label: `${second} now, ${first} wanted`,
        setup: `${settling('cassette', second)} ${settling('newcassette', first)}`,
      },
    ],
  });
}
