import { setTimeout as wait } from 'node:timers/promises';
import type { Chance } from './chance.ts';
import { type Again, LATER_MS } from './front.ts';

/** A delivery under way: what comes for it, and for the one like it that went at the same time, where there is one. */
export type Sending<Reply> = { readonly once: Reply; readonly twin: Reply | null };

/** Sends a delivery as often as it is to come; `which` names the process it goes to, whatever their number. */
export function sent<Reply>(again: Again, chance: Chance, send: (which: number) => Reply): Sending<Reply> {
  const which = chance.between(0, 1000);
  if (again === 'later') {
    const afterMs = chance.between(LATER_MS.low, LATER_MS.high);
    void wait(afterMs, undefined, { ref: false }).then(() => send(chance.between(0, 1000)));
  }
  const once = send(which);
  if (again === 'same') return { once, twin: send(which) };
  return { once, twin: again === 'other' ? send(which + 1) : null };
}

/** To how many of so many processes it goes. */
export function processesOf(again: Again, count: number): number {
  return again === 'no' || again === 'same' ? 1 : Math.min(2, count);
}
