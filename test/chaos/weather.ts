/** What is broken, from when to when; it reaches the storage, or one way in. */
export type Window = {
  readonly kind: string;
  readonly reach: string;
  readonly fromMs: number;
  toMs: number;
};

/** What was broken when: by it, a question is owed its answer or not. */
export type Weather = {
  /** Notes a breakage from now until the function that this gives is called, and a little longer. */
  readonly begin: (kind: string, reach: string, afterwardsMs?: number) => () => void;
  /** The breakages that touched somebody between two moments, by their kinds. */
  readonly between: (reach: string, fromMs: number, toMs: number) => readonly string[];
  /** How often each kind came. */
  readonly kinds: ReadonlyMap<string, number>;
};

export const STORAGE = 'storage';

export function openWeather(): Weather {
  const windows: Window[] = [];
  const kinds = new Map<string, number>();
  return {
    begin: (kind, reach, afterwardsMs = 0) => {
      const window: Window = { kind, reach, fromMs: performance.now(), toMs: Number.POSITIVE_INFINITY };
      windows.push(window);
      kinds.set(kind, (kinds.get(kind) ?? 0) + 1);
      return () => {
        window.toMs = performance.now() + afterwardsMs;
      };
    },
    between: (reach, fromMs, toMs) =>
      windows
        .filter((each) => each.reach === reach && each.fromMs <= toMs && each.toMs >= fromMs)
        .map(({ kind }) => kind),
    kinds,
  };
}
