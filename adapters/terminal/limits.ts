/** The widths the layout is made for; a narrower or wider terminal gets the nearest of the two. */
export const NARROWEST_COLUMNS = 32;
export const WIDEST_COLUMNS = 120;

/** Where nobody says how wide the screen is: the width of a classic terminal. */
export const USUAL_COLUMNS = 80;

/** A request line on standard input holds at most this many bytes; a bike in words needs a few hundred. */
export const LINE_BYTES = 64 * 1024;
