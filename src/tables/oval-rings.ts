import type { Row } from './row.ts';

type OvalFact = { readonly fact: string };

/** What is different about a ring that is not round. */
export const OVAL_FACTS = {
  clocking: {
    fact: "Set it by the ring maker's mark: wrongly turned it is worse than round.",
    basis: 'published',
    cite: { source: 'OvalEngineer', locator: 'answer on clocking' },
  },
  secondHand: {
    fact: "Oval rings of the 1980s have the long axis about 90° from today's: a second-hand trap.",
    basis: 'published',
    cite: { source: 'OvalFitter', locator: 'oval rings then and now' },
  },
  nominal: { fact: 'Chain length and derailleur count the ring by its number of teeth.', basis: 'common-practice' },
} as const satisfies Record<string, Row<OvalFact>>;
