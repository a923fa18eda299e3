import { BIKES } from './corpus/bikes.ts';
import { CASSETTES } from './corpus/cassettes.ts';
import { CHAINS } from './corpus/chains.ts';
import { CONVERSATIONS } from './corpus/conversations.ts';
import { CRANKS } from './corpus/cranks.ts';
import { DENIALS } from './corpus/denials.ts';
import { DRIVES } from './corpus/drives.ts';
import { FRAMES } from './corpus/frames.ts';
import { KEY_FORMS } from './corpus/keys.ts';
import { LAYOUTS } from './corpus/layouts.ts';
import { MECHS } from './corpus/mechs.ts';
import type { Phrasing } from './corpus/phrasing.ts';
import { REFUSALS } from './corpus/refusals.ts';
import { RIDERS } from './corpus/riders.ts';
import { RINGS } from './corpus/rings.ts';
import { SPELLINGS } from './corpus/spellings.ts';
import { WHEELS } from './corpus/wheels.ts';

/** Bikes in a rider's own words: what is hard to read. */
export const OWN_WORDS: readonly Phrasing[] = [
  ...LAYOUTS,
  ...RINGS,
  ...CASSETTES,
  ...CRANKS,
  ...WHEELS,
  ...FRAMES,
  ...CHAINS,
  ...MECHS,
  ...RIDERS,
  ...BIKES,
  ...CONVERSATIONS,
  ...DENIALS,
  ...DRIVES,
];

/**
 * Every way of writing a bike we hold the reader to. Most were invented from the trade's words before the reader was
 * written; the conversations and denials came after it, to look for what it reads wrong.
 */
export const CORPUS: readonly Phrasing[] = [...OWN_WORDS, ...KEY_FORMS, ...REFUSALS, ...SPELLINGS];
