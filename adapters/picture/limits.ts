/** Pictures that may wait: at about 20 ms each the last is ready in under a second, and somebody is still looking. */
export const MOST_WAITING = 32;

/**
 * Some hundred pictures of 80 kB: who looks again, or shares what they saw, does so while the talk is still about it.
 * Four times as much took the program's memory after very many questions past the goal, a tenth more than after few.
 */
export const MOST_CACHED_BYTES = 8 * 1024 * 1024;

/** Pictures between two collections: some 2.5 MB a picture lie around until then, and a collection takes 2 ms. */
export const COLLECT_EVERY = 8;

/**
 * How far the thread that draws stands back (setpriority(2), 0 to 19; each step is a share of 1.25 to 1, sched(7)): at 5
 * an answer gets three quarters of a processor that both want. Further back, pictures would stay away for many seconds
 * where the machine has other work as well.
 */
export const NICENESS = 5;
