import { CIRCLE_PAIRS } from '../tables/bolt-circles.ts';
import type { Amount, Item } from './items.ts';
import { KEYS } from './keys.ts';
import { fits } from './label-fits.ts';

type Side = 'outer' | 'inner';

/** A bolt circle told by the ring it carries, and where the items about it end. */
type Circle = { readonly side: Side; readonly mm: number; readonly inMm: boolean; readonly text: string; end: number };

const OUTER = /^(?:outer|big|large|middle)(?: (?:chain)?ring)?$/;
const INNER = /^(?:inner|small|little|granny)(?: (?:chain)?ring)?$/;

/**
 * Finds bolt circles that are told by the ring they carry or side by side, and puts them in as facts: "104 outer 64
 * inner", "inner 64 mm and outer 104", "104 and 64 bcd". No ring has so many teeth, so only one thing can be meant;
 * where a figure could be teeth as well it is left to whoever reads rings.
 */
export function withCircles(items: readonly Item[]): readonly Item[] {
  if (!items.some((item) => item.kind === 'amount' && isCircle(item))) return items;
  const read: Item[] = [];
  for (let at = 0; at < items.length; ) {
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
  const second = items[from + 1]?.kind === 'break' && !named ? from + 2 : from + 1;
  const other = items[second];
  if (one?.kind !== 'amount' || other?.kind !== 'amount' || (!named && belongs(items[at - 1], one))) return null;
  const [outer, inner] = one.quantity.value > other.quantity.value ? [one, other] : [other, one];
  if (!isCircle(outer) || !isCircle(inner) || !isPair(outer.quantity.value, inner.quantity.value)) return null;
  const behind = isCircleName(items[second + 1]);
  const bothInMm = one.quantity.unit === 'mm' && other.quantity.unit === 'mm';
  if (!named && !behind && !bothInMm) return null;
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
