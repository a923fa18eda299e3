/** Rings once after so many milliseconds, unless it is stopped before. */
export type Timer = (ms: number, ring: () => void) => () => void;

/**
 * What the work comes to, or null where it takes longer than so many milliseconds; what was begun goes on. The timer is
 * stopped with the work: one that still runs keeps the whole answer from being forgotten.
 */
export function within<Result>(work: Promise<Result>, ms: number, timer: Timer): Promise<Result | null> {
  return new Promise((resolve, reject) => {
    const stop = timer(ms, () => resolve(null));
    work.then(
      (result) => {
        stop();
        resolve(result);
      },
      (error: unknown) => {
        stop();
        reject(error);
      },
    );
  });
}
