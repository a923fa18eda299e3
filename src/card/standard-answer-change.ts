import type { ResultChange } from '../records/result-difference.ts';
import { plain } from './measures.ts';

/** The ending of a name and the unit it stands for; a longer ending stands before one it ends in. */
const UNITS: readonly (readonly [ending: string, unit: string])[] = [
  ['InLbf', ' lbf·in'],
  ['Pitches', ' pitches'],
  ['Pairs', ' pairs'],
  ['Teeth', ' teeth'],
  ['Pct', ' %'],
  ['Kmh', ' km/h'],
  ['Deg', '°'],
  ['Mm', ' mm'],
  ['Nm', ' N·m'],
  ['G', ' g'],
  ['M', ' m'],
  ['N', ' N'],
];

/** Parts of an answer in the order a reader cares; what is not named comes after them, ring by ring comes last. */
const FIRST: readonly string[] = ['speaksOf', 'chain', 'mount', 'derailleur', 'torque', 'chainline', 'weight', 'wear'];
const LAST = 'rings';

/** Parts whose name alone says too little. */
const PART_NAMES: ReadonlyMap<string, string> = new Map([
  ['speaksOf', 'ring spoken of'],
  ['now', 'gears of today'],
]);

/** What tells the entries of a list apart, where they have it. */
const NAMING_KEYS = ['fastener', 'part', 'teeth', 'ringTeeth', 'allowancePitches', 'bcdMm'] as const;

/** Finer than any figure is compared. */
const MOST_DECIMALS = 9;

/** At most `most` changed figures as lines, what matters most first, and how many are left. */
export function changeLines(
  changes: readonly ResultChange[],
  pinned: string,
  now: string,
  most: number,
): readonly string[] {
  if (changes.length === 0) return [];
  const then: unknown = JSON.parse(pinned);
  const today: unknown = JSON.parse(now);
  const lines = [...changes]
    .sort((one, other) => rank(one.path) - rank(other.path))
    .slice(0, most)
    .map((change) => changeLine(change, then, today));
  const left = changes.length - lines.length;
  return left === 0 ? lines : [...lines, `And ${left} more; each of them is in the machine-readable answer.`];
}

/** "1 figure", "12 figures". */
export function figures(count: number): string {
  return count === 1 ? '1 figure' : `${count} figures`;
}

function rank(path: string): number {
  const [part = ''] = steps(path);
  if (part === LAST) return FIRST.length + 1;
  const place = FIRST.indexOf(part);
  return place === -1 ? FIRST.length : place;
}

function changeLine({ path, was, is }: ResultChange, then: unknown, today: unknown): string {
  const told = steps(path);
  const unit = unitOf(told.at(-1) ?? '');
  const decimals = apart(was, is);
  return `${nameOf(told, then, today)}: ${valueWords(was, unit, decimals)} then, ${valueWords(is, unit, decimals)} now.`;
}

/** "rings[2].lowestRatio" as rings, 2, lowestRatio. */
function steps(path: string): readonly string[] {
  const found: string[] = [];
  let step = '';
  for (const sign of path) {
    if (sign === '.' || sign === '[' || sign === ']') {
      if (step !== '') found.push(step);
      step = '';
    } else {
      step += sign;
    }
  }
  if (step !== '') found.push(step);
  return found;
}

function nameOf(told: readonly string[], then: unknown, today: unknown): string {
  let before = then;
  let after = today;
  const words = told.map((step, at) => {
    const isEntry = Array.isArray(before) || Array.isArray(after);
    before = within(before, step);
    after = within(after, step);
    if (isEntry) return entryName(before) ?? entryName(after) ?? `${Number(step) + 1}`;
    return (at === 0 ? PART_NAMES.get(step) : undefined) ?? plainName(step);
  });
  const name = words.join(', ');
  return `${name.slice(0, 1).toUpperCase()}${name.slice(1)}`;
}

function within(value: unknown, step: string): unknown {
  return typeof value === 'object' && value !== null && Object.hasOwn(value, step)
    ? (value as Readonly<Record<string, unknown>>)[step]
    : undefined;
}

function entryName(entry: unknown): string | null {
  for (const key of NAMING_KEYS) {
    const value = within(entry, key);
    if (typeof value === 'string') return value;
    if (typeof value === 'number') return key === 'teeth' || key === 'ringTeeth' ? `${value}T` : `${plain(value, 1)}`;
  }
  return null;
}

/** "targetPitches" as "target", because its unit stands behind the figure. */
function plainName(step: string): string {
  const unit = UNITS.find(([ending]) => step.endsWith(ending) && step.length > ending.length);
  let words = '';
  for (const sign of unit === undefined ? step : step.slice(0, -unit[0].length)) {
    words += sign === sign.toLowerCase() ? sign : ` ${sign.toLowerCase()}`;
  }
  return words;
}

function unitOf(step: string): string {
  return UNITS.find(([ending]) => step.endsWith(ending) && step.length > ending.length)?.[1] ?? '';
}

/** As many decimals as it takes to tell two figures apart, two at least. */
function apart(was: unknown, is: unknown): number {
  let decimals = 2;
  if (typeof was !== 'number' || typeof is !== 'number') return decimals;
  while (decimals < MOST_DECIMALS && plain(was, decimals) === plain(is, decimals)) decimals += 1;
  return decimals;
}

function valueWords(value: unknown, unit: string, decimals: number): string {
  switch (typeof value) {
    case 'number':
      return `${plain(value, decimals)}${unit}`;
    case 'string':
      return `“${value}”`;
    case 'boolean':
      return value ? 'yes' : 'no';
    case 'undefined':
      return 'nothing';
    default:
      break;
  }
  if (value === null) return 'not known';
  if (!Array.isArray(value)) return 'several figures';
  if (value.length === 0) return 'none';
  return value.some((each) => typeof each === 'object')
    ? `a list of ${value.length}`
    : value.map((each) => valueWords(each, unit, decimals)).join(', ');
}
