/** What is asked of the parts of a program when somebody looks; a part that is not open yet is missing. */
export type Sources = {
  /** Whether the platform can be heard: the shards or the socket have their connection, or requests are listened for. */
  readonly isUp?: () => boolean;
  /** The shards of this program, and whether each has its connection. */
  readonly shards?: () => ReadonlyMap<number, boolean>;
  /** How many payloads are being answered. */
  readonly underWay?: () => number;
  /** How many pictures wait to be drawn. */
  readonly picturesWaiting?: () => number;
  /** Whether what is kept can be used, as it was found last: `waiting` for its tables, or storage is `away`. */
  readonly tables?: () => 'right' | 'waiting' | 'away';
};
