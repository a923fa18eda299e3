import { same, type Value } from './fields.ts';
import type { Amount, List } from './items.ts';
import { KEYS, type KeyName } from './keys.ts';
import { shown } from './normalise.ts';
import type { Question, Refusal } from './reading.ts';
import { settling, valueText } from './value-text.ts';

/** What a setup line claims while it is being read. It lives for one reading and is never handed out. */
export type Claims = {
  readonly told: Map<KeyName, Value>;
  /** Keys settled by the mark at the end of their value: they overrule, and doubts about them are over. */
  readonly forced: Set<KeyName>;
  readonly doubts: Question[];
  readonly open: Question[];
  readonly unread: string[];
  refusal: Refusal | null;
  /** How many rings were named without their sizes: 2 for "double". */
  readonly ringCounts: { readonly count: number; readonly text: string }[];
  /** Speeds claimed by a word such as "24 speed", which may count rings times sprockets. */
  readonly speedCounts: number[];
  /** The sprockets of "1x11", which may be the bike or the wish. */
  readonly singles: number[];
  readonly ringParts: number[];
  usualRings: readonly number[] | null;
  smallestTeeth: number | null;
  largestTeeth: number | null;
  uneven: boolean;
  /** Whether the rear derailleur was spoken of: then "max 36" is its largest sprocket. */
  mech: boolean;
  /** Numbers that only the rest of the line can place. */
  readonly lists: List[];
  readonly amounts: Amount[];
  readonly tyreWidths: Amount[];
  /** Numbers told to be the most of something. */
  readonly mosts: number[];
};

export function noClaims(): Claims {
  return {
    told: new Map(),
    forced: new Set(),
    doubts: [],
    open: [],
    unread: [],
    refusal: null,
    ringCounts: [],
    speedCounts: [],
    singles: [],
    ringParts: [],
    usualRings: null,
    smallestTeeth: null,
    largestTeeth: null,
    uneven: false,
    mech: false,
    lists: [],
    amounts: [],
    tyreWidths: [],
    mosts: [],
  };
}

/** Takes a value for a key. Told twice alike is told once; told twice differently is a doubt. */
export function tell(claims: Claims, key: KeyName, value: Value): void {
  const before = claims.told.get(key);
  if (before === undefined) {
    claims.told.set(key, value);
    return;
  }
  if (same(before, value) || claims.forced.has(key)) return;
  const fuller = fullerOf(before, value);
  if (fuller !== null) {
    claims.told.set(key, fuller);
    return;
  }
  const shownBoth = [before, value].map((each) => shown(valueText(each)));
  doubt(claims, [key], {
    field: key,
    question: `${KEYS[key].label} is told twice: ${shownBoth.join(' and ')}. Which is right?`,
    choices: [before, value].map((each) => ({ label: shown(valueText(each)), setup: settling(key, each) })),
  });
}

/** A value that settles its key, whatever else was told. */
export function force(claims: Claims, key: KeyName, value: Value): void {
  claims.told.set(key, value);
  claims.forced.add(key);
}

/** Raises a question, unless one of the keys it is about has been settled. */
export function doubt(claims: Claims, about: readonly KeyName[], question: Question): void {
  if (about.some((key) => claims.forced.has(key))) return;
  if (claims.doubts.some((each) => each.field === question.field && each.question === question.question)) return;
  claims.doubts.push(question);
}

export function refuse(claims: Claims, refusal: Refusal): void {
  claims.refusal ??= refusal;
}

/** "29er" and 57-622, or 11-36 and its full list, say the same at two depths: the fuller one, or null. */
function fullerOf(one: Value, other: Value): Value | null {
  if (typeof one !== 'object' || typeof other !== 'object') return null;
  if ('kind' in one && 'kind' in other) {
    if (one.kind === 'rollout' || other.kind === 'rollout' || one.beadSeatMm !== other.beadSeatMm) return null;
    if (one.kind === 'rim') return other;
    return other.kind === 'rim' ? one : null;
  }
  if ('smallestTeeth' in one && 'smallestTeeth' in other) {
    if (one.smallestTeeth !== other.smallestTeeth || one.largestTeeth !== other.largestTeeth) return null;
    if (one.sprockets === undefined) return other;
    return other.sprockets === undefined ? one : null;
  }
  return null;
}
