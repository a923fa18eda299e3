import type { SourceKey } from './sources.ts';

/** Where in a cited work a figure stands, in words a reader can follow ("table", "p. 24", "worked example"). */
export type Cite = { readonly source: SourceKey; readonly locator: string };

/**
 * What a number rests on.
 *
 * - `published`: somebody outside this project printed it; `cite` says who and where.
 * - `calculated`: worked out here from published figures or plain geometry; `cite`, if any, names what it starts from.
 * - `common-practice`: a fact of the trade that nobody in particular published.
 * - `memory`: a typical figure recalled and not verified; shown as a range, and a measured or printed value overrides it.
 */
export type Basis =
  | { readonly basis: 'published'; readonly cite: Cite }
  | { readonly basis: 'calculated'; readonly cite?: Cite }
  | { readonly basis: 'common-practice' }
  | { readonly basis: 'memory' };

/** A table row: its values and the ground they stand on. */
export type Row<Values> = Readonly<Values> & Basis;

/** The four words of {@link Basis}, for results that carry one along. */
export type BasisName = Basis['basis'];
