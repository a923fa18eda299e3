import fc from 'fast-check';

/**
 * On the machine that decides whether a change lands, random cases are the same every time: a failure there is the
 * change's, not the day's. Everywhere else chance roams, and a failure prints the seed to come back to.
 */
if (process.env.CI !== undefined) fc.configureGlobal({ seed: 20_261_125 });
