import type { Cassette, Wheel } from './bike.ts';
import type { Value } from './fields.ts';
import type { KeyName } from './keys.ts';

/** A cassette by its ends, or by every sprocket where all are known: "11-36". */
export function cassetteText(cassette: Cassette): string {
  return cassette.sprockets === undefined
    ? `${cassette.smallestTeeth}-${cassette.largestTeeth}`
    : cassette.sprockets.join('-');
}

/** A wheel the way tyres are marked, width and bead seat, or what little is known of it. */
export function wheelText(wheel: Wheel): string {
  switch (wheel.kind) {
    case 'rollout':
      return `${wheel.circumferenceMm}mm`;
    case 'tyre':
      return `${wheel.widthMm}-${wheel.beadSeatMm}`;
    case 'rim':
      return `${wheel.beadSeatMm}mm`;
  }
}

/** A value as it is written behind its key. */
export function valueText(value: Value): string {
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (typeof value !== 'object') return String(value);
  if ('kind' in value) return wheelText(value);
  if ('smallestTeeth' in value) return cassetteText(value);
  return value.join('/');
}

/**
 * The words that settle a question once and for all: the mark at the end overrules whatever else the line says about
 * the same thing, so that an answer can simply be added to the line that raised the question.
 */
export function settling(key: KeyName, value: Value | string): string {
  return `${key}=${typeof value === 'string' ? value : valueText(value)}!`;
}
