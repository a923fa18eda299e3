import { createHash } from 'node:crypto';
import type { Place } from '../../src/records/place.ts';

/** Enough of the digest that no two places in one database share it. */
const MARK_LENGTH = 12;

/** Made anew each time: that takes a moment, and a list of all places ever seen would only grow. */
function placeMark(place: Place): string {
  return createHash('sha256').update(place).digest('hex').slice(0, MARK_LENGTH);
}

/**
 * What stands before every indexed word: a mark of its place, so that an index shared by all places never even looks
 * at another place's words, however many there are.
 */
export function wordMark(place: Place): string {
  return `${placeMark(place)}w`;
}

/** The same before a pair of letters, which is no word. */
export function pairMark(place: Place): string {
  return `${placeMark(place)}p`;
}
