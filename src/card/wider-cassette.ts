import type { WiderCassette } from '../solve/wider-cassette.ts';
import { ROAD_WHEEL } from '../tables/chainlines.ts';
import { endsText, type GearsFacts, lowestWords } from './gears-facts.ts';
import { change, ratio } from './measures.ts';

/** How many cassettes are told in full; the others are named on one line. */
const IN_FULL = 3;

/** One range and every count of sprockets it is listed for. */
type Wider = WiderCassette & { readonly counts: readonly number[] };

/** Whether a cassette brings back today's lowest gear; rounding does not take it away. */
function keepsLowest(wider: WiderCassette): boolean {
  return wider.lowestChangePct <= 1e-9;
}

/** Which wider cassettes would bring back low gears, and what the rear derailleur must do for each. */
export function widerLines(facts: GearsFacts): string[] {
  const { ring, keepSprocketTeeth } = facts;
  if (ring === null || keepSprocketTeeth === null || facts.widerCassettes.length === 0) return [];
  if (keepSprocketTeeth <= facts.cassetteThen.largestTeeth) return [];
  const { full, rest } = split(byEnds(facts.widerCassettes));
  const lines = [`${ring.teeth}T keeps today's lowest gear with a largest sprocket of ${keepSprocketTeeth}T or more.`];
  if (!facts.widerCassettes.some(keepsLowest)) {
    const speeds = facts.speeds === null ? '' : ` with ${facts.speeds} sprockets`;
    lines.push(`No listed cassette${speeds} has that; these come nearest:`);
  }
  for (const wider of full) {
    const counts = facts.speeds === null ? ` (${wider.counts.join(', ')} sprockets)` : '';
    lines.push(
      `${endsText(wider)}${counts}: lowest ${ratio(wider.lowestRatio)} (${change(wider.lowestChangePct)}); ${derailleurWords(wider)}`,
    );
  }
  if (rest.length > 0) lines.push(`Also listed: ${rest.map(endsText).join(', ')}.`);
  if (full.some((wider) => wider.basis === 'memory'))
    lines.push('Some of these ranges are from memory: see what is sold.');
  if (full.some((wider) => wider.smallestTeeth < 11)) {
    lines.push('A smallest sprocket under 11T may need another freehub body on the wheel.');
  }
  const beadSeatMm = facts.wheel?.beadSeatMm ?? null;
  if (beadSeatMm !== null && beadSeatMm < ROAD_WHEEL.leastBeadSeatMm) {
    lines.push('On a small wheel a long cage hangs near the ground and the tyre: measure the room before you buy.');
  }
  return lines;
}

/** The one wider cassette to name in short: the narrowest that keeps the lowest gear, else the widest. */
export function widerLine(facts: GearsFacts): string | null {
  const { ring } = facts;
  if (ring === null || Math.round(ring.lowestChangePct) <= 0) return null;
  const best = facts.widerCassettes.find(keepsLowest) ?? facts.widerCassettes.at(-1);
  if (best === undefined) return null;
  const counts = facts.speeds === null ? ` (${best.speeds} sprockets)` : '';
  const before = `${Math.round(ring.lowestChangePct)} %${Math.round(best.lowestChangePct) > 0 ? '' : ' harder'}`;
  return `With ${endsText(best)}${counts} instead: ${lowestWords(best.lowestChangePct)}, not ${before}.`;
}

/** The same cassettes as something to try. */
export function widerActions(facts: GearsFacts): { readonly label: string; readonly setup: string }[] {
  const { ring, keepSprocketTeeth } = facts;
  if (ring === null || keepSprocketTeeth === null || keepSprocketTeeth <= facts.cassetteThen.largestTeeth) return [];
  return split(byEnds(facts.widerCassettes)).full.map((wider) => ({
    label: endsText(wider),
    setup: `newcassette=${endsText(wider)}`,
  }));
}

function derailleurWords(wider: Wider): string {
  if (wider.derailleurTakesIt === true) return 'your rear derailleur takes it.';
  if (wider.derailleurTakesIt === false) return 'your rear derailleur does not take it.';
  return `derailleur for ${wider.largestTeeth}T, capacity ${wider.capacityNeeded}.`;
}

function byEnds(cassettes: readonly WiderCassette[]): Wider[] {
  const grouped: Wider[] = [];
  for (const wider of cassettes) {
    const last = grouped.at(-1);
    if (last?.smallestTeeth === wider.smallestTeeth && last.largestTeeth === wider.largestTeeth) {
      grouped[grouped.length - 1] = { ...last, counts: [...last.counts, wider.speeds] };
    } else grouped.push({ ...wider, counts: [wider.speeds] });
  }
  return grouped;
}

/** The narrowest that keeps the lowest gear with the two below it; where none does, the three widest. */
function split(cassettes: readonly Wider[]): { readonly full: readonly Wider[]; readonly rest: readonly Wider[] } {
  const first = cassettes.findIndex(keepsLowest);
  const end = first < 0 ? cassettes.length : first + 1;
  const start = Math.max(0, end - IN_FULL);
  return { full: cassettes.slice(start, end), rest: [...cassettes.slice(0, start), ...cassettes.slice(end)] };
}
