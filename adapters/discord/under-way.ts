/** Work that has begun, so that an end can wait for it. */
export type UnderWay = {
  readonly add: (work: Promise<unknown>) => void;
  readonly count: () => number;
  /** Settles when all of it is done, or when the time is over; says whether all was. */
  readonly finish: (withinMs: number) => Promise<boolean>;
};

export function openUnderWay(wait: (ms: number) => Promise<void>): UnderWay {
  const works = new Set<Promise<unknown>>();
  return {
    add: (work) => {
      const done: Promise<unknown> = work.catch(() => undefined).finally(() => works.delete(done));
      works.add(done);
    },
    count: () => works.size,
    finish: async (withinMs) => {
      const all = async () => {
        while (works.size > 0) await Promise.all(works);
        return true;
      };
      return Promise.race([all(), wait(withinMs).then(() => works.size === 0)]);
    },
  };
}
