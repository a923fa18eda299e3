import type { Place } from './place.ts';

/**
 * What a platform gives for being installed in a place, as text that only its adapter can read: it holds tokens, and is
 * sealed before it comes here.
 */
export type Installations = {
  /** Keeps it, in place of the one before. */
  readonly keep: (place: Place, sealed: string, atMs: number) => Promise<void>;
  /** Null where there is none. */
  readonly read: (place: Place) => Promise<string | null>;
  /** Whether there was one. What else is kept in the place stays. */
  readonly remove: (place: Place) => Promise<boolean>;
};
