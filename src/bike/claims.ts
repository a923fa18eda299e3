import { same, type Value } from './fields.ts';
import type { Amount, List } from './items.ts';
import { KEYS, type KeyName } from './keys.ts';
import { shown } from './normalise.ts';
import type { Question, Refusal } from './reading.ts';
import { settling, valueText } from './value-text.ts';

/** More buttons than this do not fit a phone. */
const MOST_CHOICES = 4;

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
  /** A word that says of holes that they are uneven, and as well of roads. */
  uneven: string | null;
  /** What each of two riders weighs, where they are told one by one. */
  readonly eachRiderKg: number[];
  /** Whether the rear derailleur was spoken of: then "max 36" is its largest sprocket. */
  mech: boolean;
  /** Numbers that only the rest of the line can place. */
  readonly lists: List[];
  readonly amounts: Amount[];
  readonly tyreWidths: Amount[];
  /** Numbers told to be the most of something. */
  readonly mosts: number[];
  readonly dinnerPlates: number[];
  /** Every value of a key that was told more than one. */
  readonly rivals: Map<KeyName, Value[]>;
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
    uneven: null,
    eachRiderKg: [],
    mech: false,
    lists: [],
    amounts: [],
    tyreWidths: [],
    mosts: [],
    dinnerPlates: [],
    rivals: new Map(),
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
  const fuller = key === 'assist' ? whereMotorSits(before, value) : fullerOf(before, value);
  if (fuller !== null) {
    claims.told.set(key, fuller);
    return;
  }
  const rivals = claims.rivals.get(key);
  if (rivals === undefined) claims.rivals.set(key, [before, value]);
  else if (!rivals.some((each) => same(each, value))) rivals.push(value);
}

/** One question for each key that was told more than one value. */
export function doubtRivals(claims: Claims): void {
  for (const [key, rivals] of claims.rivals) {
    const texts = rivals.map((each) => (key === 'suspension' ? suspensionWords(each) : shown(valueText(each))));
    const [first, second] = rivals;
    if (key === 'rider' && claims.told.get('tandem') === true && rivals.length === 2) {
      if (typeof first === 'number' && typeof second === 'number') {
        doubt(claims, ['rider'], bothRiders(first, second));
        continue;
      }
    }
    const named = `${texts.slice(0, -1).join(', ')} and ${texts.at(-1) ?? ''}`;
    doubt(claims, [key], {
      field: key,
      question:
        key === 'ring'
          ? `Which ring shall the plan be for, ${named}? It shows the neighbours of one as well.`
          : `${key === 'suspension' ? capital(named) : `${KEYS[key].label}: ${named}`} are told. Which is right?`,
      choices: rivals
        .slice(0, MOST_CHOICES)
        .map((each, at) => ({ label: texts[at] ?? '', setup: settling(key, each) })),
    });
  }
}

function suspensionWords(value: Value): string {
  return value === 'rear' ? 'rear suspension' : 'no rear suspension';
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** Two weights on a tandem are most likely its two riders. */
function bothRiders(oneKg: number, otherKg: number): Question {
  // Weights have four decimals at most; more would be noise of the addition.
  const bothKg = Math.round((oneKg + otherKg) * 1e4) / 1e4;
  return {
    field: 'rider',
    question: `Are ${oneKg} and ${otherKg} kg the two riders of the tandem? Their sum is what counts.`,
    choices: [bothKg, oneKg, otherKg]
      .filter((kg) => kg <= KEYS.rider.high)
      .map((kg, at) => ({ label: at === 0 ? `Together, ${kg} kg` : `In all, ${kg} kg`, setup: settling('rider', kg) })),
  };
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

/** "ebike" and "hub motor" say the same at two depths: the deeper one, or null. */
function whereMotorSits(one: Value, other: Value): Value | null {
  if (one === 'none' || other === 'none') return null;
  if (one === 'yes') return other;
  return other === 'yes' ? one : null;
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
