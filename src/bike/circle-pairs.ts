import { BOLT_CIRCLES, CIRCLE_PAIRS } from '../tables/bolt-circles.ts';
import type { Amount, Item } from './items.ts';
import { KEYS } from './keys.ts';
import { fits } from './label-fits.ts';
import { settling } from './value-text.ts';

type Side = 'outer' | 'inner';

/** A bolt circle told by the ring it carries, and where the items about it end. */
type Circle = { readonly side: Side; readonly mm: number; readonly inMm: boolean; readonly text: string; end: number };

const OUTER = /^(?:outer|big|large|middle)(?: (?:chain)?ring)?$/;
const INNER = /^(?:inner|small|little|granny)(?: (?:chain)?ring)?$/;

/**
 * Finds bolt circles that are told by the ring they carry or side by side, and puts them in as facts: "104 outer 64
 * inner", "inner 64 mm and outer 104", "104 and 64 bcd"; two gaps of one crank as well. No ring has so many teeth, so only one thing can be meant;
 * where a figure could be teeth as well it is left to whoever reads rings.
 */
export function withCircles(items: readonly Item[]): readonly Item[] {
  if (!items.some((item) => item.kind === 'amount' && (isCircle(item) || fits('gap', item)))) return items;
  const read: Item[] = [];
  for (let at = 0; at < items.length; ) {
    const other = gapsAt(items, at) ?? crankAt(items, at);
    if (other !== null) {
      read.push(other.item);
      at = other.end;
      continue;
    }
    const found = pairAt(items, at) ?? besideAt(items, at) ?? singleAt(items, at);
    if (found === null) {
      const item = items[at];
      if (item !== undefined) read.push(item);
      at += 1;
      continue;
    }
    for (const { side, mm, text } of found) {
      read.push({ kind: 'fact', key: side === 'outer' ? 'bcd' : 'innerbcd', value: mm, text });
    }
    at = found.at(-1)?.end ?? at + 1;
  }
  return read;
}

type Read = { readonly item: Item; readonly end: number };

/** Two gaps of one crank differ by less: 70 and 77 are a wide case. */
const MOST_GAP_RATIO = 1.3;

/** "gaps 74.6 and 81", "66 mm and 70 mm apart": two gaps of one crank. */
function gapsAt(items: readonly Item[], at: number): Read | null {
  const first = isGap(items[at]) ? at + 1 : at;
  const [one, other, after] = [items[first], items[first + 1], items[first + 2]];
  if (one?.kind !== 'amount' || other?.kind !== 'amount' || !fits('gap', one) || !fits('gap', other)) return null;
  const values = [one.quantity.value, other.quantity.value];
  if (Math.max(...values) > MOST_GAP_RATIO * Math.min(...values)) return null;
  const behind = isGap(after);
  if (first === at && (!behind || belongs(items[at - 1], one))) return null;
  if (!behind && after?.kind === 'label' && fits(after.label, other)) return null;
  return {
    item: { kind: 'fact', key: 'gap', value: values, text: `gap ${one.text}/${other.text}` },
    end: first + (behind ? 3 : 2),
  };
}

/** "34 on a 130 crank": a circle to most, and a length as well. */
function crankAt(items: readonly Item[], at: number): Read | null {
  const [number, label, after] = [items[at], items[at + 1], items[at + 2]];
  if (number?.kind !== 'amount' || number.quantity.unit !== null || label?.kind !== 'label') return null;
  const { value } = number.quantity;
  if (label.label !== 'crank' || !CRANK.test(label.text) || !isListedCircle(value) || value < KEYS.crank.low)
    return null;
  if (belongs(items[at - 1], number) || after?.kind === 'amount') return null;
  const question = {
    field: 'bcd',
    question: `Is ${value} the bolt circle of the crank, or its length in mm?`,
    choices: [
      { label: `Bolt circle, ${value} mm`, setup: settling('bcd', value) },
      { label: `Length, ${value} mm`, setup: settling('crank', value) },
    ],
  } as const;
  return { item: { kind: 'doubt', question, about: ['bcd', 'crank'] }, end: at + 2 };
}

const CRANK = /^cranks?$/;

/** Whether a printed or usual crank has such a circle. */
export function isListedCircle(mm: number): boolean {
  return BOLT_CIRCLES.some((row) => row.bcdMm === mm);
}

function isGap(item: Item | undefined): boolean {
  return item?.kind === 'label' && item.label === 'gap';
}

/** "104 outer, 64 inner" and "outer 104 inner 64". */
function pairAt(items: readonly Item[], at: number): readonly Circle[] | null {
  for (const read of [numberFirst, nameFirst]) {
    const one = read(items, at);
    if (one === null) continue;
    const other = read(items, items[one.end]?.kind === 'break' ? one.end + 1 : one.end);
    if (other === null || other.side === one.side) continue;
    if (one.side === 'outer' ? other.mm < one.mm : one.mm < other.mm) return [one, other];
  }
  return null;
}

