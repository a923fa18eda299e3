import { withCircles } from './circle-pairs.ts';
import { type Claims, doubtRivals, force, noClaims } from './claims.ts';
import { conflictsOf, overruled } from './conflicts.ts';
import { assemble, FIELDS } from './fields.ts';
import type { Item } from './items.ts';
import { settleLayout, settlePattern, settleRiders } from './layout.ts';
import { lex } from './lex.ts';
import { lexOption, mergeKeys } from './lex-keys.ts';
import { normalise, shown } from './normalise.ts';
import { place } from './place.ts';
import type { Question, Reading } from './reading.ts';
import { isGear, placeStrayList } from './stray-lists.ts';
import { placeDinnerPlate, placeMost, placeStrayAmount, placeTyreWidth } from './stray-numbers.ts';
import { wordsOf } from './words.ts';

/** A bike in words needs a few hundred characters. */
const MOST_CHARACTERS = 2000;
const MOST_UNREAD = 12;

/**
 * Reads a bike as people write it: `key=value`, the trade's shorthand and plain words, in any order. What can mean two
 * things becomes a question, what cannot be used one refusal, and what means nothing here is handed back unread.
 * Typed options are read like `key=value`. Never throws.
 */
export function readSetup(setup: string, options?: Readonly<Record<string, string>>): Reading {
  if (setup.length > MOST_CHARACTERS) return tooLong(setup.length);
  const items: Item[] = [...lex(mergeKeys(wordsOf(normalise(setup))))];
  for (const [name, text] of Object.entries(options ?? {})) {
    if (text.length > MOST_CHARACTERS) return tooLong(text.length);
    items.push(lexOption(normalise(name).trim(), normalise(text).trim()));
  }
  return settle(items);
}

function settle(items: readonly Item[]): Reading {
  const claims = noClaims();
  for (const item of items) if (item.kind === 'fact' && item.forced === true) force(claims, item.key, item.value);
  place(withCircles(items), claims);
  for (const gear of [false, true]) {
    for (const list of claims.lists) if (isGear(list) === gear) placeStrayList(list, claims);
  }
  settleLayout(claims);
  for (const teeth of claims.dinnerPlates) placeDinnerPlate(teeth, claims);
  for (const teeth of claims.mosts) placeMost(teeth, claims);
  for (const amount of claims.amounts) placeStrayAmount(amount, claims);
  for (const width of claims.tyreWidths) placeTyreWidth(width, claims);
  settlePattern(claims);
  settleRiders(claims);
  doubtRivals(claims);
  if (claims.refusal !== null) return { kind: 'refused', refusal: claims.refusal };

  const settled = new Set([...claims.forced].map((key) => FIELDS[key]));
  const bike = settled.size > 0 ? overruled(assemble(claims.told), settled) : assemble(claims.told);
  const asked = new Set(claims.doubts.map((each) => each.field));
  const conflicts = [...claims.doubts, ...conflictsOf(bike).filter((each) => !asked.has(each.field))];
  const open = openQuestions(claims).filter((each) => !conflicts.some((conflict) => conflict.field === each.field));
  return { kind: 'read', bike, conflicts, open, unread: unreadWords(claims) };
}

function openQuestions(claims: Claims): readonly Question[] {
  return claims.open.filter((each) => !claims.told.has(each.field));
}

function unreadWords(claims: Claims): readonly string[] {
  const words = [...new Set(claims.unread.map(shown))];
  return words.length <= MOST_UNREAD
    ? words
    : [...words.slice(0, MOST_UNREAD), `and ${words.length - MOST_UNREAD} more`];
}

function tooLong(characters: number): Reading {
  return {
    kind: 'refused',
    refusal: {
      field: 'setup',
      message: `The line has ${characters} characters.`,
      allowed: `up to ${MOST_CHARACTERS} characters; a bike needs a few hundred`,
      example: '2x10 36/22 11-36 29er hardtail 104bcd',
    },
  };
}
