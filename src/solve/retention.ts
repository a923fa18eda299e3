import { RETENTION } from '../tables/retention.ts';

export type Ground = 'smooth' | 'mixed' | 'rough';
export type Keeper = 'narrow-wide ring' | 'clutch' | 'guide';

/** What keeps the chain on against what the ground asks for. */
export type Retention = {
  readonly ground: Ground | null;
  readonly needed: Readonly<Record<Ground, number>>;
  readonly fitted: readonly Keeper[];
  readonly unknown: readonly ('clutch' | 'guide')[];
  readonly missing: number | null;
  readonly enough: boolean | null;
};

const NEEDED = {
  smooth: RETENTION.smooth.needed,
  mixed: RETENTION.mixed.needed,
  rough: RETENTION.rough.needed,
};

/**
 * Counts what keeps the chain on a narrow-wide ring and compares it with what the ground asks for.
 *
 * missing = max(0, needed(ground) − fitted); of ring, clutch and guide smooth ground asks for 1, mixed 2, rough 3
 *
 * Valid as a riders' rule and no promise; a clutch or guide nobody mentioned counts as none and is named as unknown.
 * Agrees with the printed rule, which it reads.
 *
 * @param input `clutch` and `guide` true, false or null [—]; `ground` smooth, mixed, rough or null [—]
 * @returns [—] `needed` by ground [1], `fitted`, `unknown`, `missing` [1] and `enough`, null when the ground is unknown
 * @example retention({ clutch: true, guide: null, ground: 'rough' }).missing // 1
 * @see WorkshopWiki, one, two or three
 */
export function retention(input: {
  readonly clutch: boolean | null;
  readonly guide: boolean | null;
  readonly ground: Ground | null;
}): Retention {
  const fitted: Keeper[] = ['narrow-wide ring'];
  const unknown: ('clutch' | 'guide')[] = [];
  if (input.clutch === null) unknown.push('clutch');
  else if (input.clutch) fitted.push('clutch');
  if (input.guide === null) unknown.push('guide');
  else if (input.guide) fitted.push('guide');
  const missing = input.ground === null ? null : Math.max(0, NEEDED[input.ground] - fitted.length);
  const enough = missing === null ? null : missing === 0;
  return { ground: input.ground, needed: NEEDED, fitted, unknown, missing, enough };
}
