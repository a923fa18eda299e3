import type { Figure } from './figure.ts';
import type { ThemeName } from './theme.ts';

/** A picture, or why there is none: then the text goes out alone, with the picture's words in it. */
export type Picture =
  | { readonly kind: 'drawn'; readonly png: Uint8Array }
  /** As many wait as may wait. */
  | { readonly kind: 'busy' }
  | { readonly kind: 'closed' }
  | { readonly kind: 'failed'; readonly error: unknown };

/** What an adapter that shows pictures needs; how they are made is none of its business. */
export type Pictures = {
  readonly png: (figure: Figure, theme: ThemeName) => Promise<Picture>;
  /** What still waits is told `closed`. */
  readonly close: () => Promise<void>;
};