/** "104 and 64 bcd", "bolt circles 104 and 64", "104mm/64mm": two figures of one listed crank. */
function besideAt(items: readonly Item[], at: number): readonly Circle[] | null {
  const named = isCircleName(items[at]);
  const from = named ? at + 1 : at;
  const one = items[from];
  // "104 bcd, 64 bcd": each by its own name.
  const each = !named && isCircleName(items[from + 1]);
  const next = each ? from + 2 : from + 1;
  const second = items[next]?.kind === 'break' && !named ? next + 1 : next;
  const other = items[second];
  if (one?.kind !== 'amount' || other?.kind !== 'amount' || (!named && belongs(items[at - 1], one))) return null;
  const [outer, inner] = one.quantity.value > other.quantity.value ? [one, other] : [other, one];
  if (!isCircle(outer) || !isCircle(inner) || !isPair(outer.quantity.value, inner.quantity.value)) return null;
  const behind = isCircleName(items[second + 1]);
  const bothInMm = one.quantity.unit === 'mm' && other.quantity.unit === 'mm';
  if (each ? !behind : !named && !behind && !bothInMm) return null;
  const end = second + (behind ? 2 : 1);
  return [circle('outer', outer, end), circle('inner', inner, end)];
}

/** One circle alone: in millimetres, or with more than a ring has teeth, or the partner of one that is told. */
function singleAt(items: readonly Item[], at: number): readonly Circle[] | null {
  const first = numberFirst(items, at);
  // "142 outer 44": the word speaks of what is behind it.
  const one = first === null || items[first.end]?.kind === 'amount' ? null : first;
  const named = one ?? (items[at - 1]?.kind === 'amount' ? null : nameFirst(items, at));
  if (named === null || (one === null && isOther(items[named.end]))) return null;
  const sure = named.inMm || named.mm > KEYS.rings.high || (named.side === 'inner' && hasPartner(items, named.mm));
  return sure ? [named] : null;
}

function numberFirst(items: readonly Item[], at: number): Circle | null {
  const number = items[at];
  if (number?.kind !== 'amount' || !isCircle(number) || belongs(items[at - 1], number)) return null;
  const run = sideAt(items, at + 1);
  return run === null || !suits(run.side, number) ? null : circle(run.side, number, run.end);
}

function nameFirst(items: readonly Item[], at: number): Circle | null {
  const run = sideAt(items, at);
  const number = run === null ? undefined : items[run.end];
  if (run === null || number?.kind !== 'amount' || !isCircle(number) || !suits(run.side, number)) return null;
  const end = run.end + 1;
  const after = items[end];
  // "outer 104 bcd inner 64 bcd": the end of one is read as the beginning of the other.
  const closed = after?.kind === 'label' && after.label === 'bcd';
  return circle(run.side, number, closed ? end + 1 : end);
}

/** The side a run of names speaks of: "outer and middle" is the outer circle. */
function sideAt(items: readonly Item[], at: number): { readonly side: Side; readonly end: number } | null {
  let end = at;
  let side: Side | null = null;
  for (let item = items[end]; item?.kind === 'label'; item = items[end]) {
    const inner = item.label === 'ring-part' ? INNER.test(item.text) : item.text === 'bcd inner';
    const outer = item.label === 'ring-part' && OUTER.test(item.text);
    if (!(inner || outer) || (side !== null && side !== (inner ? 'inner' : 'outer'))) break;
    side = inner ? 'inner' : 'outer';
    end += 1;
  }
  return side === null ? null : { side, end };
}

function circle(side: Side, { quantity, text }: Amount, end: number): Circle {
  return { side, mm: quantity.value, inMm: quantity.unit === 'mm', text: `${text} ${side}`, end };
}

function isCircle({ quantity: { value, unit, written } }: Amount): boolean {
  return value >= KEYS.innerbcd.low && value <= KEYS.bcd.high && (unit === null || written.startsWith('m'));
}

/** An outer circle is larger than any ring has teeth, an inner one no larger than its key allows. */
function suits(side: Side, { quantity: { value } }: Amount): boolean {
  return side === 'outer' ? value > KEYS.rings.high : value <= KEYS.innerbcd.high;
}

/** Whether a figure belongs to the word before it: the 104 of "chain 104 outer 44". */
function belongs(before: Item | undefined, number: Amount): boolean {
  if (before?.kind !== 'label' || before.label === 'bcd' || before.label === 'crank') return false;
  return before.label !== 'circle-weak' && before.label !== 'ring-part' && fits(before.label, number);
}

function isCircleName(item: Item | undefined): boolean {
  return item?.kind === 'label' && item.label === 'bcd';
}

function isOther(item: Item | undefined): boolean {
  return item?.kind === 'label' && item.label !== 'bcd' && item.label !== 'ring-part';
}

function isPair(outerMm: number, innerMm: number): boolean {
  return CIRCLE_PAIRS.some((row) => row.outerMm === outerMm && row.innerMm === innerMm);
}

function hasPartner(items: readonly Item[], innerMm: number): boolean {
  return items.some((item) => {
    if (item.kind === 'fact')
      return item.key === 'bcd' && typeof item.value === 'number' && isPair(item.value, innerMm);
    return item.kind === 'amount' && isPair(item.quantity.value, innerMm);
  });
}
