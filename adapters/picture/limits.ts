/** Pictures that may wait: at about 20 ms each the last is ready in under a second, and somebody is still looking. */
export const MOST_WAITING = 32;

/** Some 600 pictures of 50 kB. */
export const MOST_CACHED_BYTES = 32 * 1024 * 1024;

/** Pictures between two collections: some 2.5 MB a picture lie around until then, and a collection takes 2 ms. */
export const COLLECT_EVERY = 16;

/**
 * How far the thread that draws stands back (setpriority(2), 0 to 19): at 10 it gets a tenth of a processor that somebody
 * else wants too, and all of one that nobody wants.
 */
export const NICENESS = 10;
