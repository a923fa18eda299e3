import type { Row } from './row.ts';

type Allowance = { readonly allowancePitches: 2 | 4 | 6; readonly rule: string };

/**
 * What the printed rules add to the bare wrap over the two largest wheels, before rounding up to an even count. They
 * disagree by one or two pairs; the figure of the derailleur's maker wins over all of them.
 */
// biome-ignore format: aligned columns read as a table
export const ALLOWANCES = [
  // [pitches]               in words
  { allowancePitches: 2, rule: 'largest ring and sprocket, plus one pair',   basis: 'published', cite: { source: 'CyclistsGlossary',  locator: 'chain-sizing entry' } },
  { allowancePitches: 4, rule: 'two inches more, for some single-ring bikes', basis: 'published', cite: { source: 'WorkshopInchRule',  locator: 'rule with D = 2 in' } },
  // Printed as 4 or 5 with a joining link, 5 or 6 with a pin, one more with suspension; the even one is taken.
  { allowancePitches: 6, rule: 'the most that a table by system asks for',   basis: 'published', cite: { source: 'ChainSizingTable',  locator: 'lengths by system, single pitches' } },
] as const satisfies readonly Row<Allowance>[];

type ChainRule = { readonly rule: string };

/** The other rules of the trade that the card quotes. */
// biome-ignore format: aligned columns read as a table
export const CHAIN_RULES = {
  nextEven:   { rule: 'the next even count above what just fits: 108 or 109 just fits, so 110', basis: 'published', cite: { source: 'CyclingUK2012',      locator: 'answer on triple chain length' } },
  halfTooth:  { rule: 'half the tooth change: four teeth are two pitches',                      basis: 'published', cite: { source: 'CyclingUKForum2023', locator: '11-51 to 11-42 on 120 pitches gives 116' } },
  longest:    { rule: 'size at the longest axle distance',                                      basis: 'published', cite: { source: 'SuspensionChain',    locator: 'air out, cycled to the longest' } },
  wrap:       { rule: 'straight runs tangent to both pitch circles',                                        basis: 'published', cite: { source: 'MechJournalChain',   locator: 'worked example, 63 and 20 teeth' } },
} as const satisfies Record<string, Row<ChainRule>>;
