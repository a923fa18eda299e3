import type { SettledBike } from '../bike/settled.ts';
import { INNER_WIDTHS, JOINING_LINKS, OUTER_WIDTHS } from '../tables/chain-widths.ts';
import type { Block } from './card.ts';
import { plain } from './measures.ts';

const NARROW_WIDE_INNER = INNER_WIDTHS[1];
const ENDS = 'A joining link needs two inner ends; the link itself is the last outer pitch.';
const PIN = 'With a pin one end is inner, the other outer, and the pin is a new one.';
const CLUTCH = 'Clutch on the derailleur: off before joining, on again after.';
const OUTER_PLATES = "The ring's wide teeth sit under outer plates: check before you close the chain.";
const NEW_CHAIN = 'A new narrow-wide ring wants a new chain: a worn one grinds and lets go sooner.';

/** How many sprockets the chain has to serve, as far as it is known. */
function chainSpeeds(bike: SettledBike): number | null {
  return bike.newCassette?.sprockets?.length ?? bike.speeds ?? bike.cassette?.sprockets?.length ?? null;
}

/** "An 8-speed", "A 10-speed". */
function speedWords(speeds: number): string {
  return `${speeds === 8 || speeds === 11 ? 'An' : 'A'} ${speeds}-speed`;
}

function reuseLine(speeds: number | null): string {
  const row = speeds === null ? undefined : JOINING_LINKS.find((r) => speeds >= r.lowSpeeds && speeds <= r.highSpeeds);
  if (row === undefined) return 'From 10-speed up makers call joining links single-use: fit a new one.';
  return row.singleUse
    ? `Makers call ${speeds}-speed joining links single-use: fit a new one, made for ${speeds}-speed.`
    : `Joining links up to ${row.highSpeeds}-speed may go back on if they still snap shut firmly.`;
}

function widthLine(speeds: number | null): string | null {
  if (speeds === null) return null;
  const inner = INNER_WIDTHS.find((r) => speeds >= r.lowSpeeds && speeds <= r.highSpeeds);
  const outer = OUTER_WIDTHS.find((r) => r.speeds === speeds);
  const parts: string[] = [];
  if (inner !== undefined) parts.push(`${plain(inner.innerMm, 2)} mm wide inside`);
  if (outer !== undefined) {
    const range =
      outer.lowMm === outer.highMm ? plain(outer.lowMm, 2) : `${plain(outer.lowMm, 2)}–${plain(outer.highMm, 2)}`;
    parts.push(`${range} mm over the pins`);
  }
  return parts.length === 0 ? null : `${speedWords(speeds)} chain is ${parts.join(', ')}.`;
}

/**
 * How the chain is closed again, for this join and these speeds, and what a new ring asks of it. A plan has the clutch
 * among its steps and the new chain among its parts, so there they are not told twice.
 */
export function joiningBlocks(bike: SettledBike, telling: 'all' | 'plan'): readonly Block[] {
  const speeds = chainSpeeds(bike);
  const width = widthLine(speeds);
  const lines: string[] = [];
  if (bike.join !== 'pin') lines.push(ENDS, reuseLine(speeds));
  if (bike.join === 'pin') {
    lines.push('Put on your list: a joining link for these speeds, or the special pin.', ENDS, reuseLine(speeds), PIN);
  }
  lines.push(OUTER_PLATES);
  if (telling === 'all') {
    if (bike.clutch !== false) lines.push(CLUTCH);
    lines.push(NEW_CHAIN);
    if (width !== null) lines.push(width);
  }

  const blocks: Block[] = [{ kind: 'text', section: 'chain', title: 'Closing it again', lines }];
  if (bike.join !== 'link') {
    blocks.push({
      kind: 'caution',
      section: 'chain',
      level: 'care',
      text: 'Never press a pushed-out pin back in: it can let go under load. Joining link or special pin only.',
    });
  }
  if (speeds !== null && speeds < NARROW_WIDE_INNER.lowSpeeds) {
    const inner = INNER_WIDTHS[0].innerMm;
    blocks.push({
      kind: 'caution',
      section: 'chain',
      level: 'care',
      text:
        `Your chain is ${plain(inner, 2)} mm wide inside; a narrow-wide ring for ${NARROW_WIDE_INNER.lowSpeeds}- to ` +
        `${NARROW_WIDE_INNER.highSpeeds}-speed is made for ${plain(NARROW_WIDE_INNER.innerMm, 2)} mm. ` +
        'It rides loose there and holds less well: look for a ring made for your chain, or add a guide.',
    });
  }
  return blocks;
}
