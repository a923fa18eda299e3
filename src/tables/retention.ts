import type { Row } from './row.ts';

type Retention = { readonly needed: 1 | 2 | 3 };

/** How many of narrow-wide ring, clutch and guide the ground asks for. A rule of riders, not a promise. */
export const RETENTION = {
  smooth: { needed: 1, basis: 'published', cite: { source: 'WorkshopWiki', locator: 'one for smooth ground' } },
  mixed: {
    needed: 2,
    basis: 'published',
    cite: { source: 'WorkshopWiki', locator: 'two for gravel, moderate trails' },
  },
  rough: { needed: 3, basis: 'published', cite: { source: 'WorkshopWiki', locator: 'three for rough ground' } },
} as const satisfies Record<string, Row<Retention>>;

type ToothFill = { readonly sharePct: number; readonly wideChainToSpeeds: number };

/** A narrow-wide ring holds because a tooth fills its link; chains up to 8 speed are wider and sit loose. */
export const TOOTH_FILL = {
  sharePct: 80,
  wideChainToSpeeds: 8,
  basis: 'published',
  cite: { source: 'PatentCase', locator: 'tooth fills over 80 % of the axial space' },
} as const satisfies Row<ToothFill>;
