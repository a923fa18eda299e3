import type { Bike, Cassette, Wheel } from '../../../src/bike/bike.ts';
import type { KeyName } from '../../../src/bike/keys.ts';

/** One way of writing a bike, and what must come of it. */
export type Phrasing =
  /**
   * Read as exactly this bike. `may` holds fields that follow from the words without being said: they may be there
   * with these values. `mayAsk` names fields a question back would be fair about.
   */
  | {
      readonly kind: 'reads';
      readonly line: string;
      readonly bike: Bike;
      readonly may: Bike;
      readonly mayAsk: readonly KeyName[];
    }
  /** Asked about before any plan: one entry a conflict, with the fields it may be filed under; an empty entry is any. */
  | { readonly kind: 'asks'; readonly line: string; readonly about: readonly (readonly KeyName[])[] }
  /** Read as exactly this bike, with one field left open and asked about. */
  | { readonly kind: 'opens'; readonly line: string; readonly bike: Bike; readonly field: KeyName }
  /** Refused, naming this field. */
  | { readonly kind: 'refuses'; readonly line: string; readonly field: KeyName | 'setup' }
  /** Neither read nor guessed: a refusal or a question about one of these fields. */
  | { readonly kind: 'stops'; readonly line: string; readonly fields: readonly KeyName[] }
  /** Told as untrue or undecided: either left out, so that exactly this bike is read, or asked about. */
  | { readonly kind: 'doubts'; readonly line: string; readonly bike: Bike; readonly fields: readonly KeyName[] };

type Leeway = { readonly may?: Bike; readonly mayAsk?: readonly KeyName[] };

export const reads = (line: string, bike: Bike, { may = {}, mayAsk = [] }: Leeway = {}): Phrasing => ({
  kind: 'reads',
  line,
  bike,
  may,
  mayAsk,
});

export const asks = (line: string, ...about: readonly (readonly KeyName[])[]): Phrasing => ({
  kind: 'asks',
  line,
  about,
});

export const opens = (line: string, bike: Bike, field: KeyName): Phrasing => ({ kind: 'opens', line, bike, field });

export const refuses = (line: string, field: KeyName | 'setup'): Phrasing => ({ kind: 'refuses', line, field });

export const stops = (line: string, ...fields: readonly KeyName[]): Phrasing => ({ kind: 'stops', line, fields });

export const doubts = (line: string, bike: Bike, ...fields: readonly KeyName[]): Phrasing => ({
  kind: 'doubts',
  line,
  bike,
  fields,
});

/** A cassette of which only the ends are told. */
export const range = (smallestTeeth: number, largestTeeth: number): Cassette => ({ smallestTeeth, largestTeeth });

/** A cassette told sprocket by sprocket, smallest first. */
export const list = (...sprockets: readonly number[]): Cassette => ({
  smallestTeeth: Math.min(...sprockets),
  largestTeeth: Math.max(...sprockets),
  sprockets,
});

export const rim = (beadSeatMm: number): Wheel => ({ kind: 'rim', beadSeatMm });
export const tyre = (beadSeatMm: number, widthMm: number): Wheel => ({ kind: 'tyre', beadSeatMm, widthMm });
export const rollout = (circumferenceMm: number): Wheel => ({ kind: 'rollout', circumferenceMm });
