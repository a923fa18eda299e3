/**
 * How long each text and list may be, counted as JavaScript counts (UTF-16 units). What is longer is refused and told
 * the limit; nothing is cut. Every reason is common practice unless it says otherwise.
 */
export const LIMITS = {
  /** One line on a phone, with room for the owner's name. */
  bikeName: 60,
  /** Every key of the setup line at once takes about 600. */
  setup: 1000,
  /** More bikes than one household has; keeps the list on one card. */
  bikesEach: 50,
  /** Short enough to be typed from memory, and to stand in a list of suggestions. */
  topic: 40,
  alias: 40,
  aliases: 10,
  /** With its topic, author and date it still fits in one chat message of 2000. */
  body: 1800,
  /** A reason is a sentence or two. */
  why: 300,
  jobTitle: 80,
  /** A whole bicycle has about forty fasteners with a torque. */
  jobRows: 60,
  /** A job of sixty rows, each signed twice and taken back a few times. */
  jobEvents: 1000,
  fastener: 80,
  material: 80,
  source: 200,
  wrench: 40,
  command: 40,
  /** The typed options of one question, as JSON. */
  options: 4000,
  rules: 100,
  /** The longest plan is about 40 000 as JSON; five times that leaves room to grow. */
  answer: 200_000,
  card: 200_000,
  /** Roles and people who may pin: more than any club has moderators. */
  pinners: 50,
  role: 100,
} as const;

export type LimitedField = keyof typeof LIMITS;

/** A text or list that is too long, with what is allowed and what came. */
export type Over = {
  readonly kind: 'over';
  readonly field: LimitedField;
  readonly limit: number;
  readonly length: number;
};

/** The first field that is over its limit, or null. */
export function overLimit(lengths: Partial<Readonly<Record<LimitedField, number>>>): Over | null {
  for (const [name, limit] of Object.entries(LIMITS) as [LimitedField, number][]) {
    const length = lengths[name];
    if (length !== undefined && length > limit) return { kind: 'over', field: name, limit, length };
  }
  return null;
}

/** The longest of some texts, for a limit that holds for each of them. */
export function longest(texts: readonly string[]): number {
  return texts.reduce((most, text) => Math.max(most, text.length), 0);
}
