import type { Bike } from '../bike/bike.ts';
import type { Over } from './limits.ts';
import type { Author, Who } from './place.ts';

/** A bike kept under a name: what the rider told, word for word, and how it was read. */
export type KeptBike = {
  readonly name: string;
  readonly setup: string;
  readonly bike: Bike;
  /** Everybody in the place may use a shared bike; only its owner may change it. */
  readonly shared: boolean;
  readonly savedAtMs: number;
  readonly owner: Author;
};

export type NewBike = Pick<KeptBike, 'name' | 'setup' | 'bike' | 'shared'>;

/** `nameless`: nothing visible in the name. `taken`: somebody else shares a bike by that name here. */
export type BikeRefused = Over | { readonly kind: 'nameless' } | BikeTaken;
export type BikeTaken = { readonly kind: 'taken'; readonly by: Author };

export type BikeSaved = { readonly kind: 'saved'; readonly replaced: KeptBike | null };

export type BikeShared = { readonly kind: 'shared'; readonly bike: KeptBike } | { readonly kind: 'missing' };

export type BikeRenamed =
  | { readonly kind: 'renamed'; readonly bike: KeptBike }
  | { readonly kind: 'missing' }
  | { readonly kind: 'yours-already'; readonly bike: KeptBike };

export type Bikes = {
  /** Keeps a bike; the asker's own of the same name is replaced and given back. */
  readonly save: (who: Who, bike: NewBike, atMs: number) => Promise<BikeSaved | BikeRefused>;
  /** The asker's own bike by that name, else the one shared in the place, else null. */
  readonly load: (who: Who, name: string) => Promise<KeptBike | null>;
  /** The asker's own, and those that others share, by name; `moreShared` when there are more than are given. */
  readonly list: (who: Who) => Promise<{
    readonly own: readonly KeptBike[];
    readonly shared: readonly KeptBike[];
    readonly moreShared: boolean;
  }>;
  /** Lets everybody here use one of the asker's own bikes as it stands, or takes that back. */
  readonly share: (who: Who, name: string, shared: boolean, atMs: number) => Promise<BikeShared | BikeTaken>;
  readonly rename: (who: Who, from: string, to: string) => Promise<BikeRenamed | BikeRefused>;
  /** The bike that was forgotten, or null when the asker has none by that name. */
  readonly forget: (who: Who, name: string) => Promise<KeptBike | null>;
};
